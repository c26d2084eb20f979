package terrain

import (
	"math"

	"github.com/paulmach/orb"
)

// SlopeField is gradients kept at the nodes of a lattice and read between them
// by bilinear interpolation: the quick stand-in for a fitted surface where one
// is asked thousands of times, as when beds are tried all over a plot.
type SlopeField struct{ east, north *Grid }

// NewSlopeField asks gradient for every node over a bound; cell is metres.
// Reading it back errs by at most the change of gradient across one cell.
func NewSlopeField(over orb.Bound, cell float64, gradient func(orb.Point) (Gradient, bool)) *SlopeField {
	cols := int(math.Ceil((over.Max[0]-over.Min[0])/cell)) + 1
	rows := int(math.Ceil((over.Max[1]-over.Min[1])/cell)) + 1
	f := &SlopeField{NewGrid(over.Min, cell, cols, rows), NewGrid(over.Min, cell, cols, rows)}
	for row := range rows {
		for col := range cols {
			if g, ok := gradient(f.east.Node(col, row)); ok {
				f.east.Set(col, row, g.East)
				f.north.Set(col, row, g.North)
			}
		}
	}
	return f
}

// GradientAt is the gradient at a point; ok is false outside the lattice or
// beside a node without one.
func (f *SlopeField) GradientAt(p orb.Point) (Gradient, bool) {
	e, ok := f.east.HeightAt(p)
	if !ok {
		return Gradient{}, false
	}
	n, ok := f.north.HeightAt(p)
	return Gradient{East: e, North: n}, ok
}
