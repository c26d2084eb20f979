package geodata_test

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func ring(xy ...float64) orb.Ring {
	var corners []orb.Point
	for i := 0; i+1 < len(xy); i += 2 {
		corners = append(corners, orb.Point{xy[i], xy[i+1]})
	}
	return geodata.CloseRing(corners)
}

func TestCheckRing(t *testing.T) {
	circle := make([]orb.Point, geodata.MostCorners+1)
	for i := range circle {
		circle[i][1], circle[i][0] = math.Sincos(2 * math.Pi * float64(i) / float64(len(circle)))
	}
	for _, c := range []struct {
		name   string
		ring   orb.Ring
		code   string // empty: nothing is wrong
		corner int
	}{
		{"square", ring(0, 0, 10, 0, 10, 10, 0, 10), "", 0},
		{"clockwise", ring(0, 0, 0, 10, 10, 10, 10, 0), "", 0},
		{"dented", ring(0, 0, 10, 0, 10, 10, 5, 1, 0, 10), "", 0},
		{"corner along a side", ring(0, 0, 5, 0, 10, 0, 10, 10), "", 0},
		{"repeated corners", ring(0, 0, 10, 0, 10, 0, 10, 10, 0, 10, 0, 0), "", 0},
		{"as many corners as are read", geodata.CloseRing(circle[:geodata.MostCorners]), "", 0},
		{"bow tie", ring(0, 0, 10, 10, 10, 0, 0, 10), "crosses-itself", 2},
		{"a corner touches a side", ring(0, 0, 10, 0, 10, 10, 5, 0, 0, 10), "crosses-itself", 2},
		{"two corners meet", ring(0, 0, 5, 5, 10, 0, 10, 10, 5, 5, 0, 10), "crosses-itself", 3},
		{"spike", ring(0, 0, 10, 0, 10, 10, 10, 20, 10, 5, 0, 5), "crosses-itself", 3},
		{"all in one line", ring(0, 0, 5, 0, 10, 0), "crosses-itself", 2},
		{"two corners", ring(0, 0, 10, 0), "too-few-corners", 0},
		{"one corner", ring(3, 3), "too-few-corners", 0},
		{"none", nil, "too-few-corners", 0},
		{"no area", ring(0, 0, 0.03, 0, 0.03, 0.03, 0, 0.03), "no-area", 0},
		{"not a place", orb.Ring{{0, 0}, {math.NaN(), 0}, {1, 1}, {0, 0}}, "not-finite", 1},
		{"endless", orb.Ring{{0, 0}, {1, 0}, {1, math.Inf(1)}, {0, 0}}, "not-finite", 2},
		{"too many corners", geodata.CloseRing(circle), "too-many-corners", geodata.MostCorners},
	} {
		t.Run(c.name, func(t *testing.T) {
			faults := geodata.CheckRing(c.ring)
			if c.code == "" {
				assert.Empty(t, faults)
				return
			}
			require.Len(t, faults, 1)
			assert.Equal(t, c.code, faults[0].Code)
			assert.Equal(t, c.corner, faults[0].Corner)
			assert.NotEmpty(t, faults[0].Message)
			assert.NotEmpty(t, faults[0].Want)
		})
	}
}

// A corner a unit in the last place to one side of the opposite side: floating
// point alone cannot tell, the answer must.
func TestRingsAreExactOnNearlyStraightInput(t *testing.T) {
	up := func(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }
	down := func(v float64) float64 { return math.Nextafter(v, math.Inf(-1)) }
	// The side from (0.1, 0.1) to (12.1, 12.1) has the points (v, v) exactly on it.
	shape := func(tip orb.Point) orb.Ring {
		return orb.Ring{{0.1, 0.1}, {12.1, 12.1}, {0, 20}, tip, {-5, 10}, {0.1, 0.1}}
	}
	v := 3.3
	assert.NotEmpty(t, geodata.CheckRing(shape(orb.Point{v, v})), "on the side")
	assert.NotEmpty(t, geodata.CheckRing(shape(orb.Point{v, down(v)})), "beyond it")
	assert.Empty(t, geodata.CheckRing(shape(orb.Point{v, up(v)})), "on this side of it")

	triangle := ring(0.1, 0.1, 12.1, 12.1, 0, 20)
	assert.True(t, geodata.Inside(triangle, orb.Point{v, v}))
	assert.True(t, geodata.Inside(triangle, orb.Point{v, up(v)}))
	assert.False(t, geodata.Inside(triangle, orb.Point{v, down(v)}))
}

// The same on coordinates whose products are too small for floating point.
func TestRingsAreExactOnMinuteInput(t *testing.T) {
	const tiny = 1e-170
	triangle := orb.Ring{{0, 0}, {2 * tiny, tiny}, {0, tiny}, {0, 0}}
	assert.True(t, geodata.Inside(triangle, orb.Point{tiny / 2, tiny * 3 / 4}))
	assert.True(t, geodata.Inside(triangle, orb.Point{tiny, tiny / 2}), "on a side")
	assert.False(t, geodata.Inside(triangle, orb.Point{tiny * 3 / 2, tiny / 2}))
}

func TestAreasInsideAndMeeting(t *testing.T) {
	square := ring(0, 0, 10, 0, 10, 10, 0, 10)
	assert.InDelta(t, 100, geodata.SignedArea(square), 1e-12)
	assert.InDelta(t, -100, geodata.SignedArea(ring(0, 0, 0, 10, 10, 10, 10, 0)), 1e-12)
	assert.InDelta(t, 6, geodata.SignedArea(ring(1e6, 1e6, 1e6+4, 1e6, 1e6, 1e6+3)), 1e-9, "far from the origin")
	for _, p := range []orb.Point{{5, 5}, {0, 0}, {10, 5}, {5, 10}, {0, 10}} {
		assert.True(t, geodata.Inside(square, p), "%v", p)
	}
	for _, p := range []orb.Point{{-1, 5}, {11, 10}, {5, 10.001}, {-5, 0}, {15, 0}} {
		assert.False(t, geodata.Inside(square, p), "%v", p)
	}
	assert.True(t, geodata.RingsMeet(square, ring(9, 9, 20, 9, 20, 20)), "overlap")
	assert.True(t, geodata.RingsMeet(square, ring(4, 4, 5, 4, 5, 5)), "one within the other")
	assert.True(t, geodata.RingsMeet(ring(4, 4, 5, 4, 5, 5), square), "the other way")
	assert.True(t, geodata.RingsMeet(square, ring(-5, 4, 15, 4, 15, 6, -5, 6)), "a cross, no corner inside")
	assert.True(t, geodata.RingsMeet(square, ring(10, 0, 20, 0, 20, 10)), "touching")
	assert.False(t, geodata.RingsMeet(square, ring(11, 0, 20, 0, 20, 10)))
	assert.False(t, geodata.RingsMeet(square, ring(11, 11, 12, 2, 12, 12)), "boxes meet, areas do not")
	assert.False(t, geodata.RingsMeet(square, nil))
	assert.True(t, geodata.EdgeMeets(square, orb.Point{5, 5}, orb.Point{5, 15}))
	assert.False(t, geodata.EdgeMeets(square, orb.Point{4, 4}, orb.Point{6, 6}))
}

func TestCloseRing(t *testing.T) {
	a, b, c := orb.Point{0, 0}, orb.Point{1, 0}, orb.Point{1, 1}
	want := orb.Ring{a, b, c, a}
	for _, corners := range [][]orb.Point{{a, b, c}, {a, b, c, a}, {a, a, b, b, b, c, a, a}} {
		assert.Equal(t, want, geodata.CloseRing(corners))
	}
	assert.Empty(t, geodata.CloseRing(nil))
}

// onHull tells by brute force whether b follows a on the hull: every point
// lies to the left of the line from a to b, or on it between them.
func onHull(points []orb.Point, a, b orb.Point) bool {
	for _, p := range points {
		switch turn := exactTurn(a, b, p); {
		case turn < 0:
			return false
		case turn == 0 && (p[0] < min(a[0], b[0]) || p[0] > max(a[0], b[0]) || p[1] < min(a[1], b[1]) || p[1] > max(a[1], b[1])):
			return false
		}
	}
	return true
}

func exactTurn(a, b, p orb.Point) int {
	f := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	minus := func(u, v float64) *big.Rat { return new(big.Rat).Sub(f(u), f(v)) }
	l := new(big.Rat).Mul(minus(b[0], a[0]), minus(p[1], a[1]))
	r := new(big.Rat).Mul(minus(b[1], a[1]), minus(p[0], a[0]))
	return l.Cmp(r)
}

// bruteHull are the corners of the hull, found side by side.
func bruteHull(points []orb.Point) (corners []orb.Point) {
	for _, a := range points {
		for _, b := range points {
			if a != b && onHull(points, a, b) && !slices.Contains(corners, a) {
				corners = append(corners, a)
			}
		}
	}
	return corners
}

func TestHullAgainstBruteForce(t *testing.T) {
	// Whole numbers bring repeats and lines; tenths bring nearly straight ones.
	whole := rapid.Map(rapid.IntRange(0, 6), func(i int) float64 { return float64(i) })
	tenth := rapid.Map(rapid.IntRange(0, 40), func(i int) float64 { return float64(i) * 0.1 })
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.SampledFrom([]*rapid.Generator[float64]{whole, tenth}).Draw(t, "grid")
		point := rapid.Custom(func(t *rapid.T) orb.Point { return orb.Point{number.Draw(t, "x"), number.Draw(t, "y")} })
		points := rapid.SliceOfN(point, 0, 14).Draw(t, "points")
		hull := geodata.Hull(points)
		want := bruteHull(points)
		if len(want) < 3 {
			if hull != nil {
				t.Fatalf("points in one line gave %v", hull)
			}
			return
		}
		if len(hull) != len(want)+1 || hull[0] != hull[len(hull)-1] || geodata.SignedArea(hull) <= 0 || geodata.CheckRing(hull) != nil && geodata.SignedArea(hull) > 0.01 {
			t.Fatalf("hull %v, by brute force %v", hull, want)
		}
		for i, c := range hull[:len(hull)-1] {
			if !slices.Contains(want, c) || !onHull(points, c, hull[i+1]) {
				t.Fatalf("hull %v, by brute force %v", hull, want)
			}
			if c[0] < hull[0][0] || c[0] == hull[0][0] && c[1] < hull[0][1] {
				t.Fatalf("hull %v begins elsewhere than in the west", hull)
			}
		}
		slices.Reverse(points)
		if again := geodata.Hull(points); !slices.Equal(again, hull) {
			t.Fatalf("another order gave %v, not %v", again, hull)
		}
	})
}

func BenchmarkCheckRing5000(b *testing.B) {
	corners := make([]orb.Point, geodata.MostCorners)
	for i := range corners {
		corners[i][1], corners[i][0] = math.Sincos(2 * math.Pi * float64(i) / float64(len(corners)))
	}
	r := geodata.CloseRing(corners)
	for b.Loop() {
		geodata.CheckRing(r)
	}
}
