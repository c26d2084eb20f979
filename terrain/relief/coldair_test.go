package relief_test

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/terrain"
	"crossfall/terrain/relief"
)

// A plane that falls 1 in 10 to the north with closed fences 1.5 m high: along the north edge
// and up both sides the air is dammed over 15 m, a triangle of .5 x 1.5 x 15 = 11.25 m2 for each
// metre of fence. Without the side fences it spills round, and nothing is dammed.
func TestColdAirBehindAFence(t *testing.T) {
	const cell, wide, deep = .1, 8., 20.
	g := gridFrom(orb.Point{}, cell, 81, 201, func(_, y float64) float64 { return 10 - .1*y })
	north := relief.Barrier{Line: orb.LineString{{0, deep}, {wide, deep}}, Height: 1.5}
	sides := []relief.Barrier{
		{Line: orb.LineString{{0, 0}, {0, deep}}, Height: 1.5},
		{Line: orb.LineString{{wide, deep}, {wide, 0}}, Height: 1.5},
	}
	found, err := relief.ColdAir(g, append([]relief.Barrier{north}, sides...), relief.ColdAirOptions{})
	require.NoError(t, err)
	require.Len(t, found.Dammed, 1)
	d := found.Dammed[0]
	between := wide - cell // the fences stand on the outermost nodes
	assert.Equal(t, []int{0}, d.Behind, "the side fences run straight down the slope")
	// The last half spacing before the fence, nearly 1.5 m deep, is not counted.
	assert.InDelta(t, 11.25-1.5*cell/2, d.Volume/between, .01)
	assert.InDelta(t, 15, d.Area/between, cell)
	assert.InDelta(t, 1.5, d.Depth, .1*cell+1e-9)
	assert.InDelta(t, d.Area, planar.Area(d.Outline), 1e-9)
	assert.Empty(t, found.Hollows)
	assert.Empty(t, found.LowGround, "1 in 10 is not nearly level")

	found, err = relief.ColdAir(g, []relief.Barrier{north}, relief.ColdAirOptions{})
	require.NoError(t, err)
	assert.Empty(t, found.Dammed)
}

// The same behind a fence that lies askew to the nodes and along the edge of what is known:
// nothing leaks between nodes. A fence that bends round three sides is named whole.
func TestColdAirDoesNotLeak(t *testing.T) {
	for _, turn := range []float64{0, 17, 31, 45, 77} {
		s, c := math.Sincos(turn * math.Pi / 180)
		place := func(u, v float64) orb.Point { return orb.Point{c*u - s*v, s*u + c*v} }
		fence := relief.Barrier{Line: orb.LineString{place(-6, -9), place(-6, 9), place(6, 9), place(6, -9)}, Height: 1}
		plot := orb.Ring(append(fence.Line.Clone(), fence.Line[0]))
		g := gridFrom(orb.Point{-12, -12}, .25, 97, 97, func(x, y float64) float64 { return 10 - .1*(c*y-s*x) })
		for i := range g.Z {
			if !planar.RingContains(plot, g.Node(i%97, i/97)) {
				g.Z[i] = math.NaN()
			}
		}
		found, err := relief.ColdAir(g, []relief.Barrier{fence}, relief.ColdAirOptions{})
		require.NoError(t, err)
		require.Len(t, found.Dammed, 1, "turned %v degrees", turn)
		assert.Equal(t, []int{0}, found.Dammed[0].Behind)
		assert.InEpsilon(t, .5*1*10*12, found.Dammed[0].Volume, .1, "turned %v degrees", turn)
	}
}

func TestColdHollowsAndLowGround(t *testing.T) {
	bowl := func(depth, radius float64) *terrain.Grid {
		return gridFrom(orb.Point{-10, -10}, .5, 41, 41, func(x, y float64) float64 {
			r := math.Hypot(x, y)
			return 20 - .01*r - depth*max(0, 1-r/radius)
		})
	}
	for _, tc := range []struct {
		depth, radius float64
		counts        bool
	}{{.8, 5, true}, {.2, 5, false}, {.8, 1.2, false}} {
		found, err := relief.ColdAir(bowl(tc.depth, tc.radius), nil, relief.ColdAirOptions{})
		require.NoError(t, err)
		assert.Equal(t, tc.counts, len(found.Hollows) == 1, "%v m deep, radius %v m", tc.depth, tc.radius)
	}
	// A slope of 1 in 5 above a terrace of 1 in 100: only the terrace counts, and of it the
	// lowest tenth of the plot.
	g := gridFrom(orb.Point{}, 1, 20, 40, func(_, y float64) float64 { return .01*min(y, 10) + .2*max(0, y-10) })
	found, err := relief.ColdAir(g, nil, relief.ColdAirOptions{})
	require.NoError(t, err)
	require.Len(t, found.LowGround, 80)
	assert.Equal(t, 0, found.LowGround[0])
	assert.Equal(t, 79, found.LowGround[79])
}

func TestColdAirRefuses(t *testing.T) {
	g := gridFrom(orb.Point{}, 1, 5, 5, func(_, y float64) float64 { return y })
	for _, b := range []relief.Barrier{
		{Line: orb.LineString{{0, 0}, {1, 1}}, Height: -1}, {Height: 1}, {Line: orb.LineString{{math.NaN(), 0}}, Height: 1},
		{Line: orb.LineString{{0, 0}}, Height: math.NaN()},
	} {
		_, err := relief.ColdAir(g, []relief.Barrier{b}, relief.ColdAirOptions{})
		assert.ErrorContains(t, err, "barrier 1")
	}
	_, err := relief.ColdAir(nil, nil, relief.ColdAirOptions{})
	assert.Error(t, err)
	far := relief.Barrier{Line: orb.LineString{{1e9, 1e9}, {2e9, 1e9}}, Height: 2}
	found, err := relief.ColdAir(terrain.NewGrid(orb.Point{}, 1, 4, 4), []relief.Barrier{far}, relief.ColdAirOptions{})
	require.NoError(t, err)
	assert.Empty(t, found.Dammed)
}
