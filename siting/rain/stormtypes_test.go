package rain_test

import (
	"math"
	"testing"

	"crossfall/siting/rain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Nodes of Technical Paper 149 as tabled in Chow, Maidment & Mays 1988, and values
// between them worked by hand.
func TestFallen(t *testing.T) {
	cases := []struct {
		storm      rain.StormType
		hour, want float64
	}{
		{rain.StormI, 0, 0}, {rain.StormII, 12, 0.663}, {rain.StormIA, 8, 0.425}, {rain.StormIII, 24, 1}, {rain.StormI, 10, 0.515},
		{rain.StormIA, 7.5, 0.3465},                        // halfway from 0.268 to 0.425
		{rain.StormII, 11.9, 0.357 + 0.6*0.306},            // 0.5406
		{rain.StormIII, 12.25, 0.601},                      // halfway from 0.500 to 0.702
		{rain.StormI, 3, 0.0555}, {rain.StormIA, 1, 0.025}, // halfway
	}
	for _, c := range cases {
		got := c.storm.Fallen(c.hour)
		assert.InDelta(t, c.want, got, 1e-9, "%v at %g h", c.storm, c.hour)
	}
	for s := rain.StormI; s <= rain.StormIII; s++ {
		before := 0.0
		for i := range 97 {
			v := s.Fallen(float64(i) / 4)
			assert.GreaterOrEqual(t, v, before, "rain never goes back up: %v at %g h", s, float64(i)/4)
			before = v
		}
	}
}

// The greatest shares worked by hand from the nodes of Technical Paper 149; that of
// Type II in an hour is close to the 0.454 often printed for it.
func TestGreatest(t *testing.T) {
	hours := []float64{0.25, 0.5, 1, 2, 3, 6, 12}
	want := map[rain.StormType][]float64{
		rain.StormI:   {0.153, 0.212, 0.280, 0.370, 0.435, 0.573, 0.754},
		rain.StormIA:  {0.039, 0.079, 0.157, 0.252, 0.314, 0.463, 0.686},
		rain.StormII:  {0.306, 0.380, 0.452, 0.537, 0.595, 0.703, 0.836},
		rain.StormIII: {0.161, 0.262, 0.404, 0.501, 0.569, 0.701, 0.850},
	}
	for s, shares := range want {
		for i, h := range hours {
			got := s.Greatest(h)
			assert.InDelta(t, shares[i], got, 0.00051, "%v in %g h", s, h)
		}
		day := s.Greatest(24)
		assert.InDelta(t, 1, day, 1e-12)
	}
}

// Alternating blocks (Chow, Maidment & Mays 1988, section 14.4) of 48 mm in a day by
// the cube-root rule, hour by hour: gains 16.641, 4.325, 3.034, 2.415, 2.040, 1.783,
// placed by hand.
func TestAlternatingBlocks(t *testing.T) {
	depth := func(minutes float64) float64 { return rain.FromLonger(48, 1440, minutes) }
	got, err := rain.AlternatingBlocks(depth, 60, 6)
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{2.040, 3.034, 16.641, 4.325, 2.415, 1.783}, got, 6e-4)

	// by hand for other counts: gains 6, 3, 2, 1.5, 1.2 from depths 6, 9, 11, 12.5, 13.7
	table := map[float64]float64{1: 6, 2: 9, 3: 11, 4: 12.5, 5: 13.7}
	for n, want := range map[int][]float64{1: {6}, 2: {6, 3}, 3: {6, 3, 2}, 4: {2, 6, 3, 1.5}, 5: {2, 6, 3, 1.5, 1.2}} {
		got, err = rain.AlternatingBlocks(func(m float64) float64 { return table[m] }, 1, n)
		require.NoError(t, err)
		assert.InDeltaSlice(t, want, got, 1e-9, "%d blocks", n)
	}
}

func TestAlternatingBlocksRefuses(t *testing.T) {
	rising := func(m float64) float64 { return m }
	for _, c := range []struct {
		depth   func(float64) float64
		minutes float64
		n       int
	}{
		{rising, 60, 0}, {rising, 60, 1441}, {rising, 0, 6}, {rising, math.NaN(), 6},
		{func(m float64) float64 { return 100 - m }, 10, 6},
		{func(float64) float64 { return math.NaN() }, 10, 6},
		{func(float64) float64 { return math.Inf(1) }, 10, 6},
	} {
		_, err := rain.AlternatingBlocks(c.depth, c.minutes, c.n)
		assert.ErrorIs(t, err, rain.ErrRange)
	}
}
