package soil_test

import (
	"fmt"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The formula of Manning 1891 for open channels, worked by hand forwards, and back
// by putting the depth in again: .3 m wide at the bottom with sides of 1 in 2 and .10
// m deep, the section is .05 m2 and its wetted edge .7472 m.
func TestEvenFlowInAChannel(t *testing.T) {
	forward := soil.Section{Bottom: .3, Side: 2}.At(.10, .01, .035)
	assert.InDelta(t, .05, forward.Area, 1e-9)
	assert.InDelta(t, .066915, forward.Radius, 1e-6)
	assert.InDelta(t, .470922, forward.Speed, 1e-6)
	assert.InDelta(t, .0235461, forward.Flow, 1e-7)
	v := soil.Section{Side: 4}.At(.12, .02, .05)
	assert.InDelta(t, .0576, v.Area, 1e-9)
	assert.InDelta(t, .0244695, v.Flow, 1e-7)
	for _, c := range []struct {
		s                            soil.Section
		flow, fall, n                float64
		depth, area, speed, fr, pull float64
	}{
		{soil.Section{Bottom: .3, Side: 2}, .020, .01, .035, .0919, .04444, .4501, .557, 9.01},
		{soil.Section{Side: 3}, .010, .02, .05, .0961, .02771, .3609, .526, 18.85},
		{soil.Section{Bottom: .2, Side: 1.5}, .030, .005, .03, .1518, .0649, .4623, .466, 7.444},
	} {
		n, ok := c.s.Carrying(c.flow, c.fall, c.n)
		require.True(t, ok)
		assert.InDelta(t, c.depth, n.Depth, 6e-5)
		assert.InDelta(t, c.area, n.Area, 6e-5)
		assert.InDelta(t, c.speed, n.Speed, 6e-5)
		assert.InDelta(t, c.fr, n.Froude, 6e-3)
		assert.InDelta(t, c.pull, n.Shear, 6e-3)
		assert.InDelta(t, c.flow, n.Flow, 1e-12)
	}
	_, ok := soil.Section{Side: 1}.Carrying(100, .01, .03)
	assert.False(t, ok)
	_, ok = soil.Section{}.Carrying(.01, .01, .03)
	assert.False(t, ok)
}

// A V with sides of 1 in 3 by the formula of Manning 1891, worked by hand: n .15 with
// long grass, .03 with short (open channels, from memory; which of the usual range is a
// default of ours). 2 L/s on 1 % stand 90.36 mm deep in long grass, so .20 m are dug with
// 100 mm to spare, and 200 L/s .5081 m, so .68 with a third of that (common practice, no
// source).
func TestCutOffChannel(t *testing.T) {
	c, err := soil.SizeChannel(geodata.Estimate{Value: 1, Low: .5, High: 2}, .01)
	require.NoError(t, err)
	assert.InDelta(t, .02938, c.Water.Low, 5e-6)
	assert.InDelta(t, .06968, c.Water.Value, 5e-6)
	assert.InDelta(t, .09036, c.Water.High, 5e-6)
	assert.InDelta(t, .20, c.Depth, 1e-9)
	assert.InDelta(t, 1.20, c.Width, 1e-9)
	assert.InDelta(t, .2730, c.Speed, 5e-5)
	assert.InDelta(t, 4.848, c.Shear, 5e-4)
	assert.Empty(t, c.Notes)
	deep, err := soil.SizeChannel(geodata.Exactly(200), .01)
	require.NoError(t, err)
	assert.InDelta(t, .68, deep.Depth, 1e-9)
	// 1 m deep with long grass on 1 % it would carry 3 x .4743^(2/3) x .1 / .15 = 1.2164 m3/s
	_, err = soil.SizeChannel(geodata.Exactly(1216), .01)
	require.NoError(t, err)
	_, err = soil.SizeChannel(geodata.Exactly(1217), .01)
	assert.ErrorIs(t, err, soil.ErrNoChannel)
}

// A channel falls .5 to 2 %, and over 3 % of ground it needs check dams (common practice,
// no source). On 2 % with short grass the water breaks up, at a Froude number of .8 (a
// default of ours), from 3.889 L/s on, and pulls 16.8 Pa (short grass, HEC-15 2005, from
// memory) when 85.6 mm deep, at 12.252 L/s: worked by hand.
func TestWhatACutOffChannelIsWarnedOf(t *testing.T) {
	notes := func(flow, fall float64) (string, float64) {
		c, err := soil.SizeChannel(geodata.Exactly(flow), fall)
		require.NoError(t, err)
		return fmt.Sprint(c.Notes), c.Fall
	}
	for fall, led := range map[float64]float64{.001: .005, .005: .005, .01: .01, .02: .02, .03: .02, .0301: .02} {
		said, got := notes(1, fall)
		assert.Equal(t, led, got)
		assert.Equal(t, fall > .03, strings.Contains(said, "check dams"), "%g", fall)
	}
	for flow, both := range map[float64][2]bool{3.88: {}, 3.90: {true}, 12.24: {true}, 12.27: {true, true}} {
		said, _ := notes(flow, .02)
		assert.Equal(t, both[0], strings.Contains(said, "breaks up"), "%g L/s: %s", flow, said)
		assert.Equal(t, both[1], strings.Contains(said, "pascals"), "%g L/s: %s", flow, said)
	}
}

// tabled is a lookup of depths by duration.
func tabled(mm ...float64) func(float64) (float64, bool) {
	minutes := []float64{10, 15, 30, 60, 120, 240, 360, 600, 1440, 2880, 5760}
	return func(m float64) (float64, bool) {
		for i, x := range minutes {
			if x == m {
				return mm[i], true
			}
		}
		return 0, false
	}
}

// A soakaway calculation to BRE Digest 365 printed by a consultant in 2017: 20 m2
// of roof to a pit of 1.0 x 1.0 x 1.2 m with crates of .95 voids, 1e-5 m/s, ten-year
// depths for r 0.40. The second case takes the same depths to 40 m2 and a rubble
// trench, worked by hand.
func TestSoakawayAgainstAPrintedCalculation(t *testing.T) {
	depth := tabled(12.69, 15.50, 19.84, 24.80, 30.01, 35.38, 38.72, 42.96, 52.86, 61.31, 70.15)
	p := soil.Pit{Length: 1, Width: 1, Depth: 1.2, Voids: .95}
	d := p.Needed(20, 1e-5, depth)
	assert.Equal(t, 120., d.Minutes)
	assert.InDelta(t, .6002, d.Inflow, 1e-4)
	assert.InDelta(t, .1728, d.Outflow, 1e-4)
	assert.InDelta(t, .4274, d.Storage, 1e-4)
	assert.InDelta(t, 1.14, p.Holds(), 1e-9)
	assert.InDelta(t, 2.473, d.HalfEmpty, 1e-3)

	p = soil.Pit{Length: 6, Width: .6, Depth: 1, Voids: .3}
	d = p.Needed(40, 5e-6, depth)
	assert.Equal(t, 120., d.Minutes)
	assert.InDelta(t, 1.2004, d.Inflow, 1e-4)
	assert.InDelta(t, .2376, d.Outflow, 1e-4)
	assert.InDelta(t, .9628, d.Storage, 1e-4)
	assert.InDelta(t, 1.08, p.Holds(), 1e-9)
	assert.InDelta(t, 4.052, d.HalfEmpty, 1e-3)
}

// BRE Digest 365: the middle half of the pit's depth over the wetted sides and floor
// of its middle and the time. A sheet prints 4.461e-5 m/s for .375 m3 over 2.50 m2 in
// 56 minutes; worked by hand it is 4.464e-5.
func TestRateOfATestPit(t *testing.T) {
	assert.InDelta(t, 4.4643e-5, soil.PitRate(1, .75, .75, .25, 56*60), 1e-9)
}

func TestTheShortestTrenchThatServes(t *testing.T) {
	depth := tabled(12.69, 15.50, 19.84, 24.80, 30.01, 35.38, 38.72, 42.96, 52.86, 61.31, 70.15)
	p, d, err := soil.SizeSoakaway(40, 5e-6, depth)
	require.NoError(t, err)
	assert.LessOrEqual(t, d.Storage, p.Holds())
	assert.LessOrEqual(t, d.HalfEmpty, 24.)
	// after two hours 40 x .03001 - (l + .6) x 5e-6 x 7200 is to go into .6 x .3 l:
	// l is 5.46 m, worked by hand
	assert.Equal(t, soil.Pit{Length: 5.5, Width: .6, Depth: 1, Voids: .3}, p)
	shorter := p
	shorter.Length -= .1
	assert.Greater(t, shorter.Needed(40, 5e-6, depth).Storage, shorter.Holds())
	// no longer than 40 m: after four hours 286.1 m2 yield 7.199 m3 of the 7.2 that it holds
	_, _, err = soil.SizeSoakaway(286.1, 5e-6, depth)
	require.NoError(t, err)
	_, _, err = soil.SizeSoakaway(286.2, 5e-6, depth)
	assert.ErrorIs(t, err, soil.ErrNoSoakaway)
	_, _, err = soil.SizeSoakaway(5000, 1e-7, depth)
	assert.ErrorIs(t, err, soil.ErrNoSoakaway)
}

// Orders of the rate at which water soaks into a texture, m/s (common practice, no
// source), ten times less and more.
func TestSoakOrder(t *testing.T) {
	for texture, rate := range map[soil.Texture]float64{
		soil.Sand: 1e-4, soil.LoamySand: 3e-5, soil.SandyLoam: 1e-5, soil.Loam: 3e-6, soil.SiltLoam: 3e-6,
	} {
		e, ok := soil.SoakOrder(texture)
		assert.True(t, ok, texture)
		assert.InEpsilon(t, rate, e.Value, 1e-9, texture)
		assert.InEpsilon(t, 10, e.Value/e.Low, 1e-9, texture)
		assert.InEpsilon(t, 10, e.High/e.Value, 1e-9, texture)
	}
	for _, texture := range []soil.Texture{soil.ClayLoam, soil.Clay, ""} {
		_, ok := soil.SoakOrder(texture)
		assert.False(t, ok, texture)
	}
}

func ExampleSizeChannel() {
	c, err := soil.SizeChannel(geodata.Estimate{Value: 0.8, Low: 0.4, High: 1.5}, 0.01)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m deep, %.2f m wide, water %.0f mm deep\n", c.Depth, c.Width, c.Water.Value*1000)
	// Output: 0.19 m deep, 1.14 m wide, water 64 mm deep
}
