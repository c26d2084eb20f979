package access

import (
	"math"

	"github.com/paulmach/orb"
)

// Cells are leastCell a side, m; on plots that would take more than fewCells of
// them larger, up to coarseCell, at which a path as wide as a barrow is still
// followed round corners; and larger than that only past mostCells. Defaults of
// ours.
const (
	leastCell  = 0.25
	coarseCell = 0.5
	fewCells   = 4000
	mostCells  = 40000
)

// lattice is the plot cut into square cells, row by row from the south-west.
type lattice struct {
	origin     orb.Point
	cell       float64
	cols, rows int
}

func newLattice(b orb.Bound) lattice {
	wide, deep := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	l := lattice{origin: b.Min, cell: math.Max(leastCell, math.Min(coarseCell, math.Sqrt(wide*deep/fewCells)))}
	l.cell = math.Max(l.cell, math.Sqrt(wide*deep/mostCells))
	l.cols = max(1, int(math.Ceil(wide/l.cell)))
	l.rows = max(1, int(math.Ceil(deep/l.cell)))
	return l
}

func (l lattice) count() int { return l.cols * l.rows }

// centre is the middle of a cell.
func (l lattice) centre(i int) orb.Point {
	return orb.Point{
		l.origin[0] + (float64(i%l.cols)+0.5)*l.cell,
		l.origin[1] + (float64(i/l.cols)+0.5)*l.cell,
	}
}

// near is the cell that holds a point, or the nearest one.
func (l lattice) near(p orb.Point) int {
	col := int(math.Floor((p[0] - l.origin[0]) / l.cell))
	row := int(math.Floor((p[1] - l.origin[1]) / l.cell))
	return min(max(row, 0), l.rows-1)*l.cols + min(max(col, 0), l.cols-1)
}

// step is the cell so many columns and rows on; ok is false past the edge.
func (l lattice) step(i, east, north int) (int, bool) {
	col, row := i%l.cols+east, i/l.cols+north
	if col < 0 || row < 0 || col >= l.cols || row >= l.rows {
		return 0, false
	}
	return row*l.cols + col, true
}

// around calls f with every cell whose middle may lie within a bound.
func (l lattice) around(b orb.Bound, f func(i int)) {
	clamp := func(v float64, n int) int { return int(math.Max(0, math.Min(v, float64(n-1)))) }
	west, east := clamp(math.Floor((b.Min[0]-l.origin[0])/l.cell), l.cols), clamp((b.Max[0]-l.origin[0])/l.cell, l.cols)
	south, north := clamp(math.Floor((b.Min[1]-l.origin[1])/l.cell), l.rows), clamp((b.Max[1]-l.origin[1])/l.cell, l.rows)
	for row := south; row <= north; row++ {
		for col := west; col <= east; col++ {
			f(row*l.cols + col)
		}
	}
}
