package setout_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/setout"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func mark(name string, x, y float64) geodata.Fixture {
	return geodata.Fixture{Kind: geodata.MarkKind, Name: name, Shape: orb.Point{x, y}}
}

// corners is a bed whose uphill-left corner is at a point, sides along the axes.
func corners(x, y, length, width float64) [4]orb.Point {
	return [4]orb.Point{{x, y}, {x + length, y}, {x + length, y - width}, {x, y - width}}
}

// oneCorner is the tie of a single point, as the first corner of a bed.
func oneCorner(marks []geodata.Fixture, at orb.Point) setout.Corner {
	c := corners(0, 0, 1, 1)
	c[0] = at
	return setout.Make(marks, []setout.Input{{Name: "Bed 1", Corners: c}}).Beds[0].Corners[0]
}

// Two-tape ties worked by hand: base, the two tapes, the point they fix, and
// the position error with a standard deviation of 10 mm for each tape. For
// tapes 15 and 12 on a base of 10 the parts along and across the base are 19.2
// and 9.2 mm.
func TestTies(t *testing.T) {
	cases := []struct {
		base, a, b float64
		at         orb.Point
		side       string
		sigma      float64
	}{
		{10, 8.00, 6.00, orb.Point{6.4, 4.8}, "left", math.Sqrt2 * 10},
		{10, 8.00, 6.00, orb.Point{6.4, -4.8}, "right", math.Sqrt2 * 10},
		{10, 15, 12, orb.Point{9.05, 11.9623}, "left", math.Hypot(19.2, 9.2)},
		{12, 9.55, 7.31, orb.Point{7.5736, 5.8175}, "left", 14.186},
		// the 3-4-5 triangle, its right angle at the corner
		{5, 3, 4, orb.Point{1.8, 2.4}, "left", math.Sqrt2 * 10},
	}
	for _, c := range cases {
		got := oneCorner([]geodata.Fixture{mark("A", 0, 0), mark("B", c.base, 0)}, c.at)
		require.Len(t, got.Ties, 2)
		assert.Equal(t, "A", got.Ties[0].Mark)
		assert.InDelta(t, c.a, got.Ties[0].Distance, 1e-3)
		assert.InDelta(t, c.b, got.Ties[1].Distance, 1e-3)
		assert.Equal(t, c.side, got.Side)
		assert.InDelta(t, c.sigma, got.Error.Value, 0.06, "%v", c)
		assert.InDelta(t, got.Error.Value/2, got.Error.Low, 1e-9)
		assert.InDelta(t, got.Error.Value*2, got.Error.High, 1e-9)
	}
}

// The angle at which two tapes meet, worked by hand for marks at (0, 0) and
// (10, 0) or (12, 0); under 30 and over 150 degrees there is no tie.
func TestTiesByAngle(t *testing.T) {
	cases := []struct {
		base  float64
		at    orb.Point
		angle float64 // degrees; 0: refused
	}{
		{10, orb.Point{5, 5}, 90}, {10, orb.Point{4, 8}, 63.435}, {10, orb.Point{3, 15}, 36.327},
		{10, orb.Point{5, 1}, 0}, {12, orb.Point{20, 6}, 0}, // 157.38 and 20.171 degrees
		{10, orb.Point{0, 0}, 0},    // on the mark itself
		{10, orb.Point{5, 30.1}, 0}, // longer than the tape
		{10, orb.Point{5, 0}, 0},    // on the line between the marks
	}
	for _, c := range cases {
		got := oneCorner([]geodata.Fixture{mark("A", 0, 0), mark("B", c.base, 0)}, c.at)
		if c.angle == 0 {
			assert.Empty(t, got.Ties, "%v", c.at)
			assert.Zero(t, got.Error.Value)
			continue
		}
		require.Len(t, got.Ties, 2)
		assert.InEpsilon(t, setout.PositionError(10, c.angle*math.Pi/180), got.Error.Value, 1e-4, "%v", c.at)
	}
}

func TestMakeTakesTheBestPair(t *testing.T) {
	marks := []geodata.Fixture{mark("A", 0, 0), mark("B", 1, 0), mark("C", 10, 0), mark("D", 10, 10)}
	got := oneCorner(marks, orb.Point{5, 5})
	// A and C meet at 90 degrees, and so do C and D, with tapes as long: the pair drawn first counts
	assert.Equal(t, []string{"A", "C"}, []string{got.Ties[0].Mark, got.Ties[1].Mark})
	marks[0], marks[3] = marks[3], marks[0]
	got = oneCorner(marks, orb.Point{5, 5})
	assert.Equal(t, []string{"D", "C"}, []string{got.Ties[0].Mark, got.Ties[1].Mark})
}

// Diagonals of beds 1.2 x 3.6, 1.2 x 2.4 and 3 x 4 m.
func TestDiagonal(t *testing.T) {
	for size, want := range map[[2]float64]float64{{3.6, 1.2}: 3.7947, {2.4, 1.2}: 2.6833, {4, 3}: 5} {
		s := setout.Make(nil, []setout.Input{{Corners: corners(2, 3, size[0], size[1])}})
		assert.InDelta(t, want, s.Beds[0].Diagonal, 5e-5)
	}
}

func TestMakeNotes(t *testing.T) {
	bed := []setout.Input{{Name: "Bed 1", Corners: corners(2, 6, 3.6, 1.2), PegsAlong: []float64{0, 1.8, 3.6}}}
	far := []setout.Input{{Name: "Bed 1", Corners: corners(2, 1.25, 3.6, 1.2)}}
	two := []geodata.Fixture{mark("A", 0, 0), mark("B", 9, 0)}
	cases := []struct {
		name  string
		marks []geodata.Fixture
		beds  []setout.Input
		says  []string
	}{
		{"sound", two, bed, nil},
		{"no beds", nil, nil, nil},
		{"no marks", nil, bed, []string{"no mark", "two canes", "named spot heights or at corners of the boundary", "0 and 12 m"}},
		{"one mark", two[:1], bed, []string{"one mark, A"}},
		{"flat ties", two, far, []string{"Bed 1 (downhill right, downhill left)", "30 to 150 degrees", "diagonal"}},
		{"not a point", append(two, geodata.Fixture{Name: "fence", Shape: orb.LineString{{0, 0}, {1, 1}}}), bed, []string{"fence is not a point"}},
		{"no shape", append(two, geodata.Fixture{}), bed, []string{"mark 3 is not a point"}},
		{"no place", two, []setout.Input{{Name: "Bed 9", Corners: [4]orb.Point{{math.NaN(), 0}}}}, []string{"corners of Bed 9 are not known"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := setout.Make(c.marks, c.beds)
			if c.says == nil {
				assert.Empty(t, s.Note)
			}
			for _, want := range c.says {
				assert.Contains(t, s.Note, want)
			}
			text, err := json.Marshal(s)
			require.NoError(t, err)
			assert.NotContains(t, string(text), "null", "lists may be empty, never null")
		})
	}
}

func TestMakeNamesCornersAndKeepsPegs(t *testing.T) {
	pegs := []float64{0, 1.8, 3.6}
	s := setout.Make([]geodata.Fixture{mark("", 0, 0), mark("gate post", 9, 0)},
		[]setout.Input{{Name: "Bed 1", Corners: corners(2, 6, 3.6, 1.2), PegsAlong: pegs}})
	assert.Equal(t, "mark 1", s.Marks[0].Name)
	assert.Equal(t, pegs, s.Beds[0].PegsAlong)
	var names []string
	for _, c := range s.Beds[0].Corners {
		names = append(names, c.Name)
	}
	assert.Equal(t, []string{"uphill left", "uphill right", "downhill right", "downhill left"}, names)
}

// Whatever the marks and the corner, taping the two distances on the side that
// is said must lead back to the corner.
func TestTiesLeadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 5).Draw(t, "marks")
		place := rapid.Float64Range(-20, 20)
		var marks []geodata.Fixture
		at := map[string]orb.Point{}
		for i := range n {
			name := fmt.Sprint(i)
			p := orb.Point{place.Draw(t, "x"), place.Draw(t, "y")}
			marks, at[name] = append(marks, mark(name, p[0], p[1])), p
		}
		want := orb.Point{place.Draw(t, "corner x"), place.Draw(t, "corner y")}
		c := oneCorner(marks, want)
		if len(c.Ties) == 0 {
			return
		}
		a, b := at[c.Ties[0].Mark], at[c.Ties[1].Mark]
		got := fixed(a, b, c.Ties[0].Distance, c.Ties[1].Distance, c.Side)
		require.InDelta(t, want[0], got[0], 1e-6)
		require.InDelta(t, want[1], got[1], 1e-6)
		require.True(t, c.Error.Value >= 14.14 && c.Error.Value <= 28.29, "between square and 30 degrees: %v", c.Error)
	})
}

// fixed is the point at two distances from two marks, on a side of their line:
// x = (a^2 - b^2 + c^2) / 2c along it and the root of a^2 - x^2 off it.
func fixed(a, b orb.Point, ra, rb float64, side string) orb.Point {
	c := math.Hypot(b[0]-a[0], b[1]-a[1])
	x := (ra*ra - rb*rb + c*c) / (2 * c)
	y := math.Sqrt(math.Max(0, ra*ra-x*x))
	if side == "right" {
		y = -y
	}
	e, n := (b[0]-a[0])/c, (b[1]-a[1])/c
	return orb.Point{a[0] + x*e - y*n, a[1] + x*n + y*e}
}

// Marks at 0, 3, 8 and 12 m (Food and Agriculture Organization, R7021E, 4.1).
func TestSquareMarks(t *testing.T) {
	m := setout.SquareMarks(1)
	assert.Equal(t, [4]float64{0, 3, 8, 12}, m)
	a, b, c := m[1]-m[0], m[3]-m[2], m[2]-m[1]
	assert.Equal(t, c*c, a*a+b*b, "the sides at the ends of the tape are square to each other")
}

// A frame of 1.2 by 3.0 m with diagonals of 3.245 and 3.217 m, worked by hand:
// 0.720 degrees out of square, 37.7 mm over 3 m.
// A frame of 3.6 by 1.2 m whose side is slid along by 5.3 mm has diagonals of
// sqrt((3.6 + 0.0053)^2 + 1.2^2) and sqrt((3.6 - 0.0053)^2 + 1.2^2): 10.06 mm
// apart.
func TestSlideSquaresTheFrame(t *testing.T) {
	s := setout.Make(nil, []setout.Input{{Name: "bed", Corners: [4]orb.Point{{0, 1.2}, {3.6, 1.2}, {3.6, 0}, {0, 0}}}})
	slide := s.Beds[0].Slide / 1000
	assert.InDelta(t, .0053, slide, 1e-4)
	assert.InDelta(t, .010, math.Hypot(3.6+slide, 1.2)-math.Hypot(3.6-slide, 1.2), 1e-5)
}

func TestOutOfSquare(t *testing.T) {
	e := setout.OutOfSquare(3.245, 3.217, 1.2, 3.0)
	assert.InDelta(t, 0.720, e*180/math.Pi, 5e-4)
	assert.InDelta(t, 37.7, 3000*e, 0.05)
	assert.Zero(t, setout.OutOfSquare(3, 3, 1, 2))
	assert.Negative(t, setout.OutOfSquare(3, 3.1, 1, 2))
}

func ExampleMake() {
	marks := []geodata.Fixture{
		{Kind: geodata.MarkKind, Name: "gate post", Shape: orb.Point{0, 0}},
		{Kind: geodata.MarkKind, Name: "water butt", Shape: orb.Point{10, 0}},
	}
	bed := setout.Input{Name: "Bed 1", Corners: [4]orb.Point{{3.2, 6}, {6.8, 6}, {6.8, 4.8}, {3.2, 4.8}}}
	for _, c := range setout.Make(marks, []setout.Input{bed}).Beds[0].Corners {
		fmt.Printf("%s: %.2f m from the %s, %.2f m from the %s, to within %.0f mm\n", c.Name,
			c.Ties[0].Distance, c.Ties[0].Mark, c.Ties[1].Distance, c.Ties[1].Mark, c.Error.Value)
	}
	// Output:
	// uphill left: 6.80 m from the gate post, 9.07 m from the water butt, to within 15 mm
	// uphill right: 9.07 m from the gate post, 6.80 m from the water butt, to within 15 mm
	// downhill right: 8.32 m from the gate post, 5.77 m from the water butt, to within 14 mm
	// downhill left: 5.77 m from the gate post, 8.32 m from the water butt, to within 14 mm
}
