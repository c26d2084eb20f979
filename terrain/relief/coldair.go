package relief

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// Defaults of ours for where cold air counts in a garden.
const (
	DefaultColdDepth = .3  // metres
	DefaultColdWidth = 3   // metres
	DefaultColdShare = .1  // of the plot, lowest first
	DefaultColdFall  = .02 // 1 in 50
)

// Barrier is a fence, hedge or wall that is closed down to the ground.
type Barrier struct {
	Line   orb.LineString // metres
	Height float64        // metres above the ground
}

// ColdAirOptions says what counts.
type ColdAirOptions struct {
	MinDepth float64 // of a hollow or of dammed air, metres; default .3
	MinWidth float64 // of a hollow at its narrowest, metres; default 3
	Lowest   float64 // share of the plot counted as low ground; default .1
	MaxFall  float64 // of low ground; default .02
	// NodataIsWall keeps air from draining away beside nodes without a
	// height. Default false.
	NodataIsWall bool
}

func (o ColdAirOptions) resolved() ColdAirOptions {
	for _, f := range []struct {
		value *float64
		usual float64
	}{{&o.MinDepth, DefaultColdDepth}, {&o.MinWidth, DefaultColdWidth}, {&o.Lowest, DefaultColdShare}, {&o.MaxFall, DefaultColdFall}} {
		if !(*f.value > 0) {
			*f.value = f.usual
		}
	}
	return o
}

// ColdPlaces is where cold air is likely to lie on a still, clear night. It is
// an indication only: it says nothing of temperatures.
type ColdPlaces struct {
	Hollows []Hollow // deep and wide enough, the largest first
	Dammed  []Dammed // behind barriers, the largest first
	// LowGround lists the nodes of the lowest ground of the plot that is
	// nearly level, rising: row times Cols plus column.
	LowGround []int
}

// Dammed is cold air held up on the upslope side of barriers.
type Dammed struct {
	Behind  []int       // the barriers, by their place in the list given, rising
	Area    float64     // m2
	Depth   float64     // at its deepest, metres; no more than the barriers' height
	Volume  float64     // of air, m3
	Nodes   []int       // rising
	Outline orb.Polygon // as that of a Hollow
}

// ColdAir finds where cold air is likely to lie: in hollows, behind barriers
// across the slope, and on low, nearly level ground. Cold air drains like slow
// water, so a barrier is taken as ground raised by its height and what a second
// flood fills beyond the first is the air it dams. Where a barrier lies within
// 45 degrees of the contour it is named; where none of those that hold the air
// does, all of them are.
//
// The rule follows the finding that ground is prone where it is nearly level,
// low in its surroundings and concave (Lundquist, Pepin & Rochford 2008, Journal
// of Geophysical Research 113 D22107), which was made for valleys; the limits
// for gardens are defaults of ours. The error is that of Grid.Check, or names a
// barrier whose height or line is not usable.
func ColdAir(g *terrain.Grid, barriers []Barrier, opt ColdAirOptions) (*ColdPlaces, error) {
	if err := g.Check(); err != nil {
		return nil, fmt.Errorf("cold air: %w", err)
	}
	for k, b := range barriers {
		if !(b.Height >= 0) || math.IsInf(b.Height, 0) || !usableLine(b.Line) {
			return nil, fmt.Errorf("cold air: barrier %d of height %v m along %v", k+1, b.Height, b.Line)
		}
	}
	opt = opt.resolved()
	slopes, err := Slopes(g, SlopeOptions{Edges: true})
	if err != nil {
		return nil, err
	}
	c := &ColdPlaces{LowGround: lowGround(g, slopes, opt)}
	for _, h := range Hollows(g, HollowOptions{MinDepth: opt.MinDepth, NodataIsWall: opt.NodataIsWall}) {
		if narrowest(g, h.Cells) >= opt.MinWidth {
			c.Hollows = append(c.Hollows, h)
		}
	}
	c.Dammed = dammed(g, slopes, barriers, opt)
	return c, nil
}

func usableLine(line orb.LineString) bool {
	for _, p := range line {
		if !known(p[0]) || !known(p[1]) {
			return false
		}
	}
	return len(line) > 0
}

// lowGround lists the nodes of the lowest share of the plot that are nearly
// level.
func lowGround(g *terrain.Grid, slopes *SlopeGrid, opt ColdAirOptions) []int {
	var heights []float64
	for _, z := range g.Z {
		if known(z) {
			heights = append(heights, z)
		}
	}
	if len(heights) == 0 {
		return nil
	}
	slices.Sort(heights)
	limit := heights[min(int(float64(len(heights))*opt.Lowest), len(heights)-1)]
	var out []int
	for i, z := range g.Z {
		gradient, ok := slopes.At(i%g.Cols, i/g.Cols)
		if ok && z < limit && gradient.Fall() < opt.MaxFall {
			out = append(out, i)
		}
	}
	return out
}

// narrowest is the least extent of the squares of nodes in any of 18
// directions, metres.
func narrowest(g *terrain.Grid, nodes []int) float64 {
	least := math.Inf(1)
	for k := range 18 {
		east, north := terrain.FromDegrees(float64(k) * 10).Unit()
		low, high := math.Inf(1), math.Inf(-1)
		for _, i := range nodes {
			along := (float64(i%g.Cols)*east + float64(i/g.Cols)*north) * g.Cell
			low, high = min(low, along), max(high, along)
		}
		least = min(least, high-low+g.Cell)
	}
	return least
}
