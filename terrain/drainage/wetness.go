package drainage

import (
	"context"
	"fmt"
	"math"

	"crossfall/terrain/relief"
)

// LeastWetFall is the fall below which the wetness index takes ground for this
// steep: a survey cannot tell it from level. Default of ours.
const LeastWetFall = .001

// WetnessIndex is ln(a / fall): the more ground above a metre of contour, and
// the flatter the place, the wetter (Beven & Kirkby 1979, Hydrological Sciences
// Bulletin 24(1), from memory). specific is a, the specific catchment area in
// metres; falls under LeastWetFall count as that. It ranks places of one plot
// and says nothing by itself.
func WetnessIndex(specific, fall float64) float64 {
	return math.Log(specific / max(fall, LeastWetFall))
}

// Wetness is the wetness index at every node, by node; NaN where it is unknown.
// g is what the network gathered. The specific catchment area is that through a
// node over the spacing, no less than half a spacing; the fall is taken from
// the ground that water runs over, by Evans' method.
func (n *Network) Wetness(ctx context.Context, g *Gathered) ([]float64, error) {
	if len(g.Area) != len(n.Ground.Z) {
		return nil, fmt.Errorf("wetness: areas of %d nodes for a raster of %d", len(g.Area), len(n.Ground.Z))
	}
	s, err := relief.SlopesOf(ctx, n.Ground, relief.SlopeRowsOptions{Edges: true, Want: relief.FallOnly})
	if err != nil {
		return nil, fmt.Errorf("wetness: %w", err)
	}
	cell := n.Ground.Cell
	out := make([]float64, len(g.Area))
	for i, area := range g.Area {
		fall := float64(s.Fall[i])
		out[i] = math.NaN()
		if fall >= 0 {
			out[i] = WetnessIndex(max(area/cell, cell/2), fall)
		}
	}
	return out, nil
}
