package walk

import (
	"math"

	"crossfall/geodata"
	"crossfall/terrain/surface"
)

// placeMatters is by how much the error of a place must widen that of a height
// before the heights are weighed anew; a default of ours.
const placeMatters = 1.01

// withPlaceErrors widens the standard deviations of heights by the gradient
// there times the error of their places, as the propagation of errors has it
// (effective variance: Orear 1982, American Journal of Physics 50, from memory).
// The gradient is that of a first fit; one round is enough, since the weights
// hardly move it. matters is false when no height changes enough to count.
func withPlaceErrors(p *geodata.Plot, fit *surface.Fit) (spots []geodata.SpotHeight, matters bool) {
	sigma := stated(p)
	if sigma == 0 {
		sigma = surface.DefaultSigma
	}
	spots = append([]geodata.SpotHeight(nil), p.Spots...)
	for i, s := range spots {
		if s.PositionError == 0 {
			continue
		}
		g, ok := fit.GradientAt(s.At)
		if !ok {
			continue
		}
		own := s.Sigma
		if own == 0 {
			own = sigma
		}
		spots[i].Sigma = math.Hypot(own, math.Hypot(g.East, g.North)*s.PositionError)
		matters = matters || spots[i].Sigma > placeMatters*own
	}
	return spots, matters
}
