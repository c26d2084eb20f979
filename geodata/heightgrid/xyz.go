package heightgrid

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/paulmach/orb"

	"crossfall/geodata"
)

// xyzFile is a list of x, y, z, one point a line, in any order.
type xyzFile struct {
	f    file
	cols columns
}

// openXYZ reads a list of x, y, z through once and finds out whether its points
// are the cells of a grid: places by even steps, at least 60 in 100 of them
// filled (default of ours). If not they stay scattered points.
//
// Faults: xyz-columns when the columns cannot be told, xyz-row for rows that
// cannot be read, with line and column.
func openXYZ(f file) (opened, error) {
	x := &xyzFile{f: f}
	head, err := f.bytes(0, min(f.size, scanBytes), "head")
	if err != nil {
		return opened{}, err
	}
	if x.cols, err = findColumns(head); err != nil {
		return opened{}, err
	}
	var e, n axis
	var count int64
	_, err = x.each(context.Background(), func(p orb.Point, _ float64) error {
		e.add(p[0])
		n.add(p[1])
		count++
		return nil
	})
	if err != nil {
		return opened{}, err
	}
	if count == 0 {
		return opened{}, refuse("file-empty", "the file has no row of x, y, z", "")
	}
	o := opened{format: "list of x, y, z", noData: math.NaN(), ref: x.cols.reference(), notes: x.cols.notes(), count: count}
	o.extent = orb.Bound{Min: orb.Point{e.low, n.low}, Max: orb.Point{e.high, n.high}}
	l, grid := latticeOf(&e, &n, count)
	if grid {
		o.place = l
		o.cells = func(ctx context.Context, w window, z []float64, t *tidier) (geodata.Faults, error) {
			return x.cells(ctx, l, w, z, t)
		}
	} else {
		o.points = x.points
		l = lattice{dx: o.extent.Max[0] - o.extent.Min[0], dy: o.extent.Max[1] - o.extent.Min[1], origin: o.extent.Center(), cols: 1, rows: 1}
	}
	if !o.ref.Geographic && o.ref.Unit == 0 && l.dx > 0 && l.dy > 0 && looksLikeDegrees(l) {
		o.ref.Geographic, o.ref.Guessed = true, true
	}
	return o, nil
}

// cells puts the points of a grid in their place. Where two fall into one cell
// the lower stays, so that the order of the file does not matter.
func (x *xyzFile) cells(ctx context.Context, l lattice, w window, z []float64, t *tidier) (geodata.Faults, error) {
	differ := 0
	fill(z, math.NaN())
	notes, err := x.each(ctx, func(p orb.Point, height float64) error {
		col := int(math.Round((p[0]-l.origin[0])/l.dx)) - w.col
		row := int(math.Round((p[1]-l.origin[1])/l.dy)) - w.row
		if col < 0 || row < 0 || col >= w.cols || row >= w.rows {
			return nil
		}
		cell := &z[row*w.cols+col]
		const apart = 0.01 // in the file's unit; default of ours
		if math.Abs(height-*cell) > apart {
			differ++
		}
		if !(*cell <= height) { // NaN too
			*cell = height
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	t.cells(z)
	if differ > 0 {
		notes.Add(geodata.Fault{
			Code: "xyz-cells-differ", Severity: geodata.Warning,
			Message: fmt.Sprintf("%d heights stand at a place that has another height already; the lower was taken", differ),
			Want:    "remove what is there twice",
		})
	}
	return notes, nil
}

// points gives the points within a bound.
func (x *xyzFile) points(ctx context.Context, within orb.Bound) ([]Point, geodata.Faults, error) {
	var points []Point
	notes, err := x.each(ctx, func(p orb.Point, height float64) error {
		if !within.Contains(p) {
			return nil
		}
		if len(points) == geodata.MostCloudPoints {
			return tooLarge(geodata.MostCloudPoints+1, "points or more", geodata.MostCloudPoints)
		}
		points = append(points, Point{p, height})
		return nil
	})
	return points, notes, err
}

// longestLine is the longest line that is read, in bytes.
const longestLine = 64 << 10

// each reads every row in the order of the file. A missing height is NaN. All
// bad rows, up to the limit, are reported together.
func (x *xyzFile) each(ctx context.Context, visit func(p orb.Point, height float64) error) (geodata.Faults, error) {
	in := bufio.NewReaderSize(x.f.from(0), longestLine)
	var faults geodata.Faults
	commas, line := 0, 0
	for len(faults) < mostFaults {
		text, err := in.ReadSlice('\n')
		line++
		if line == 1 {
			text = bytes.TrimPrefix(text, utf8BOM)
		}
		if errors.Is(err, bufio.ErrBufferFull) {
			faults.Add(geodata.Fault{Code: "xyz-row", Severity: geodata.Problem, Pos: geodata.Pos{Line: line}, Message: "the line is too long for a row of x, y, z"})
			break
		}
		if err != nil && !errors.Is(err, io.EOF) {
			return nil, err
		}
		if line%1024 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if line != x.cols.headerLine && !isComment(text) {
			row, fault := x.cols.row(text, line)
			switch {
			case fault.Code != "":
				faults.Add(fault)
			default:
				commas += row.commas
				if err := visit(row.at, row.height); err != nil {
					return nil, err
				}
			}
		}
		if err != nil {
			break
		}
	}
	if len(faults) == 0 && commas > 0 {
		return geodata.Faults{{Code: "grid-decimal-commas", Severity: geodata.Note,
			Message: fmt.Sprintf("%d numbers have a comma, which was read as the decimal sign", commas)}}, nil
	}
	return nil, faults.Err()
}

// isComment tells whether a line holds no row: it is blank or begins with # or
// two slashes.
func isComment(line []byte) bool {
	line = bytes.TrimSpace(line)
	return len(line) == 0 || line[0] == '#' || bytes.HasPrefix(line, []byte("//"))
}
