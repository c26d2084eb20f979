package drainage

import (
	"context"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"crossfall/terrain/relief"
)

// DampReason says why a place is likely to be damp, in words for people.
type DampReason string

// The reasons.
const (
	HoldsWater   DampReason = "a hollow that holds water"
	GathersWater DampReason = "water from above gathers here"
)

// Defaults of ours.
const (
	// DefaultWetter is how far a node's wetness index must lie above the
	// median of the plot: 1 is 2.7 times as much water for the fall.
	DefaultWetter = 1
	// DefaultWettest is the share of the plot looked at, wettest first.
	DefaultWettest = .1
)

// DampOptions says what counts as damp.
type DampOptions struct {
	Routing Routing              // default DInfinity
	Hollows relief.HollowOptions // which hollows count, and where water can leave
	Wetter  float64              // default 1
	Wettest float64              // default .1
	// LeastArea is the least area of gathering ground that counts, m2. Default
	// four nodes.
	LeastArea float64
}

// Damp is a place that is likely to stay wet in winter.
type Damp struct {
	Why     DampReason
	At      orb.Point // the lowest point of a hollow, the wettest of gathering ground
	Area    float64   // m2
	Depth   float64   // of standing water when full, metres; 0 for gathering ground
	Wetness float64   // highest wetness index; see WetnessIndex
	Nodes   []int     // rising
}

// DampPlaces finds where ground is likely to stay damp: hollows that hold
// water, the largest first, then ground where the wetness index is high beside
// the rest, the largest first. Ground that falls evenly has none: the index
// ranks places within one plot only. The error is that of Raster.Check or of
// the context.
func DampPlaces(ctx context.Context, r *relief.Raster, opt DampOptions) ([]Damp, error) {
	if !(opt.Wetter > 0) {
		opt.Wetter = DefaultWetter
	}
	if !(opt.Wettest > 0) {
		opt.Wettest = DefaultWettest
	}
	n, err := Route(r, GridOptions{Routing: opt.Routing, NodataIsWall: opt.Hollows.NodataIsWall})
	if err != nil {
		return nil, err
	}
	hollows, err := relief.HollowsOf(r, opt.Hollows)
	if err != nil {
		return nil, err
	}
	wetness, err := n.Wetness(ctx, n.Accumulate())
	if err != nil {
		return nil, err
	}
	taken := make([]bool, len(r.Z))
	var out []Damp
	for _, h := range hollows {
		d := Damp{Why: HoldsWater, At: h.Deepest, Area: h.Area, Depth: h.Depth, Nodes: h.Cells, Wetness: math.Inf(-1)}
		for _, i := range h.Cells {
			taken[i] = true
			d.Wetness = max(d.Wetness, wetness[i])
		}
		out = append(out, d)
	}
	return append(out, gathering(n, wetness, taken, opt)...), nil
}

// gathering groups the nodes wetter than most that touch one another.
func gathering(n *Network, wetness []float64, taken []bool, opt DampOptions) []Damp {
	limit := wetLimit(wetness, opt)
	wet := func(i int) bool { return !taken[i] && wetness[i] >= limit }
	square := n.Ground.Cell * n.Ground.Cell
	least := max(opt.LeastArea, 0)
	if least == 0 {
		least = 4 * square
	}
	var out []Damp
	for i := range wetness {
		if !wet(i) {
			continue
		}
		nodes := []int{i}
		taken[i] = true
		for at := 0; at < len(nodes); at++ {
			for way := range relief.Out {
				if k := n.neighbour(nodes[at], way); k >= 0 && wet(k) {
					taken[k] = true
					nodes = append(nodes, k)
				}
			}
		}
		if d := gathered(n, nodes, wetness); d.Area >= least-1e-9 {
			out = append(out, d)
		}
	}
	slices.SortStableFunc(out, func(a, b Damp) int { return len(b.Nodes) - len(a.Nodes) })
	return out
}

// wetLimit is the index that a node must have to count.
func wetLimit(wetness []float64, opt DampOptions) float64 {
	var sorted []float64
	for _, w := range wetness {
		if !math.IsNaN(w) {
			sorted = append(sorted, w)
		}
	}
	if len(sorted) == 0 {
		return math.Inf(1)
	}
	slices.Sort(sorted)
	wettest := sorted[min(int(float64(len(sorted))*max(0, 1-opt.Wettest)), len(sorted)-1)]
	return max(wettest, sorted[len(sorted)/2]+opt.Wetter)
}

func gathered(n *Network, nodes []int, wetness []float64) Damp {
	slices.Sort(nodes)
	wettest := nodes[0]
	for _, i := range nodes {
		if wetness[i] > wetness[wettest] {
			wettest = i
		}
	}
	cols := n.Ground.Cols
	return Damp{
		Why: GathersWater, At: n.Ground.Node(wettest%cols, wettest/cols), Wetness: wetness[wettest],
		Area: float64(len(nodes)) * n.Ground.Cell * n.Ground.Cell, Nodes: nodes,
	}
}
