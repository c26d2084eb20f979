package relief

import (
	"slices"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// Directions of travel along the sides of cells, against the clock.
const (
	eastward = iota
	northward
	westward
	southward
)

// Rings draws round the squares of any nodes of a grid, given in ascending order:
// what lies inside an odd number of the rings is theirs.
func Rings(g *terrain.Grid, nodes []int) []orb.Ring { return outlineOf(g, nodes) }

// outlineOf draws round the squares of cells that touch at sides or corners:
// first the outer ring, against the clock, then the holes. Where two cells
// meet only at a corner the ring touches itself there.
func outlineOf(g *terrain.Grid, cells []int) orb.Polygon {
	b := border{stride: g.Cols + 1, ways: map[int]uint8{}}
	b.collect(g, cells)
	starts := make([]int, 0, len(b.ways))
	for corner := range b.ways {
		starts = append(starts, corner)
	}
	slices.Sort(starts)
	var rings orb.Polygon
	for _, corner := range starts {
		for b.ways[corner] != 0 {
			rings = append(rings, b.ring(g, corner))
		}
	}
	// The southernmost corner of all belongs to the outer ring, so it is first.
	return rings
}

// border holds, by corner of the lattice of squares, the ways that the border
// leaves it, a bit a direction, with the cells on the left.
type border struct {
	stride int
	ways   map[int]uint8
}

func (b *border) collect(g *terrain.Grid, cells []int) {
	inside := func(col, row int) bool {
		if col < 0 || row < 0 || col >= g.Cols || row >= g.Rows {
			return false
		}
		_, found := slices.BinarySearch(cells, row*g.Cols+col)
		return found
	}
	for _, i := range cells {
		col, row := i%g.Cols, i/g.Cols
		corner := row*b.stride + col // south-west of the cell
		if !inside(col, row-1) {
			b.ways[corner] |= 1 << eastward
		}
		if !inside(col+1, row) {
			b.ways[corner+1] |= 1 << northward
		}
		if !inside(col, row+1) {
			b.ways[corner+1+b.stride] |= 1 << westward
		}
		if !inside(col-1, row) {
			b.ways[corner+b.stride] |= 1 << southward
		}
	}
}

// ring follows the border from a corner until it is back, taking what it
// follows out. Of two ways on it takes the one to the right, which leads on to
// the cell that touches at the corner.
func (b *border) ring(g *terrain.Grid, start int) orb.Ring {
	first := eastward
	for b.ways[start]&(1<<first) == 0 {
		first++
	}
	ring := orb.Ring{b.place(g, start)}
	at, way := start, first
	for {
		at += [...]int{eastward: 1, northward: b.stride, westward: -1, southward: -b.stride}[way]
		before := way
		way = b.wayOn(at, before)
		if way != before || at == start {
			ring = append(ring, b.place(g, at))
		}
		// The first way is left in until the ring is back at it, so that a
		// corner met twice is not taken for the end.
		b.ways[at] &^= 1 << way
		if at == start && way == first {
			return ring
		}
	}
}

// wayOn is the way that leaves a corner for who arrives there by a way: right,
// straight on or left.
func (b *border) wayOn(corner, arriving int) int {
	for _, turn := range [...]int{3, 0} {
		if way := (arriving + turn) % 4; b.ways[corner]&(1<<way) != 0 {
			return way
		}
	}
	return (arriving + 1) % 4
}

func (b *border) place(g *terrain.Grid, corner int) orb.Point {
	col, row := float64(corner%b.stride)-.5, float64(corner/b.stride)-.5
	return orb.Point{g.Origin[0] + col*g.Cell, g.Origin[1] + row*g.Cell}
}
