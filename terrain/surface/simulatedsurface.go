package surface

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// finestCell is the smallest spacing of nodes chosen for simulated ground,
// metres; a default of ours, under which spot heights tell nothing.
const finestCell = 0.25

// SimulatedSurface is one ground drawn by SimulateSurfaces: heights at the nodes of a
// lattice. Between them height and gradient are each bilinear, the gradient at
// a node being the central difference over two squares, or over one at an
// edge; so shapes under two squares across are smoothed, and the gradient is
// continuous, as a path of water needs.
type SimulatedSurface struct {
	Grid        *terrain.Grid
	east, north *terrain.Grid
}

// SimulateSurfaces draws grounds, as Simulate does, on one lattice of nodes
// over a bound, leaving out the nodes for which keep is false (nil keeps all).
// cell is the spacing in metres; 0 takes the finest, from 0.25 m up, at which
// the whole bound needs no more than MostNodes. Errors are those of Simulate,
// and one for a bound or spacing that makes no lattice.
func SimulateSurfaces(s Surface, over orb.Bound, cell float64, keep func(orb.Point) bool, draws int, seed uint64) ([]*SimulatedSurface, error) {
	w, h := over.Max[0]-over.Min[0], over.Max[1]-over.Min[1]
	if cell == 0 {
		cell = cellFor(w, h)
	}
	if !(w > 0) || !(h > 0) || !(cell > 0) || math.IsInf(cell, 1) || !(w/cell*h/cell < mostValues) {
		return nil, fmt.Errorf("simulate ground: no lattice of %v m over %v by %v m", cell, w, h)
	}
	cols, rows := int(math.Ceil(w/cell))+1, int(math.Ceil(h/cell))+1
	frame := terrain.NewGrid(over.Min, cell, cols, rows)
	var nodes []orb.Point
	var place []int // of each node in the grid
	for i := range frame.Z {
		if p := frame.Node(i%cols, i/cols); keep == nil || keep(p) {
			nodes, place = append(nodes, p), append(place, i)
		}
	}
	heights, err := Simulate(s, nodes, draws, seed)
	if err != nil {
		return nil, err
	}
	out := make([]*SimulatedSurface, len(heights))
	for r, z := range heights {
		grid := terrain.NewGrid(over.Min, cell, cols, rows)
		for i, at := range place {
			grid.Z[at] = z[i]
		}
		out[r] = &SimulatedSurface{grid, differences(grid, 1, 0), differences(grid, 0, 1)}
	}
	return out, nil
}

// cellFor is the finest spacing at which a rectangle needs at most MostNodes.
func cellFor(w, h float64) float64 {
	cell := finestCell
	for (math.Ceil(w/cell)+1)*(math.Ceil(h/cell)+1) > MostNodes && !math.IsInf(cell, 1) {
		cell *= 1.02
	}
	return cell
}

// differences are the gradients at the nodes along one step of the lattice.
func differences(g *terrain.Grid, dc, dr int) *terrain.Grid {
	out := terrain.NewGrid(g.Origin, g.Cell, g.Cols, g.Rows)
	for row := range g.Rows {
		for col := range g.Cols {
			here, back, on := g.At(col, row), g.At(col-dc, row-dr), g.At(col+dc, row+dr)
			span := 2 * g.Cell
			if math.IsNaN(back) {
				back, span = here, g.Cell
			}
			if math.IsNaN(on) {
				on, span = here, span-g.Cell
			}
			if span > 0 && !math.IsNaN(here) {
				out.Set(col, row, (on-back)/span)
			}
		}
	}
	return out
}

// HeightAt is the height of the drawn ground; ok is false off the lattice.
func (s *SimulatedSurface) HeightAt(p orb.Point) (float64, bool) { return s.Grid.HeightAt(p) }

// GradientAt is the gradient of the drawn ground; ok is false off the lattice.
func (s *SimulatedSurface) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	e, ok := s.east.HeightAt(p)
	if !ok {
		return terrain.Gradient{}, false
	}
	n, ok := s.north.HeightAt(p)
	return terrain.Gradient{East: e, North: n}, ok
}
