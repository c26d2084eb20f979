package drainage_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain"
	"crossfall/terrain/drainage"
)

func ExampleDownhill() {
	plot := rectangle(0, 0, 20, 15)
	path := drainage.Downhill(plane(200, .08), orb.Point{10, 10}, drainage.Options{Plot: plot})
	end := path.Points[len(path.Points)-1]
	fmt.Printf("%s after %.2f m, at %.2f, %.2f\n", path.End, path.Length, end[0], end[1])
	// Output: leaves the plot after 10.64 m, at 6.36, 0.00
}

// On z = .005 x^2 + .01 y^2 steepest descent from (10, 10) obeys dy/dx = 2y/x, so
// y = 10 (x/10)^2; at x = 5 y = 2.5 and the length is the integral of sqrt(1 + x^2/25)
// from 5 to 10: 9.050460 m.
func TestDownhillFollowsTheParabola(t *testing.T) {
	length := func(x float64) float64 { // antiderivative of sqrt(1 + (x/5)^2)
		u := x / 5
		return 5 * (u*math.Sqrt(1+u*u) + math.Asinh(u)) / 2
	}
	require.InDelta(t, 9.050460, length(10)-length(5), 1e-6)
	for _, tc := range []struct{ step, tolerance float64 }{{0, 2e-4}, {.01, 2e-6}} {
		path := drainage.Downhill(paraboloid, orb.Point{10, 10}, drainage.Options{
			Step: tc.step, Enters: func(p orb.Point) bool { return p[0] <= 5 },
		})
		require.Equal(t, drainage.EntersRegion, path.End)
		end := path.Points[len(path.Points)-1]
		assert.InDelta(t, 5, end[0], tc.tolerance)
		assert.InDelta(t, 2.5, end[1], tc.tolerance)
		assert.InDelta(t, 9.050460, path.Length, tc.tolerance)
		for _, p := range path.Points {
			assert.InDelta(t, p[0]*p[0]/10, p[1], tc.tolerance)
		}
	}
}

func TestHowPathsEnd(t *testing.T) {
	plot := rectangle(0, 0, 20, 15)
	holed := append(rectangle(0, 0, 20, 15), orb.Ring{{9, 4}, {9, 6}, {11, 6}, {11, 4}, {9, 4}})
	bowl := ground(func(x, y float64) (float64, float64) { return .2 * (x - 10), .1 * (y - 5) })
	level := ground(func(_, _ float64) (float64, float64) { return 0, 0 })
	nan := ground(func(_, _ float64) (float64, float64) { return math.NaN(), 0 })
	trough := ground(func(x, _ float64) (float64, float64) { return math.Copysign(.1, x-10), 0 })
	south := plane(180, .1)
	for name, tc := range map[string]struct {
		field  drainage.Field
		uphill bool
		from   orb.Point
		opt    drainage.Options
		end    drainage.EndReason
		at     orb.Point
		length float64
	}{
		"plot edge":              {field: south, from: orb.Point{3, 4}, opt: drainage.Options{Plot: plot}, end: drainage.LeavesPlot, at: orb.Point{3, 0}, length: 4},
		"plot edge, uphill":      {field: south, uphill: true, from: orb.Point{3, 4}, opt: drainage.Options{Plot: plot}, end: drainage.LeavesPlot, at: orb.Point{3, 15}, length: 11},
		"edge of a hole":         {field: south, from: orb.Point{10, 8}, opt: drainage.Options{Plot: holed}, end: drainage.LeavesPlot, at: orb.Point{10, 6}, length: 2},
		"along the edge":         {field: south, from: orb.Point{0, 4}, opt: drainage.Options{Plot: plot}, end: drainage.LeavesPlot, at: orb.Point{0, 0}, length: 4},
		"on the edge, going out": {field: south, from: orb.Point{3, 0}, opt: drainage.Options{Plot: plot}, end: drainage.LeavesPlot, at: orb.Point{3, 0}},
		"on the edge, going in":  {field: south, uphill: true, from: orb.Point{3, 0}, opt: drainage.Options{Plot: plot}, end: drainage.LeavesPlot, at: orb.Point{3, 15}, length: 15},
		"out through a corner":   {field: plane(225, .1), from: orb.Point{3, 3}, opt: drainage.Options{Plot: plot}, end: drainage.LeavesPlot, at: orb.Point{0, 0}, length: 3 * math.Sqrt2},
		"no ground past the edge": {field: within{south, orb.Bound{Max: orb.Point{20, 15}}}, from: orb.Point{3, 4.03},
			opt: drainage.Options{Plot: plot}, end: drainage.LeavesPlot, at: orb.Point{3, 0}, length: 4.03},
		"no ground": {field: within{south, orb.Bound{Min: orb.Point{0, 2}, Max: orb.Point{20, 15}}}, from: orb.Point{3, 4},
			opt: drainage.Options{Plot: plot}, end: drainage.GroundUnknown, at: orb.Point{3, 2}, length: 2},
		"starts outside": {field: south, from: orb.Point{30, 4}, opt: drainage.Options{Plot: plot}, end: drainage.StartsOutside, at: orb.Point{30, 4}},
		"not a place":    {field: south, from: orb.Point{math.NaN(), 4}, opt: drainage.Options{Plot: plot}, end: drainage.StartsOutside, at: orb.Point{math.NaN(), 4}},
		"a bed": {field: south, from: orb.Point{3, 9}, opt: drainage.Options{Enters: func(p orb.Point) bool { return p[1] <= 5 }},
			end: drainage.EntersRegion, at: orb.Point{3, 5}, length: 4},
		"leaves the bed it starts in": {field: south, from: orb.Point{3, 5.5}, end: drainage.LeavesPlot, at: orb.Point{3, 0}, length: 5.5,
			opt: drainage.Options{Plot: plot, Enters: func(p orb.Point) bool { return p[1] >= 5 && p[1] <= 6 }}},
		"edge before a bed beyond it": {field: south, from: orb.Point{3, 4}, end: drainage.LeavesPlot, at: orb.Point{3, 0}, length: 4,
			opt: drainage.Options{Plot: plot, Enters: func(p orb.Point) bool { return p[1] < -.01 }}},
		"level":                 {field: level, from: orb.Point{3, 4}, end: drainage.DirectionUnclear, at: orb.Point{3, 4}},
		"gradient not a number": {field: nan, from: orb.Point{3, 4}, end: drainage.DirectionUnclear, at: orb.Point{3, 4}},
		"flatter than the survey can tell": {field: south, from: orb.Point{3, 4}, end: drainage.DirectionUnclear, at: orb.Point{3, 4},
			opt: drainage.Options{LeastFall: func(orb.Point) float64 { return .11 }}},
		"unclear beyond a line": {field: south, from: orb.Point{3, 4}, end: drainage.DirectionUnclear, at: orb.Point{3, 3}, length: 1,
			opt: drainage.Options{LeastFall: func(p orb.Point) float64 {
				if p[1] < 3+1e-6 {
					return math.NaN()
				}
				return .05
			}}},
		"hollow":     {field: bowl, from: orb.Point{3, 9}, opt: drainage.Options{Plot: plot}, end: drainage.ReachesHollow, at: orb.Point{10, 5}, length: -1},
		"crease":     {field: trough, from: orb.Point{9.03, 4}, end: drainage.DirectionUnclear, at: orb.Point{10, 4}, length: -1},
		"step limit": {field: south, from: orb.Point{3, 4}, opt: drainage.Options{MaxSteps: 7}, end: drainage.TooLong, at: orb.Point{3, 3.3}, length: .7},
	} {
		t.Run(name, func(t *testing.T) {
			trace := drainage.Downhill
			if tc.uphill {
				trace = drainage.Uphill
			}
			path := trace(tc.field, tc.from, tc.opt)
			require.NotEmpty(t, path.Points)
			assert.Equal(t, tc.end, path.End)
			end := path.Points[len(path.Points)-1]
			tolerance := 1e-9
			switch tc.end {
			case drainage.GroundUnknown, drainage.ReachesHollow, drainage.DirectionUnclear, drainage.EntersRegion:
				tolerance = .002 // within the finest step
			}
			if !math.IsNaN(tc.at[0]) {
				assert.InDelta(t, tc.at[0], end[0], tolerance)
				assert.InDelta(t, tc.at[1], end[1], tolerance)
			}
			if tc.length >= 0 {
				assert.InDelta(t, tc.length, path.Length, tolerance)
			}
		})
	}
}

func TestUphillReachesTheTop(t *testing.T) {
	hill := ground(func(x, y float64) (float64, float64) { return -.2 * x, -.1 * y })
	path := drainage.Uphill(hill, orb.Point{3, 3}, drainage.Options{})
	assert.Equal(t, drainage.ReachesTop, path.End)
	end := path.Points[len(path.Points)-1]
	assert.Less(t, math.Hypot(end[0], end[1]), .01)
}

// A path's length is that of its points to within the chords of its bends, and
// turning the ground turns the path.
func TestPathProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-.3, .3).Draw(t, "a")
		b := rapid.Float64Range(-.3, .3).Draw(t, "b")
		c := rapid.Float64Range(-.02, .02).Draw(t, "c")
		turn := rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")
		field := ground(func(x, y float64) (float64, float64) { return a + c*y, b + c*x })
		s, k := math.Sincos(turn)
		rotate := func(x, y float64) (float64, float64) { return k*x - s*y, s*x + k*y }
		turned := ground(func(x, y float64) (float64, float64) {
			e, n := field(k*x+s*y, k*y-s*x)
			return rotate(e, n)
		})
		plot := orb.Polygon{orb.Bound{Min: orb.Point{-5, -4}, Max: orb.Point{6, 3}}.ToRing()}
		turnedPlot := orb.Polygon{nil}
		for _, p := range plot[0] {
			x, y := rotate(p[0], p[1])
			turnedPlot[0] = append(turnedPlot[0], orb.Point{x, y})
		}
		// Near level ground a difference in the last bit may choose the way.
		opt := drainage.Options{MinFall: .01}
		opt.Plot = plot
		path := drainage.Downhill(field, orb.Point{.5, .25}, opt)
		opt.Plot = turnedPlot
		x, y := rotate(.5, .25)
		other := drainage.Downhill(turned, orb.Point{x, y}, opt)

		var chords float64
		for i := 1; i < len(path.Points); i++ {
			p, q := path.Points[i-1], path.Points[i]
			chords += math.Hypot(q[0]-p[0], q[1]-p[1])
			g, _ := field.GradientAt(p)
			if along := terrain.BearingOf(q[0]-p[0], q[1]-p[1]); math.Hypot(q[0]-p[0], q[1]-p[1]) > 1e-6 && g.Along(along) >= 0 {
				t.Fatalf("step %d does not fall", i)
			}
		}
		if chords > path.Length+1e-9 || chords < path.Length*.99 {
			t.Fatalf("length %v, chords %v", path.Length, chords)
		}
		if path.End != other.End && path.End != drainage.DirectionUnclear && other.End != drainage.DirectionUnclear {
			t.Fatalf("ends %q and %q", path.End, other.End)
		}
		if path.End == drainage.LeavesPlot && other.End == drainage.LeavesPlot {
			end, turnedEnd := path.Points[len(path.Points)-1], other.Points[len(other.Points)-1]
			ex, ey := rotate(end[0], end[1])
			if math.Hypot(ex-turnedEnd[0], ey-turnedEnd[1]) > 1e-4 {
				t.Fatalf("ends at %v, turned %v", end, turnedEnd)
			}
		}
	})
}

func BenchmarkDownhill(b *testing.B) {
	opt := drainage.Options{Plot: rectangle(-20, -20, 20, 20)}
	for _, length := range []float64{5, 20} {
		b.Run(fmt.Sprintf("metres=%.0f", length), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				drainage.Downhill(plane(180, .1), orb.Point{1, -20 + length}, opt)
			}
		})
	}
}
