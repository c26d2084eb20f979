package surface

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

const (
	// finestCell is the smallest spacing of nodes chosen for drawn ground,
	// metres, under which spot heights tell nothing, and mostNodes the number of
	// nodes over a whole bound past which it is made wider; defaults of ours.
	finestCell = 0.25
	mostNodes  = 2000
)

// Departure is how far one drawn ground lies from the fitted one, at the nodes
// of a lattice: the mean keeps all its detail, and nothing is smoothed across a
// break line but what is not known of both sides. Between nodes the height and
// the gradient are each bilinear, the gradient at a node being the central
// difference over two squares, or over one at an edge; so it is continuous, as
// a path of water needs, and shapes under two squares across are smoothed.
type Departure struct {
	Heights     *terrain.Grid // m, above the fitted ground
	east, north *terrain.Grid
}

// Departures draws grounds, as Simulate does, on one lattice of nodes over a
// bound, leaving out the nodes for which keep is false (nil keeps all). cell is
// the spacing in metres; 0 takes the finest, from 0.25 m up, at which the whole
// bound needs no more than 2000. smoothed is that of Draws. Errors are those of
// Simulate, and one for a bound or spacing that makes no lattice.
func Departures(s Surface, over orb.Bound, cell float64, keep func(orb.Point) bool, draws int, seed uint64) (out []*Departure, smoothed float64, err error) {
	w, h := over.Max[0]-over.Min[0], over.Max[1]-over.Min[1]
	if cell == 0 {
		cell = cellFor(w, h)
	}
	if !(w > 0) || !(h > 0) || !(cell > 0) || math.IsInf(cell, 1) || !(w/cell*h/cell < mostValues) {
		return nil, 0, fmt.Errorf("simulate ground: no lattice of %v m over %v by %v m", cell, w, h)
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
	drawn, err := Simulate(s, nodes, draws, seed)
	if err != nil {
		return nil, 0, err
	}
	mean := means(s, nodes)
	out = make([]*Departure, draws)
	for r, z := range drawn.Heights {
		grid := terrain.NewGrid(over.Min, cell, cols, rows)
		for i, at := range place {
			grid.Z[at] = z[i] - mean[i]
		}
		out[r] = &Departure{grid, differences(grid, 1, 0), differences(grid, 0, 1)}
	}
	return out, drawn.Smoothed, nil
}

// cellFor is the finest spacing at which a rectangle needs at most mostNodes.
func cellFor(w, h float64) float64 {
	cell := finestCell
	for (math.Ceil(w/cell)+1)*(math.Ceil(h/cell)+1) > mostNodes && !math.IsInf(cell, 1) {
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

// GradientAt is the gradient of the departure, to be added to that of the fitted
// ground; ok is false off the lattice.
func (d *Departure) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	e, ok := d.east.HeightAt(p)
	if !ok {
		return terrain.Gradient{}, false
	}
	n, ok := d.north.HeightAt(p)
	return terrain.Gradient{East: e, North: n}, ok
}
