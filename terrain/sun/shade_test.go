package sun_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"crossfall/terrain"
	"crossfall/terrain/sun"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// slope is a plane through the origin.
type slope terrain.Gradient

func (s slope) HeightAt(p orb.Point) (float64, bool) { return s.East*p[0] + s.North*p[1], true }

// falling is a slope of a fall, a ratio, down to a bearing in degrees.
func falling(fall, to float64) slope {
	e, n := terrain.FromDegrees(to).Unit()
	return slope{-fall * e, -fall * n}
}

// around is a slope as hills, looked at to 60 m.
func around(s slope, steeper float64) sun.Hills {
	return sun.Hills{Ground: s, Reach: 60, Highest: 100, Steeper: steeper}
}

func scene(t require.TestingT, ground slope, things ...sun.Obstacle) *sun.Scene {
	s, err := sun.NewScene(ground, around(ground, 0), 0, things)
	require.NoError(t, err)
	return s
}

// A shadow's length on a slope is H / (tan altitude + rise of the ground the way
// the shadow falls): the figures worked by hand from positions of the sun.
func TestShadowLength(t *testing.T) {
	winter := sun.At(time.Date(2026, 12, 21, 12, 0, 0, 0, time.UTC), 51.5, -0.13)
	winter25 := sun.At(time.Date(2025, 12, 21, 12, 0, 0, 0, time.UTC), 51.5, -0.12)
	spring := sun.At(time.Date(2026, 3, 20, 15, 0, 0, 0, time.UTC), 53.8, -1.55)
	autumn := sun.At(time.Date(2026, 9, 1, 16, 0, 0, 0, time.UTC), 50.7, -3.5)
	for _, c := range []struct {
		sun                     sun.Position
		fall, to, height, shade float64
	}{
		{winter, 0, 0, 1.8, 6.689}, {winter, .15, 0, 1.8, 15.112}, {winter, .15, 180, 1.8, 4.295},
		{spring, .10, 45, 2, 5.095}, {autumn, .12, 90, 5, 12.505},
		{winter25, 0, 0, 1.8, 6.6891}, {winter25, .10, 0, 1.8, 10.6449}, {winter25, .10, 180, 1.8, 4.8768},
	} {
		// The wall runs level, through the origin.
		e, n := terrain.FromDegrees(c.to + 90).Unit()
		wall := sun.Obstacle{Line: orb.LineString{{-50 * e, -50 * n}, {50 * e, 50 * n}}, Height: c.height}
		s := scene(t, falling(c.fall, c.to), wall)
		away := func(d float64) orb.Point {
			e, n := c.sun.Azimuth.Unit()
			return orb.Point{-d * e, -d * n}
		}
		assert.Zero(t, s.Passes(away(c.shade-0.01), c.sun))
		assert.Equal(t, 1.0, s.Passes(away(c.shade+0.01), c.sun))
	}
}

// An endless fence from west to east, 1.5 m higher than a leaf 3 m north of it, at 51.5
// degrees: hours of sun and of shade on level ground, worked by another program in steps
// of two minutes. In winter the leaf has no sun at all; at the equinox the sun's path is
// a plane that clears the fence but near its ends.
func TestHoursBehindAnEndlessFence(t *testing.T) {
	level := slope{}
	s := scene(t, level, sun.Obstacle{Line: orb.LineString{{-1e5, -3}, {1e5, -3}}, Height: 1.5})
	for _, c := range []struct {
		month      time.Month
		day        int
		up, shaded float64
	}{{12, 21, 7.600, 7.600}, {2, 15, 9.833, 9.833}, {3, 20, 12.033, 0.033}} {
		up, shaded := 0.0, 0.0
		for minute := 0; minute < 24*60; minute += 2 {
			p := sun.At(time.Date(2025, c.month, c.day, 0, minute, 0, 0, time.UTC), 51.5, 0)
			if p.Altitude > 0 {
				up += 2.0 / 60
				shaded += (1 - s.Passes(orb.Point{}, p)) * 2 / 60
			}
		}
		assert.InDelta(t, c.up, up, 0.07, "%v", c.month)
		assert.InDelta(t, c.shaded, shaded, 0.07, "%v", c.month)
	}
}

// A plane slope hides the sun just where the cosine of incidence is under 0
// (Duffie & Beckman, chapter 1).
func TestSlopeHidesItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fall, to := rapid.Float64Range(0, 1).Draw(t, "fall"), rapid.Float64Range(0, 360).Draw(t, "down to")
		p := sun.Position{
			Altitude: rapid.Float64Range(0.01, 1.5).Draw(t, "altitude"),
			Azimuth:  terrain.FromDegrees(rapid.Float64Range(0, 360).Draw(t, "azimuth")),
		}
		tilt := math.Atan(fall)
		cos := math.Sin(p.Altitude)*math.Cos(tilt) + math.Cos(p.Altitude)*math.Sin(tilt)*math.Cos(float64(p.Azimuth-terrain.FromDegrees(to)))
		if math.Abs(cos) > 1e-9 {
			assert.Equal(t, cos > 0, scene(t, falling(fall, to)).Passes(orb.Point{}, p) == 1)
		}
	})
}

// Open level ground has the whole day, and things only take from it: the more,
// the higher.
func TestHigherNeverAddsSun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		latitude := rapid.Float64Range(-66, 66).Draw(t, "latitude")
		day := sun.Over(time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, rapid.IntRange(0, 364).Draw(t, "day")), latitude, 0, 40)
		height, more := rapid.Float64Range(0.1, 20).Draw(t, "height"), rapid.Float64Range(0, 10).Draw(t, "more")
		at := func() orb.Point {
			return orb.Point{rapid.Float64Range(-20, 20).Draw(t, "x"), rapid.Float64Range(-20, 20).Draw(t, "y")}
		}
		hedge := sun.Obstacle{Line: orb.LineString{at(), at(), at()}, Height: height}
		tree := sun.Obstacle{Centre: at(), Radius: 3, Height: height, Passes: rapid.Float64Range(0, 1).Draw(t, "passes")}
		ground := falling(rapid.Float64Range(0, 0.4).Draw(t, "fall"), rapid.Float64Range(0, 360).Draw(t, "down to"))
		points := []orb.Point{{0, 0}, {1, 2}}
		few := scene(t, ground, hedge, tree).Hours(day, points)
		open := scene(t, ground).Hours(day, points)
		hedge.Height, tree.Height = hedge.Height+more, tree.Height+more
		assert.LessOrEqual(t, scene(t, ground, hedge, tree).Hours(day, points), few)
		assert.LessOrEqual(t, few, open)
		assert.LessOrEqual(t, open, day.Length*(1+1e-12))
		assert.InDelta(t, day.Length, scene(t, slope{}).Hours(day, points), 1e-9)
	})
}

// A bare crown lets its share through, and a turned frame turns the sun.
func TestCrownAndTurn(t *testing.T) {
	tree := sun.Obstacle{Centre: orb.Point{0, -5}, Radius: 2, Height: 8, Passes: 0.6}
	south := sun.Position{Altitude: 0.5, Azimuth: terrain.FromDegrees(180)}
	assert.Equal(t, 0.6, scene(t, slope{}, tree).Passes(orb.Point{}, south))
	assert.Equal(t, 0.6, scene(t, slope{}, tree).Passes(orb.Point{0, -5}, south), "under it")
	turned, err := sun.NewScene(slope{}, around(slope{}, 0), terrain.FromDegrees(90), []sun.Obstacle{tree})
	require.NoError(t, err)
	assert.Equal(t, 1.0, turned.Passes(orb.Point{}, south))
	assert.Equal(t, 0.6, turned.Passes(orb.Point{}, sun.Position{Altitude: 0.5, Azimuth: terrain.FromDegrees(270)}), "+y is east, -y west")
}

// 12 beds of 6 points, 10 obstacles of 12 m, four dates in 64 parts.
func BenchmarkHours12Beds10Obstacles(b *testing.B) {
	var things []sun.Obstacle
	for i := range 10 {
		x := float64(4 * i)
		things = append(things, sun.Obstacle{Line: orb.LineString{{x, -3}, {x + 3, -3}, {x + 3, -6}, {x, -6}, {x, -3}}, Height: 2})
	}
	ground := slope{North: .1}
	s, err := sun.NewScene(ground, around(ground, 0), 0, things)
	require.NoError(b, err)
	var days []sun.Day
	for _, month := range []time.Month{3, 6, 9, 12} {
		days = append(days, sun.Over(time.Date(2026, month, 21, 0, 0, 0, 0, time.UTC), 51.5, 0, 64))
	}
	for b.Loop() {
		for bed := range 12 {
			var points []orb.Point
			for i := range 6 {
				points = append(points, orb.Point{float64(3*bed + i), float64(i % 2)})
			}
			for _, d := range days {
				if s.Hours(d, points) < 0 {
					b.Fatal(fmt.Sprint(bed))
				}
			}
		}
	}
}

// Ground that may be steeper than it is known hides more.
func TestSteeperGround(t *testing.T) {
	low := sun.Position{Altitude: math.Atan(0.05), Azimuth: terrain.FromDegrees(180)}
	for steeper, want := range map[float64]float64{0.02: 0, 0: 1, -0.02: 1} {
		s, err := sun.NewScene(falling(0.04, 0), around(falling(0.04, 0), steeper), 0, nil)
		require.NoError(t, err)
		assert.Equal(t, want, s.Passes(orb.Point{}, low))
	}
}
