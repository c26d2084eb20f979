package soil_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const cmPerHour = 0.01 / 3600

// Chow, Maidment & Mays 1988, Applied Hydrology, example 4.3.1 (from memory):
// silt loam, pores 30 % filled, under standing water for an hour: 3.17 cm taken
// up, then 1.81 cm/h.
func TestUptakeUnderStandingWater(t *testing.T) {
	g, ok := soil.Uptake(soil.SiltLoam, .30)
	require.True(t, ok)
	assert.InDelta(t, .3402, g.Deficit, 1e-9)
	f := g.After(0, math.Inf(1), 3600)
	assert.InDelta(t, 3.166, f*100, .001)
	assert.InDelta(t, 1.815, g.Capacity(f)/cmPerHour, .001)
}

// The same book's examples 4.4.1 and 4.4.2 (from memory; it prints 10.5 h, 0.17 h
// and 0.85 cm, then 3.02 cm), and three more textures worked from the equations.
func TestPondingUnderSteadyRain(t *testing.T) {
	for _, c := range []struct {
		t                                  soil.Texture
		filled, rate, hours                float64
		ponds, taken, after, rateAfter, ro float64
	}{
		{soil.SiltLoam, .3, 1, 1, 10.538, 10.54, 1, math.NaN(), 0},
		{soil.SiltLoam, .3, 5, 1, .16958, .8479, 3.0165, 1.8727, 1.9835},
		{soil.SandyLoam, .5, 3, 1, .4314, 1.2943, 2.6416, 2.0259, .3584},
		{soil.ClayLoam, .7, .5, 3, .9678, .4839, 1.1709, .2653, .3291},
		{soil.Loam, .8, 1, 4, .3975, .3975, 2.3900, .4498, 1.6100},
	} {
		g, ok := soil.Uptake(c.t, c.filled)
		require.True(t, ok)
		at, taken, ok := g.Ponding(c.rate * cmPerHour)
		require.True(t, ok)
		assert.InEpsilon(t, c.ponds, at/3600, 3e-4, c.t)
		assert.InEpsilon(t, c.taken, taken*100, 3e-4, c.t)
		f := g.After(0, c.rate*cmPerHour, c.hours*3600)
		assert.InDelta(t, c.after, f*100, 1e-4, c.t)
		if !math.IsNaN(c.rateAfter) {
			assert.InDelta(t, c.rateAfter, g.Capacity(f)/cmPerHour, 1e-4, c.t)
		}
		assert.InDelta(t, c.ro, c.rate*c.hours-f*100, 1e-4, c.t)
	}
	sand, _ := soil.Uptake(soil.Sand, .5)
	_, _, ok := sand.Ponding(6 * cmPerHour)
	assert.False(t, ok, "60 mm an hour never stand on sand")
}

// Steady rain cut into steps is the same rain.
func TestUptakeStepByStep(t *testing.T) {
	g, _ := soil.Uptake(soil.SiltLoam, .30)
	f := 0.0
	for range 37 {
		f = g.After(f, 5*cmPerHour, 3600./37)
	}
	assert.InDelta(t, g.After(0, 5*cmPerHour, 3600), f, 1e-12)
}

func TestFullGroundTakesItsConductivity(t *testing.T) {
	g, ok := soil.Uptake(soil.Loam, 1)
	require.True(t, ok)
	assert.InDelta(t, g.Conductivity*3600, g.After(0, 10*cmPerHour, 3600), 1e-15)
	for _, filled := range []float64{-.1, 1.1, math.NaN()} {
		_, ok := soil.Uptake(soil.Loam, filled)
		assert.False(t, ok)
	}
	_, ok = soil.Uptake("peat", .5)
	assert.False(t, ok)
}

func TestWinterUptakeIsInOrder(t *testing.T) {
	for _, x := range append(soil.Textures(), "") {
		middle, slowest, quickest := soil.WinterUptake(x)
		after := func(g soil.GreenAmpt) float64 { return g.After(0, 4*cmPerHour, 900) }
		assert.LessOrEqual(t, after(slowest), after(middle), x)
		assert.LessOrEqual(t, after(middle), after(quickest), x)
		assert.Positive(t, after(slowest), x)
	}
}

func ExampleGreenAmpt_Ponding() {
	g, _ := soil.Uptake(soil.SiltLoam, 0.30)
	seconds, taken, _ := g.Ponding(5 * 0.01 / 3600) // 50 mm an hour
	fmt.Printf("stands after %.0f minutes, %.1f mm taken up\n", seconds/60, taken*1000)
	// Output: stands after 10 minutes, 8.5 mm taken up
}
