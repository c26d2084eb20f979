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
	mostNodes  = 1500
)

// SimulatedSurface is one ground drawn by SimulateSurfaces, on a lattice. The
// gradient at a node is that of the fitted ground and the central difference of
// the departure from it over two squares, or over one at an edge: so nothing is
// smoothed across a break line but what is not known of both sides. Between
// nodes it is bilinear, and so continuous, as a path of water needs; shapes
// under two squares across are smoothed.
type SimulatedSurface struct {
	Departure   *terrain.Grid // height above the fitted ground, m
	east, north *terrain.Grid
}

// SimulateSurfaces draws grounds, as Simulate does, on one lattice of nodes over
// a bound. cell is the spacing in metres; 0 takes the finest, from 0.25 m up, at
// which the bound needs no more than 1500. smoothed is that of Draws. Errors are
// those of Simulate, and one for a bound or spacing that makes no lattice.
func SimulateSurfaces(s Surface, over orb.Bound, cell float64, draws int, seed uint64) (out []*SimulatedSurface, smoothed float64, err error) {
	w, h := over.Max[0]-over.Min[0], over.Max[1]-over.Min[1]
	if cell == 0 {
		cell = cellFor(w, h)
	}
	if !(w > 0) || !(h > 0) || !(cell > 0) || math.IsInf(cell, 1) || !(w/cell*h/cell < mostValues) {
		return nil, 0, fmt.Errorf("simulate ground: no lattice of %v m over %v by %v m", cell, w, h)
	}
	cols, rows := int(math.Ceil(w/cell))+1, int(math.Ceil(h/cell))+1
	lattice := terrain.NewGrid(over.Min, cell, cols, rows)
	nodes := make([]orb.Point, len(lattice.Z))
	for i := range nodes {
		nodes[i] = lattice.Node(i%cols, i/cols)
	}
	drawn, err := Simulate(s, nodes, draws, seed)
	if err != nil {
		return nil, 0, err
	}
	mean := means(s, nodes)
	slopes := make([]terrain.Gradient, len(nodes))
	for i, p := range nodes {
		slopes[i], _ = s.GradientAt(p)
	}
	out = make([]*SimulatedSurface, draws)
	for r, z := range drawn.Heights {
		grid := &terrain.Grid{Origin: over.Min, Cell: cell, Cols: cols, Rows: rows, Z: z}
		for i := range z {
			z[i] -= mean[i]
		}
		out[r] = &SimulatedSurface{grid, differences(grid, 1, 0), differences(grid, 0, 1)}
		for i, g := range slopes {
			out[r].east.Z[i] += g.East
			out[r].north.Z[i] += g.North
		}
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
			back, on := max(0, col-dc)+g.Cols*max(0, row-dr), min(g.Cols-1, col+dc)+g.Cols*min(g.Rows-1, row+dr)
			steps := 2
			if row < dr || col < dc {
				steps--
			}
			if row+dr >= g.Rows || col+dc >= g.Cols {
				steps--
			}
			out.Z[row*g.Cols+col] = 0
			if steps > 0 {
				out.Z[row*g.Cols+col] = (g.Z[on] - g.Z[back]) / (float64(steps) * g.Cell)
			}
		}
	}
	return out
}

// GradientAt is the gradient of the drawn ground; ok is false off the lattice.
func (s *SimulatedSurface) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	e, ok := s.east.HeightAt(p)
	if !ok {
		return terrain.Gradient{}, false
	}
	n, ok := s.north.HeightAt(p)
	return terrain.Gradient{East: e, North: n}, ok
}
