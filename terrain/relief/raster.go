package relief

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// mostCells keeps node numbers, and twice them, within 32 bits.
const mostCells = 1 << 30

// Raster is a grid of heights for ground too big for terrain.Grid: the same
// lattice, row 0 the southern row, but 4 bytes a node. NaN means no height.
//
// A float32 keeps seven digits: a height of 200 m to 8 micrometres, one of
// 2000 m to 0.06 mm. RasterOf can take a base height off to keep more.
type Raster struct {
	Origin     orb.Point // of the south-western node, metres
	Cell       float64   // spacing of nodes, metres, over 0
	Cols, Rows int
	Z          []float32 // len Cols*Rows, row by row from the south, metres
}

// RasterOf is the heights of a grid less a base height (metres), kept in
// float32.
func RasterOf(g *terrain.Grid, base float64) (*Raster, error) {
	if err := g.Check(); err != nil {
		return nil, err
	}
	r := &Raster{Origin: g.Origin, Cell: g.Cell, Cols: g.Cols, Rows: g.Rows, Z: make([]float32, len(g.Z))}
	for i, z := range g.Z {
		r.Z[i] = float32(z - base)
	}
	return r, nil
}

// Check says what is wrong with a raster put together by hand: the spacing
// must be over 0, there must be one height, or NaN, for every node, and no
// more than 1 073 741 824 of them.
func (r *Raster) Check() error {
	switch {
	case r == nil:
		return fmt.Errorf("no raster")
	case !(r.Cell > 0) || math.IsInf(r.Cell, 1):
		return fmt.Errorf("raster spacing %v m is not over 0", r.Cell)
	case r.Cols < 0 || r.Rows < 0 || (r.Cols > 0 && r.Rows > mostCells/r.Cols):
		return fmt.Errorf("raster of %d by %d nodes: no more than %d nodes in all can be worked", r.Cols, r.Rows, mostCells)
	case len(r.Z) != r.Cols*r.Rows:
		return fmt.Errorf("raster of %d by %d nodes holds %d heights", r.Cols, r.Rows, len(r.Z))
	}
	return nil
}

// At is the height at a node; NaN outside the raster.
func (r *Raster) At(col, row int) float64 {
	if col < 0 || row < 0 || col >= r.Cols || row >= r.Rows {
		return math.NaN()
	}
	return float64(r.Z[row*r.Cols+col])
}

// Node is the place of a node.
func (r *Raster) Node(col, row int) orb.Point {
	return orb.Point{r.Origin[0] + float64(col)*r.Cell, r.Origin[1] + float64(row)*r.Cell}
}

// like is a raster on the same lattice with other heights.
func (r *Raster) like(z []float32) *Raster {
	out := *r
	out.Z = z
	return &out
}

// Shape makes a raster a RowSource.
func (r *Raster) Shape() (cols, rows int) { return r.Cols, r.Rows }

// Spacing makes a raster a RowSource.
func (r *Raster) Spacing() (x, y float64) { return r.Cell, r.Cell }

// ReadRows makes a raster a RowSource. It hands out its own heights.
func (r *Raster) ReadRows(first, n int, _ []float32) ([]float32, error) {
	return r.Z[first*r.Cols : (first+n)*r.Cols], nil
}

// known32 reports whether a height is a number.
func known32(z float32) bool { return z-z == 0 }
