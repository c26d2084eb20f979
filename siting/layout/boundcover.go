package layout

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// cover is points of the ground and the places that lie over them, each grown by
// half a path. Those under the strip of a row are kept in order along it, so that
// the points under one place are a run of them, and their sum a difference of two.
type cover struct {
	count  int
	strips [][]int32  // by row: the points of its strip, in order along it
	runs   [][2]int32 // by place: the run of its row's strip that lies under it
}

// mostCover is about how many points all strips hold: points stand further apart
// where there are many rows; finest is the part of a grown bed's width that they
// stand apart at the closest. Defaults of ours.
const (
	mostCover = 1_500_000
	finest    = 1.0 / 9
)

// spacingOf is how far apart the points stand, m, at most a little under the
// width of a grown bed, so that every place holds points.
func spacingOf(f *field) float64 {
	long, short := f.length+f.path, f.width+f.path
	strips := 0.0 // m2
	for _, r := range f.rows {
		strips += (f.sites[r.end-1].along - f.sites[r.first].along + long) * short
	}
	return math.Min(0.7*short, math.Max(finest*short, math.Sqrt(strips/mostCover)))
}

func coverOf(f *field) cover {
	spacing := spacingOf(f)
	bound := orb.Bound{Min: orb.Point{math.Inf(1), math.Inf(1)}, Max: orb.Point{math.Inf(-1), math.Inf(-1)}}
	for _, s := range f.sites {
		bound = bound.Extend(orb.Point{s.x, s.y})
	}
	bound = bound.Pad(f.length + f.path)
	cols := int((bound.Max[0]-bound.Min[0])/spacing) + 1
	rows := int((bound.Max[1]-bound.Min[1])/spacing) + 1
	c := cover{count: cols * rows, strips: make([][]int32, len(f.rows)), runs: make([][2]int32, len(f.sites))}
	inParallel(len(f.directions), func(d int) {
		dir := f.directions[d]
		points := make([]coverPoint, 0, c.count)
		for row := range rows {
			for col := range cols {
				x, y := bound.Min[0]+float64(col)*spacing, bound.Min[1]+float64(row)*spacing
				points = append(points, coverPoint{y*dir.east - x*dir.north, x*dir.east + y*dir.north, int32(row*cols + col)})
			}
		}
		c.fill(f, dir, points)
	})
	return c
}

// coverPoint is a point in the frame of one direction.
type coverPoint struct {
	across, along float64
	index         int32
}

// fill finds the strips of the rows of one direction, and the runs of their places.
// Points count that lie strictly inside, so that two beds that only touch share none.
func (c *cover) fill(f *field, dir direction, points []coverPoint) {
	slices.SortFunc(points, func(a, b coverPoint) int {
		return cmp.Or(cmp.Compare(a.across, b.across), cmp.Compare(a.index, b.index))
	})
	long, short := (f.length+f.path)/2-1e-6, (f.width+f.path)/2-1e-6
	from, to := 0, 0
	var strip []coverPoint
	for r := dir.first; r < dir.end; r++ {
		row := f.rows[r]
		for from < len(points) && points[from].across <= row.across-short {
			from++
		}
		for to < len(points) && points[to].across < row.across+short {
			to++
		}
		low, high := f.sites[row.first].along-long, f.sites[row.end-1].along+long
		strip = strip[:0]
		for _, p := range points[from:to] {
			if p.along > low && p.along < high {
				strip = append(strip, p)
			}
		}
		slices.SortFunc(strip, func(a, b coverPoint) int {
			return cmp.Or(cmp.Compare(a.along, b.along), cmp.Compare(a.index, b.index))
		})
		c.strips[r] = make([]int32, len(strip))
		for i, p := range strip {
			c.strips[r][i] = p.index
		}
		first, last := 0, 0
		for i := row.first; i < row.end; i++ {
			for first < len(strip) && strip[first].along <= f.sites[i].along-long {
				first++
			}
			for last < len(strip) && strip[last].along < f.sites[i].along+long {
				last++
			}
			c.runs[i] = [2]int32{int32(first), int32(last)}
		}
	}
}

// under is the points under the i-th place.
func (c *cover) under(f *field, i int) []int32 {
	return c.strips[f.sites[i].row][c.runs[i][0]:c.runs[i][1]]
}
