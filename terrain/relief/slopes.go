package relief

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// SlopeOptions says how slopes are taken.
type SlopeOptions struct {
	Method Method // default Evans
	// Edges carries the ground on in straight lines at the grid's edge and
	// beside missing heights. Default false: no gradient there.
	Edges bool
}

// SlopeGrid is the gradient, and how the ground bends, at every node of a grid.
type SlopeGrid struct {
	Origin     orb.Point // of the south-western node, metres
	Cell       float64   // metres
	Cols, Rows int
	Gradients  []terrain.Gradient // row by row from the south; NaN where unknown
	Seconds    []Second           // same order; NaN where unknown
	Extended   []bool             // same order; true where missing neighbours were carried on
}

// Slopes takes the gradient at every node of a grid. The error is that of
// Grid.Check.
func Slopes(g *terrain.Grid, opt SlopeOptions) (*SlopeGrid, error) {
	if err := g.Check(); err != nil {
		return nil, fmt.Errorf("slopes: %w", err)
	}
	n := len(g.Z)
	s := &SlopeGrid{
		Origin: g.Origin, Cell: g.Cell, Cols: g.Cols, Rows: g.Rows,
		Gradients: make([]terrain.Gradient, n), Seconds: make([]Second, n), Extended: make([]bool, n),
	}
	nan := math.NaN()
	for i := range n {
		w := Around(g, i%g.Cols, i/g.Cols)
		ok := w.Whole()
		if !ok && opt.Edges {
			w, ok = w.Extend()
			s.Extended[i] = ok
		}
		if !ok {
			s.Gradients[i], s.Seconds[i] = terrain.Gradient{East: nan, North: nan}, Second{nan, nan, nan}
			continue
		}
		s.Gradients[i] = w.Gradient(opt.Method, g.Cell)
		s.Seconds[i] = w.Second(opt.Method, g.Cell)
	}
	return s, nil
}

// At is the gradient at a node; ok is false where it is unknown.
func (s *SlopeGrid) At(col, row int) (g terrain.Gradient, ok bool) {
	if col < 0 || row < 0 || col >= s.Cols || row >= s.Rows {
		return terrain.Gradient{}, false
	}
	g = s.Gradients[row*s.Cols+col]
	return g, known(g.East) && known(g.North)
}

// CurvatureAt is how the ground bends at a node; ok is false where that is
// unknown or the ground is level.
func (s *SlopeGrid) CurvatureAt(col, row int) (c Curvature, ok bool) {
	g, ok := s.At(col, row)
	if !ok {
		return Curvature{}, false
	}
	return s.Seconds[row*s.Cols+col].Curvature(g)
}

// GradientAt is the gradient between nodes, by weighting the four around the
// point with its distance (bilinear). ok is false when one of those that count
// is unknown or the point is off the grid.
func (s *SlopeGrid) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	x, y := (p[0]-s.Origin[0])/s.Cell, (p[1]-s.Origin[1])/s.Cell
	if !(x >= 0 && y >= 0 && x <= float64(s.Cols-1) && y <= float64(s.Rows-1)) {
		return terrain.Gradient{}, false
	}
	col, row := int(x), int(y)
	fx, fy := x-float64(col), y-float64(row)
	var sum terrain.Gradient
	for i, weight := range [...]float64{(1 - fx) * (1 - fy), fx * (1 - fy), (1 - fx) * fy, fx * fy} {
		if weight == 0 {
			continue
		}
		g, ok := s.At(col+i%2, row+i/2)
		if !ok {
			return terrain.Gradient{}, false
		}
		sum.East += weight * g.East
		sum.North += weight * g.North
	}
	return sum, true
}
