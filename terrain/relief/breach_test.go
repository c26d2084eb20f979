package relief_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain/relief"
)

// The two basins again, worked by hand: the only outlet near the western one is 5 high, so a
// cut of 1 m through the sill lets it drain to 5; filling the rest takes 11 m3. The eastern
// basin is too far from an outlet and still spills at 6.
func TestBreachOfTwoBasins(t *testing.T) {
	r := rasterOf(t, gridOf(1, twoBasins...))
	cut, cuts, err := relief.Breach(r, relief.BreachOptions{MaxCut: 1, MaxLength: 3}, false)
	require.NoError(t, err)
	require.Len(t, cuts, 1)
	assert.Equal(t, relief.Cut{
		Nodes: []int{20, 14, 8, 2}, Line: orb.LineString{{2, 3}, {2, 2}, {2, 1}, {2, 0}},
		Level: 5, Depth: 1, Length: 3, Volume: 1,
	}, cuts[0])
	assert.Equal(t, "it would drain in part, down to 5.00 m, if a trench 3.0 m long and up to 1.00 m deep were cut", cuts[0].Text())
	filled, err := relief.Flood(cut, false)
	require.NoError(t, err)
	assert.Equal(t, rasterOf(t, gridOf(1,
		[]float64{9, 9, 9, 9, 9, 9},
		[]float64{9, 5, 6, 7, 6, 9},
		[]float64{9, 5, 5, 6, 6, 8},
		[]float64{9, 5, 5, 7, 6, 7},
		[]float64{9, 9, 5, 9, 9, 9},
		[]float64{9, 9, 5, 9, 9, 9},
	)), filled.Level)
	var volume float64
	for i := range cut.Z {
		volume += float64(filled.Level.Z[i] - cut.Z[i])
	}
	assert.Equal(t, 11., volume)
	assert.Equal(t, float32(6), r.Z[8], "the ground given is left alone")

	// The default limits, .5 m deep, allow no cut.
	_, cuts, err = relief.Breach(r, relief.BreachOptions{}, false)
	require.NoError(t, err)
	assert.Empty(t, cuts)
}

// A bank 2 m thick across a slope of 1 in 10, its top .4 m over its lower foot at 10.95 m: the
// lowest ground behind it is 11.20 m, and a trench .15 m deep drains it whole. A bank of .8 m
// would need .55 m.
func TestBreachOfABank(t *testing.T) {
	for _, tc := range []struct {
		high  float64
		drain bool
	}{{.4, true}, {.8, false}} {
		bank := func(x, y float64) float64 {
			if y >= 9.5 && y <= 11.5 && x > 2 && x < 18 {
				return 10 + .1*9.5 + tc.high
			}
			return 10 + .1*y + .02*math.Abs(x-10)
		}
		g := gridFrom(orb.Point{}, 1, 21, 21, bank)
		for _, side := range []int{2, 18} { // wings that keep water from going round
			for row := 9; row < 21; row++ {
				g.Set(side, row, 14)
			}
		}
		r := rasterOf(t, g)
		before, err := relief.HollowsOf(r, relief.HollowOptions{})
		require.NoError(t, err)
		require.Len(t, before, 1)
		cut, cuts, err := relief.Breach(r, relief.BreachOptions{}, false)
		require.NoError(t, err)
		after, err := relief.HollowsOf(cut, relief.HollowOptions{})
		require.NoError(t, err)
		if !tc.drain {
			assert.Empty(t, cuts)
			assert.Equal(t, before, after)
			continue
		}
		require.Len(t, cuts, 1)
		assert.Empty(t, after)
		assert.True(t, cuts[0].Whole)
		assert.InDelta(t, before[0].Bottom, cuts[0].Level, 1e-6)
		assert.InDelta(t, .15, cuts[0].Depth, 1e-5)
		assert.Contains(t, cuts[0].Text(), "it would drain if a trench")
	}
}

// Whatever the ground: cuts keep to their limits, ground only goes down, and no water level
// rises.
func TestBreachProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rasterOf(t, drawGround(t))
		wall := rapid.Bool().Draw(t, "wall")
		opt := relief.BreachOptions{MaxCut: rapid.Float64Range(.1, 3).Draw(t, "deep"), MaxLength: rapid.Float64Range(2, 12).Draw(t, "long")}
		cut, cuts, err := relief.Breach(r, opt, wall)
		require.NoError(t, err)
		before, err := relief.Flood(r, wall)
		require.NoError(t, err)
		after, err := relief.Flood(cut, wall)
		require.NoError(t, err)
		var dug, volume float64
		for i, z := range r.Z {
			if z-z != 0 {
				continue
			}
			require.LessOrEqual(t, cut.Z[i], z)
			require.LessOrEqual(t, after.Level.Z[i], before.Level.Z[i])
			dug += float64(z-cut.Z[i]) * r.Cell * r.Cell
		}
		for _, c := range cuts {
			volume += c.Volume
			require.LessOrEqual(t, c.Depth, opt.MaxCut+1e-6)
			require.LessOrEqual(t, c.Length, opt.MaxLength+1e-6)
			if c.Whole {
				require.LessOrEqual(t, after.Level.Z[c.Nodes[0]], float32(c.Level), "drains to its bottom")
			}
		}
		require.InDelta(t, dug, volume, 1e-3)
	})
	_, _, err := relief.Breach(nil, relief.BreachOptions{}, false)
	assert.Error(t, err)
}

func BenchmarkBreach(b *testing.B) {
	for _, n := range []int{200, 1000} {
		b.Run(fmt.Sprintf("nodes=%dx%d", n, n), func(b *testing.B) {
			r := hillside(n, n, 1)
			for b.Loop() {
				if _, _, err := relief.Breach(r, relief.BreachOptions{}, false); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
