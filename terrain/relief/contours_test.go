package relief_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain"
	"crossfall/terrain/relief"
)

// newNoise is a seeded source of standard normal values.
func newNoise() func() float64 { return rand.New(rand.NewPCG(7, 11)).NormFloat64 }

func ExampleContours() {
	// A plot 8 m deep that falls 1 in 20 to the south, heights each metre.
	g := terrain.NewGrid(orb.Point{}, 1, 7, 9)
	for row := range 9 {
		for col := range 7 {
			g.Set(col, row, 10+float64(row)/20)
		}
	}
	for _, c := range relief.Contours(g, relief.Levels(10, 10.4, .1)) {
		fmt.Printf("%.1f m from %v to %v\n", c.Level, c.Line[0], c.Line[len(c.Line)-1])
	}
	// Output:
	// 10.1 m from [6 2] to [0 2]
	// 10.2 m from [6 4] to [0 4]
	// 10.3 m from [6 6] to [0 6]
	// 10.4 m from [6 8] to [0 8]
}

// A square with a saddle at 2.5 (Nielson & Hamann 1991): below it the two high corners, 3 and
// 4, are joined, above it parted. Crossings by linear interpolation on the sides.
func TestSaddle(t *testing.T) {
	g := gridOf(1, []float64{1, 3}, []float64{4, 2}) // y from the south here: top row at y = 1
	joined := relief.Contours(g, []float64{2.2})
	require.Len(t, joined, 2)
	assertLine(t, orb.LineString{{1, .2}, {.9, 0}}, joined[0].Line)
	assertLine(t, orb.LineString{{0, .6}, {.6, 1}}, joined[1].Line)
	parted := relief.Contours(g, []float64{2.8})
	require.Len(t, parted, 2)
	assertLine(t, orb.LineString{{0, .4}, {.6, 0}}, parted[0].Line)
	assertLine(t, orb.LineString{{1, .8}, {.9, 1}}, parted[1].Line)
	assert.Len(t, relief.Contours(g, []float64{2.5}), 2, "at the saddle the high corners are joined")
}

func assertLine(t *testing.T, want, got orb.LineString) {
	t.Helper()
	require.Len(t, got, len(want))
	for i := range want {
		assert.InDelta(t, want[i][0], got[i][0], 1e-12)
		assert.InDelta(t, want[i][1], got[i][1], 1e-12)
	}
}

func TestContoursOfACone(t *testing.T) {
	g := gridFrom(orb.Point{-20, -20}, .25, 161, 161, func(x, y float64) float64 { return 100 - .1*math.Hypot(x, y) })
	for _, c := range relief.Contours(g, []float64{98.25, 98.8, 99.5}) {
		require.True(t, c.Closed)
		r := (100 - c.Level) / .1
		assert.InEpsilon(t, 2*math.Pi*r, planar.Length(c.Line), 1e-3)
		assert.Equal(t, orb.CW, orb.Ring(c.Line).Orientation(), "high ground on the right")
		for _, p := range c.Line {
			assert.InDelta(t, r, math.Hypot(p[0], p[1]), .01)
		}
	}
}

// High ground lies on the right of every contour of the data set volcano of the R
// package datasets, and inside the contour of 150 m as much as its nodes count up to.
func TestContoursOfTheVolcano(t *testing.T) {
	g := readVolcano(t)
	low, high := 94., 195.
	levels := relief.Levels(low, high, relief.Interval(low, high, 0))
	assert.Equal(t, []float64{100, 110, 120, 130, 140, 150, 160, 170, 180, 190}, levels)
	lines := relief.Contours(g, levels)
	assert.NotEmpty(t, lines)
	for _, c := range lines {
		assert.Equal(t, c.Closed, c.Line[0] == c.Line[len(c.Line)-1])
		assertHighOnRight(t, g, c)
	}
	// The area at or above a level is that inside its lines; counting nodes gives it roughly.
	var inside float64
	for _, c := range relief.Contours(g, []float64{150}) {
		require.True(t, c.Closed)
		inside += math.Abs(planar.Area(orb.Ring(c.Line)))
	}
	var nodes float64
	for _, z := range g.Z {
		if z >= 150 {
			nodes++
		}
	}
	assert.InEpsilon(t, nodes*100, inside, .03)
}

// Every segment crosses a square; the square's corner furthest to the right is not lower
// than the one furthest to the left.
func assertHighOnRight(t *testing.T, g *terrain.Grid, c relief.Contour) {
	t.Helper()
	for i := 1; i < len(c.Line); i++ {
		p, q := c.Line[i-1], c.Line[i]
		col := int(math.Floor(((p[0]+q[0])/2 - g.Origin[0]) / g.Cell))
		row := int(math.Floor(((p[1]+q[1])/2 - g.Origin[1]) / g.Cell))
		for _, corner := range [][2]int{{col, row}, {col + 1, row}, {col, row + 1}, {col + 1, row + 1}} {
			n := g.Node(corner[0], corner[1])
			left := (q[0]-p[0])*(n[1]-p[1]) - (q[1]-p[1])*(n[0]-p[0])
			z := g.At(corner[0], corner[1])
			// Corners on the wrong side can only be those of the other segment of a saddle.
			if left > 1e-9 && z >= c.Level && !saddle(g, col, row, c.Level) {
				t.Fatalf("level %v: high corner %v on the left", c.Level, n)
			}
		}
	}
}

func saddle(g *terrain.Grid, col, row int, level float64) bool {
	sw, ne := g.At(col, row) >= level, g.At(col+1, row+1) >= level
	se, nw := g.At(col+1, row) >= level, g.At(col, row+1) >= level
	return sw == ne && se == nw && sw != se
}

// On any ground no two segments cross, whatever the levels, and lines end only at the
// edge of what is known.
func TestContoursNeverCross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heights := rapid.SliceOfN(rapid.IntRange(0, 9), 36, 36).Draw(t, "heights")
		holes := rapid.SliceOfN(rapid.IntRange(0, 35), 0, 3).Draw(t, "holes")
		g := terrain.NewGrid(orb.Point{}, 1, 6, 6)
		for i, h := range heights {
			g.Z[i] = float64(h)
		}
		for _, h := range holes {
			g.Z[h] = math.NaN()
		}
		lines := relief.Contours(g, []float64{1, 2.25, 3, 4.5, 5, 6.75, 8})
		type side struct {
			a, b  orb.Point
			level float64
		}
		var sides []side
		for _, c := range lines {
			// Only at a node may the two ends of an open line meet.
			if c.Closed != (c.Line[0] == c.Line[len(c.Line)-1]) && !onNode(c.Line[0]) {
				t.Fatalf("line %v says closed %v", c.Line, c.Closed)
			}
			for i := 1; i < len(c.Line); i++ {
				sides = append(sides, side{c.Line[i-1], c.Line[i], c.Level})
			}
		}
		for i, s := range sides {
			for _, o := range sides[:i] {
				if crosses(s.a, s.b, o.a, o.b) {
					t.Fatalf("%v crosses %v", s, o)
				}
			}
		}
	})
}

func onNode(p orb.Point) bool { return p[0] == math.Trunc(p[0]) && p[1] == math.Trunc(p[1]) }

// crosses reports whether the insides of two segments cross.
func crosses(a, b, c, d orb.Point) bool {
	turn := func(p, q, r orb.Point) float64 { return (q[0]-p[0])*(r[1]-p[1]) - (q[1]-p[1])*(r[0]-p[0]) }
	const rounding = 1e-12
	opposed := func(u, v float64) bool { return (u > rounding && v < -rounding) || (u < -rounding && v > rounding) }
	return opposed(turn(a, b, c), turn(a, b, d)) && opposed(turn(c, d, a), turn(c, d, b))
}

func TestContoursStopAtMissingHeights(t *testing.T) {
	g := gridFrom(orb.Point{}, 1, 8, 3, func(_, y float64) float64 { return y })
	g.Set(4, 1, math.NaN())
	lines := relief.Contours(g, []float64{.5})
	require.Len(t, lines, 2)
	assertLine(t, orb.LineString{{3, .5}, {2, .5}, {1, .5}, {0, .5}}, lines[0].Line)
	assertLine(t, orb.LineString{{7, .5}, {6, .5}, {5, .5}}, lines[1].Line)
	g.Set(4, 1, math.Inf(1))
	assert.Equal(t, lines, relief.Contours(g, []float64{.5}))
}

func TestContoursWithoutAnAnswer(t *testing.T) {
	flat := gridFrom(orb.Point{}, 1, 4, 4, func(_, _ float64) float64 { return 3 })
	assert.Empty(t, relief.Contours(flat, []float64{2, 3, 4, math.NaN(), math.Inf(1)}))
	assert.Empty(t, relief.Contours(nil, []float64{1}))
	assert.Empty(t, relief.Contours(terrain.NewGrid(orb.Point{}, 1, 1, 9), []float64{1}))
	assert.Empty(t, relief.Contours(terrain.NewGrid(orb.Point{}, 1, 9, 9), []float64{1}))
	peak := gridOf(1, []float64{0, 0, 0}, []float64{0, 1, 0}, []float64{0, 0, 0})
	assert.Empty(t, relief.Contours(peak, []float64{1}), "a peak at the level is a point, not a line")
	assert.Len(t, relief.Contours(peak, []float64{.5, .5}), 2)
}

// From 5 cm up and 20 lines at most: defaults of ours, worked by hand.
func TestInterval(t *testing.T) {
	for _, tc := range []struct{ low, high, sigma, want float64 }{
		{10, 10.31, 0, .05}, {10, 11, 0, .05}, {10, 11.07, 0, .1}, {10, 13.2, 0, .25},
		{100, 118, 0, 1}, {0, 90, 0, 5}, {94, 195, 0, 10}, {-2, -1, 0, .05}, {0, 3000, 0, 250},
		{10, 11, .02, .1}, {10, 10.31, .2, 1}, {5, 5, 0, .05}, {10, 11, math.NaN(), .05},
		{5, 4, 0, 0}, {math.NaN(), 4, 0, 0}, {1, 2, math.Inf(1), 0},
	} {
		assert.Equal(t, tc.want, relief.Interval(tc.low, tc.high, tc.sigma), "%+v", tc)
	}
	assert.Equal(t, []float64{.1, .2, .3}, relief.Levels(.05, .3, .1))
	assert.Equal(t, []float64{-.25, 0}, relief.Levels(-.5, .1, .25))
	assert.Empty(t, relief.Levels(0, 1e6, .05), "too many to draw")
	assert.Less(t, len(relief.Levels(1e20, 1e20, 1)), 2, "heights past counting by ones")
	assert.Empty(t, relief.Levels(0, 1, 0))
	assert.Empty(t, relief.Levels(0, math.NaN(), .1))
}

// In feet: 20 lines at most (a default of ours), multiples of the interval counted by
// hand.
func TestIntervalInFeet(t *testing.T) {
	const ft = 0.3048
	for _, tc := range []struct{ low, high, sigma, want float64 }{
		{10, 14.9, 0, .25}, {10, 15.2, 0, .25}, {10, 15.25, 0, .5}, {10, 20, 0, .5}, {10, 20.6, 0, 1}, {90, 118, 0, 2},
		{0, 90, 0, 5}, {0, 195, 0, 10}, {0, 9000, 0, 500}, {10, 11, .1, .5}, {10, 11, .5, 2}, {5, 5, 0, .25},
	} {
		assert.InDelta(t, tc.want*ft, relief.IntervalInFeet(tc.low*ft, tc.high*ft, tc.sigma*ft), 1e-12, "%+v", tc)
	}
	assert.Zero(t, relief.IntervalInFeet(5, 4, 0))
	assert.Zero(t, relief.IntervalInFeet(math.NaN(), 4, 0))
}

// From relief of eight of the finest intervals on.
func TestIntervalGivesAReadableNumberOfLines(t *testing.T) {
	for name, tc := range map[string]struct {
		least    float64
		interval func(low, high, sigma float64) float64
	}{"m": {.4, relief.Interval}, "ft": {8 * .0762, relief.IntervalInFeet}} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				low := rapid.Float64Range(-100, 1000).Draw(t, "low")
				relieving := rapid.Float64Range(tc.least, 900).Draw(t, "relief")
				n := len(relief.Levels(low, low+relieving, tc.interval(low, low+relieving, 0)))
				if n < relief.FewestLines || n > relief.MostLines {
					t.Fatalf("%d lines", n)
				}
			})
		})
	}
}

func BenchmarkContours(b *testing.B) {
	for _, n := range []int{50, 200} {
		b.Run(fmt.Sprintf("nodes=%dx%d", n, n), func(b *testing.B) {
			g := gridFrom(orb.Point{}, 10/float64(n), n, n, rolling)
			levels := relief.Levels(-.4, .9, .1)
			b.ReportAllocs()
			for b.Loop() {
				relief.Contours(g, levels)
			}
		})
	}
}

func BenchmarkSlopes(b *testing.B) {
	b.Run("nodes=200x200", func(b *testing.B) {
		g := gridFrom(orb.Point{}, .05, 200, 200, rolling)
		for b.Loop() {
			_, _ = relief.Slopes(g, relief.SlopeOptions{Edges: true})
		}
	})
}
