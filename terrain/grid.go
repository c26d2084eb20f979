package terrain

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// Grid is a rectangle of heights at the nodes of a square lattice. Row 0 is
// the southern row and column 0 the western one; NaN means no height.
type Grid struct {
	Origin orb.Point // of the south-western node, metres
	Cell   float64   // spacing of nodes, metres, over 0
	Cols   int
	Rows   int
	Z      []float64 // len Cols*Rows, row by row from the south
}

// NewGrid is a grid of NaN.
func NewGrid(origin orb.Point, cell float64, cols, rows int) *Grid {
	g := &Grid{Origin: origin, Cell: cell, Cols: cols, Rows: rows, Z: make([]float64, cols*rows)}
	for i := range g.Z {
		g.Z[i] = math.NaN()
	}
	return g
}

// Check says what is wrong with a grid put together by hand: the spacing must
// be over 0 and there must be one height, or NaN, for every node.
func (g *Grid) Check() error {
	switch {
	case g == nil:
		return fmt.Errorf("no grid")
	case !(g.Cell > 0) || math.IsInf(g.Cell, 1):
		return fmt.Errorf("grid spacing %v m is not over 0", g.Cell)
	case g.Cols < 0 || g.Rows < 0 || len(g.Z) != g.Cols*g.Rows:
		return fmt.Errorf("grid of %d by %d nodes holds %d heights", g.Cols, g.Rows, len(g.Z))
	}
	return nil
}

// At is the height at a node; NaN outside the grid.
func (g *Grid) At(col, row int) float64 {
	if col < 0 || row < 0 || col >= g.Cols || row >= g.Rows {
		return math.NaN()
	}
	return g.Z[row*g.Cols+col]
}

// Set writes the height of a node, which must lie inside the grid.
func (g *Grid) Set(col, row int, z float64) { g.Z[row*g.Cols+col] = z }

// Node is the place of a node.
func (g *Grid) Node(col, row int) orb.Point {
	return orb.Point{g.Origin[0] + float64(col)*g.Cell, g.Origin[1] + float64(row)*g.Cell}
}

// Sample lays a grid over a bound and asks h for every node; nodes where keep
// is false or h has no height stay NaN. cell is metres, over 0.
func Sample(h Heights, over orb.Bound, cell float64, keep func(orb.Point) bool) *Grid {
	cols := int(math.Ceil((over.Max[0]-over.Min[0])/cell)) + 1
	rows := int(math.Ceil((over.Max[1]-over.Min[1])/cell)) + 1
	g := NewGrid(over.Min, cell, cols, rows)
	for row := range rows {
		for col := range cols {
			p := g.Node(col, row)
			if keep != nil && !keep(p) {
				continue
			}
			if z, ok := h.HeightAt(p); ok {
				g.Set(col, row, z)
			}
		}
	}
	return g
}

// onLine is how near a line of nodes, in parts of a cell, a point must be to lie on
// it. It covers rounding only, so that the same place of a plot is read alike
// wherever the plot lies.
const onLine = 1e-7

// HeightAt reads between the nodes by bilinear interpolation; ok is false
// outside the lattice or in a square with a node that has no height. On a line of
// nodes only those on either hand along it are asked.
func (g *Grid) HeightAt(p orb.Point) (float64, bool) {
	c, fx, okX := part((p[0]-g.Origin[0])/g.Cell, g.Cols)
	r, fy, okY := part((p[1]-g.Origin[1])/g.Cell, g.Rows)
	if !okX || !okY {
		return math.NaN(), false
	}
	z := g.along(c, r, fx)
	if fy > 0 {
		z = z*(1-fy) + g.along(c, r+1, fx)*fy
	}
	return z, !math.IsNaN(z)
}

// part tells a place along a side of the lattice, in cells, as the node before it
// and the part of a cell past that; ok is false past the ends.
func part(x float64, nodes int) (node int, past float64, ok bool) {
	if near := math.Round(x); math.Abs(x-near) <= onLine {
		x = near
	}
	// Written so that NaN fails too.
	if !(x >= 0 && x <= float64(nodes-1)) {
		return 0, 0, false
	}
	return int(x), x - math.Trunc(x), true
}

// along is the height in a row, a part of a cell past a node.
func (g *Grid) along(col, row int, past float64) float64 {
	z := g.At(col, row)
	if past > 0 {
		z = z*(1-past) + g.At(col+1, row)*past
	}
	return z
}
