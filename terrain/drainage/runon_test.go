package drainage_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain/drainage"
)

// A plot of 20 m by 15 m and a bed of 3.6 m by 1.2 m with its middle at (10, 6).
var (
	plot = rectangle(0, 0, 20, 15)
	bed  = rectangle(8.2, 5.4, 11.8, 6.6)
)

func ExampleCatchment() {
	above := drainage.Catchment(plane(180, .05), bed, plot, drainage.Options{})
	fmt.Printf("%.2f m2 drains on to the bed; more from beyond the plot: %v\n", above.Area, above.RisesAtEdge)
	// Output: 30.24 m2 drains on to the bed; more from beyond the plot: true
}

// The strip above a bed on a plane. Facing south: 3.6 m wide and 15 - 6.6 m long.
// Facing 200 degrees: width 3.6 cos 20 + 1.2 sin 20 = 3.793318 m; the area is that of
// the parallelogram above the north side, 3.6 x 8.4, plus the one above the east side,
// from y = 5.4 to 6.6: 1.2 tan 20 x (8.4 + .6).
func TestRunOnOfAPlane(t *testing.T) {
	tan := math.Tan(20 * math.Pi / 180)
	sin, cos := math.Sincos(20 * math.Pi / 180)
	for _, tc := range []struct{ facing, width, area, longest float64 }{
		{180, 3.6, 30.24, 8.4},
		{200, 3.6*cos + 1.2*sin, 3.6*8.4 + 1.2*tan*9, 9.6 / cos},
		{0, 3.6, 3.6 * 5.4, 5.4},
		{90, 1.2, 1.2 * 8.2, 8.2},
	} {
		t.Run(fmt.Sprint(tc.facing), func(t *testing.T) {
			f := plane(tc.facing, .05)
			above := drainage.Catchment(f, bed, plot, drainage.Options{})
			assert.InDelta(t, tc.area, above.Area, 1e-6)
			require.Len(t, above.Outline, 1)
			assert.InDelta(t, above.Area, planar.Area(above.Outline), 1e-9)
			assert.True(t, above.RisesAtEdge)
			assert.Zero(t, above.Unclear)

			run := drainage.RunOnLength(f, bed[0], plot, drainage.Options{})
			assert.InDelta(t, tc.width, run.Width, 1e-9)
			assert.InDelta(t, tc.area, run.Mean*run.Width, 1e-6)
			assert.InDelta(t, tc.longest, run.Longest, .15) // the points are up to .1 m from a corner
			assert.True(t, run.RisesAtEdge)
		})
	}
	above := drainage.Catchment(plane(200, .05), bed, plot, drainage.Options{})
	assert.InDelta(t, 34.1709, above.Area, 5e-5)
}

// Where the strip takes in a corner of the plot, the outline goes round it: facing
// south-west from a bed near the north-east corner.
func TestCatchmentGoesRoundACorner(t *testing.T) {
	corner := rectangle(17, 12, 18, 13)
	above := drainage.Catchment(plane(225, .05), corner, plot, drainage.Options{})
	// Between the lines y = x - 6 and y = x - 4 up from (18, 12) and (17, 13), and the
	// corner (20, 15): the square of side 3 from (17, 12), less the bed and two triangles
	// of 2 m2.
	assert.InDelta(t, 9-1-2*2, above.Area, 1e-9)
	assert.Contains(t, above.Outline[0][0], orb.Point{20, 15})
}

// On a cone every path goes up to the apex.
func TestCatchmentOfACone(t *testing.T) {
	cone := ground(func(x, y float64) (float64, float64) {
		r := math.Hypot(x, y)
		return -.1 * x / r, -.1 * y / r
	})
	around := rectangle(-20, -20, 20, 20)
	lower := rectangle(-1, -12, 1, -10)
	above := drainage.Catchment(cone, lower, around, drainage.Options{})
	// Water runs in over the north side only: a triangle of base 2 and height 10.
	assert.InDelta(t, 10, above.Area, .01)
	assert.False(t, above.RisesAtEdge)
}

// In a bowl the bed at the bottom takes water from all round.
func TestCatchmentOfABowl(t *testing.T) {
	bowl := ground(func(x, y float64) (float64, float64) { return .1 * x, .1 * y })
	around := rectangle(-5, -4, 5, 4)
	middle := rectangle(-1, -1, 1, 1)
	above := drainage.Catchment(bowl, middle, around, drainage.Options{})
	assert.InDelta(t, 80-4, above.Area, 1e-6)
	require.Len(t, above.Outline, 1)
	require.Len(t, above.Outline[0], 2)
	assert.Equal(t, orb.CCW, above.Outline[0][0].Orientation())
	assert.Equal(t, orb.CW, above.Outline[0][1].Orientation())
}

func TestRunOnIsCutShortByAnotherBed(t *testing.T) {
	other := func(p orb.Point) bool { return p[1] >= 9 && p[1] <= 10 }
	opt := drainage.Options{Enters: other}
	above := drainage.Catchment(plane(180, .05), bed, plot, opt)
	assert.InDelta(t, 3.6*2.4, above.Area, 1e-5)
	assert.False(t, above.RisesAtEdge)
	run := drainage.RunOnLength(plane(180, .05), bed[0], plot, opt)
	assert.InDelta(t, 2.4, run.Mean, 1e-5)
	assert.InDelta(t, 2.4, run.Longest, 1e-5)
}

// On the east side of the ridge z = .05 y - .02 |x| paths go up on (-2, 5) until they
// meet on the crest: the ground above the bed is the polygon (1, 0), (1, 1), (2, 1),
// (0, 6), (0, 2.5), of 4.75 m2, and the crest itself, which has no area.
func TestCatchmentEndsAtARidge(t *testing.T) {
	ridge := ground(func(x, _ float64) (float64, float64) { return -math.Copysign(.02, x), .05 })
	above := drainage.Catchment(ridge, rectangle(1, 0, 2, 1), rectangle(-10, -10, 10, 10), drainage.Options{})
	assert.InDelta(t, 4.75, above.Area, .1)
}

// Two hills, z = -.001 (x^4/4 - 12.5 x^2) - .01 y^2, have their tops at (5, 0) and (-5, 0). The
// ground above a bed south of the saddle parts: paths go to one top or to the other,
// and nothing beyond the saddle.
func TestCatchmentPartsAtASaddle(t *testing.T) {
	hills := ground(func(x, y float64) (float64, float64) { return -.001 * x * (x*x - 25), -.02 * y })
	around := rectangle(-12, -12, 12, 12)
	above := drainage.Catchment(hills, rectangle(-.5, -8, .5, -7), around, drainage.Options{})
	assert.False(t, above.RisesAtEdge)
	assert.Zero(t, above.Unclear)
	require.Len(t, above.Outline, 2)
	for i, polygon := range above.Outline {
		for _, p := range polygon[0] {
			assert.LessOrEqual(t, p[1], .1, "polygon %d crosses the ridge line", i)
		}
	}
	east, west := planar.Area(above.Outline[0]), planar.Area(above.Outline[1])
	assert.InDelta(t, east, west, .02*east, "the ground is symmetric")
}

// A pit among four hills, z = -cos(pi x/10) - cos(pi y/10): the ground above a bed at the bottom
// is the square between the ridges that join the tops at (10, 10) and its like, and paths
// part towards the four tops.
func TestCatchmentOfAPitAmongHills(t *testing.T) {
	pit := ground(func(x, y float64) (float64, float64) {
		return .1 * math.Sin(math.Pi*x/10), .1 * math.Sin(math.Pi*y/10)
	})
	above := drainage.Catchment(pit, rectangle(-1, -1.2, 1.1, 1), rectangle(-12, -12, 12, 12), drainage.Options{})
	assert.Len(t, above.Outline, 4)
	assert.InDelta(t, 400-2.1*2.2, above.Area, .5)
	assert.False(t, above.RisesAtEdge)
}

// Where the survey gives no direction higher up, what was followed counts and the loss is told.
func TestRunOnIsLostWhereTheGroundIsUnclear(t *testing.T) {
	opt := drainage.Options{LeastFall: func(p orb.Point) float64 {
		if p[1] > 10 {
			return 1
		}
		return .01
	}}
	run := drainage.RunOnLength(plane(180, .05), bed[0], plot, opt)
	assert.InDelta(t, 3.4, run.Mean, .11)
	assert.InDelta(t, 3.6/9.6, run.Unclear, 1e-9)
	assert.False(t, run.RisesAtEdge)
	above := drainage.Catchment(plane(180, .05), bed, plot, opt)
	assert.InDelta(t, 3.6*3.4, above.Area, .4)
	assert.InDelta(t, 3.6/9.6, above.Unclear, 1e-9)
}

func TestRunOnWithoutAnAnswer(t *testing.T) {
	level := ground(func(_, _ float64) (float64, float64) { return 0, 0 })
	nowhere := within{level, orb.Bound{Min: orb.Point{50, 50}, Max: orb.Point{51, 51}}}
	south := plane(180, .05)
	nan := math.NaN()
	for name, tc := range map[string]struct {
		field     drainage.Field
		bed, plot orb.Polygon
	}{
		"level":          {level, bed, plot},
		"unknown ground": {nowhere, bed, plot},
		"no plot":        {south, bed, nil},
		"no bed":         {south, nil, plot},
		"a line":         {south, orb.Polygon{{{1, 1}, {2, 1}, {1, 1}, {1, 1}}}, plot},
		"not a place":    {south, orb.Polygon{{{nan, 1}, {2, 1}, {2, 2}, {nan, 1}}}, plot},
	} {
		t.Run(name, func(t *testing.T) {
			above := drainage.Catchment(tc.field, tc.bed, tc.plot, drainage.Options{})
			assert.Equal(t, drainage.RunOnArea{Unclear: 1}, above)
			var ring orb.Ring
			if len(tc.bed) > 0 {
				ring = tc.bed[0]
			}
			run := drainage.RunOnLength(tc.field, ring, tc.plot, drainage.Options{})
			assert.Equal(t, drainage.RunOn{Unclear: 1}, run)
		})
	}
	outside := drainage.Catchment(south, rectangle(30, 30, 31, 31), plot, drainage.Options{})
	assert.Zero(t, outside.Area)
}

// On any plane, at any place, the two ways of working agree: width times mean length,
// and the outlined area.
func TestLengthTimesWidthIsTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		facing := rapid.Float64Range(0, 360).Draw(t, "facing")
		x := rapid.Float64Range(1, 15).Draw(t, "x")
		y := rapid.Float64Range(1, 12).Draw(t, "y")
		b := rectangle(x, y, x+3.6, y+1.2)
		f := plane(facing, .05)
		above := drainage.Catchment(f, b, plot, drainage.Options{})
		run := drainage.RunOnLength(f, b[0], plot, drainage.Options{})
		if math.Abs(above.Area-run.Mean*run.Width) > .02*above.Area {
			t.Fatalf("area %v, width times length %v", above.Area, run.Mean*run.Width)
		}
	})
}

func BenchmarkCatchment(b *testing.B) {
	b.Run("bed=3.6x1.2", func(b *testing.B) {
		for b.Loop() {
			drainage.Catchment(plane(200, .05), bed, plot, drainage.Options{})
		}
	})
}
