package siting

import (
	"context"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/caution"
	"crossfall/siting/rain"
	"crossfall/terrain"
	"crossfall/terrain/surface"
)

// newJudge gathers what every bed is judged by.
func newJudge(p *geodata.Plot, b Brief, fit *surface.Fit, burst rain.Burst, r reliefOf) judge {
	_, _, general := surface.FallInterval(fit.Plane.Gradient, fit.Plane.Covariance, fit.Plane.Quantile)
	cap, _ := caution.DepthCap(p)
	j := judge{plot: p, brief: b, fit: fit, general: general, rate: burst.Rate, cap: cap}
	bound := p.Boundary.Bound()
	cell := math.Max(slopeCell, math.Max(bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1])/100)
	j.field = terrain.NewSlopeField(bound.Pad(cell), cell, fit.GradientAt)
	j.above, j.aboveExtent = withHillside(p, j.field)
	j.quick, j.surveyed = j.lattices(), new(surveyed)
	j.gather = j.gathered()
	for i, h := range r.hollows {
		j.ponds = append(j.ponds, caution.Hollow{
			Name: fmt.Sprintf("hollow %d", i+1), Shape: h.Outline, At: h.Deepest, Depth: h.Depth,
		})
	}
	j.access = j.newAccess()
	return j
}

// place works out the beds drawn by hand and those wished for.
func (j judge) place(ctx context.Context) ([]decision, found, error) {
	beds := drawnBeds(j.plot)
	drawn := make([]decision, len(beds))
	err := shareOut(ctx, len(beds), func(i int) {
		if why := misplaced(j.plot, beds[i], beds[:i]); why != "" {
			drawn[i] = j.decide(beds[i], why)
			return
		}
		drawn[i] = j.settle(beds[i])
	})
	if err != nil {
		return nil, found{}, err
	}
	return j.arrange(ctx, drawn)
}
