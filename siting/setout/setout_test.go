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
)

func mark(name string, x, y float64) geodata.Fixture {
	return geodata.Fixture{Kind: geodata.MarkKind, Name: name, Shape: orb.Point{x, y}}
}

// corners is a bed whose uphill-left corner is at a point, sides along the axes.
func corners(x, y, length, width float64) [4]orb.Point {
	return [4]orb.Point{{x, y}, {x + length, y}, {x + length, y - width}, {x, y - width}}
}

func bed(name string, x, y, length, width float64) setout.Input {
	return setout.Input{Name: name, Corners: corners(x, y, length, width)}
}

// oneCorner is the tie of a single point, as the first corner of a bed.
func oneCorner(marks []geodata.Fixture, at orb.Point) setout.Corner {
	c := corners(0, 0, 1, 1)
	c[0] = at
	return setout.Make(setout.Site{Marks: marks, Beds: []setout.Input{{Name: "Bed 1", Corners: c}}}).Beds[0].Corners[0]
}

// Two-tape ties worked by hand: base, the two tapes, the point they fix.
func TestTies(t *testing.T) {
	cases := []struct {
		base, a, b float64
		at         orb.Point
		side       string
	}{
		{10, 8.00, 6.00, orb.Point{6.4, 4.8}, "left"},
		{10, 8.00, 6.00, orb.Point{6.4, -4.8}, "right"},
		{10, 15, 12, orb.Point{9.05, 11.9623}, "left"},
		{12, 9.55, 7.31, orb.Point{7.5736, 5.8175}, "left"},
		// the 3-4-5 triangle, its right angle at the corner
		{5, 3, 4, orb.Point{1.8, 2.4}, "left"},
	}
	for _, c := range cases {
		got := oneCorner([]geodata.Fixture{mark("A", 0, 0), mark("B", c.base, 0)}, c.at)
		require.Len(t, got.Ties, 2)
		assert.Equal(t, "A", got.Ties[0].Mark)
		assert.InDelta(t, c.a, got.Ties[0].Distance, 1e-3)
		assert.InDelta(t, c.b, got.Ties[1].Distance, 1e-3)
		assert.Equal(t, c.a, math.Round(1e3*got.Ties[0].OnSlope)/1e3, "level ground")
		assert.Equal(t, c.side, got.Side)
	}
}

// The same points with tapes of 10 mm, worked by hand: on tapes that meet square
// the error is 10 mm every way; for tapes of 15 and 12 m on a base of 10 the
// parts along and across the base are 19.2 and 9.2 mm.
func TestErrorAlongAndAcrossTheBase(t *testing.T) {
	c := setout.Fixed(orb.Point{0, 0}, orb.Point{10, 0}, orb.Point{6.4, 4.8}, 10, 10)
	assert.InDelta(t, 10, math.Sqrt(c[0][0]), 1e-9)
	assert.InDelta(t, 10, math.Sqrt(c[1][1]), 1e-9)
	assert.InDelta(t, 0, c[0][1], 1e-9)
	c = setout.Fixed(orb.Point{0, 0}, orb.Point{10, 0}, orb.Point{9.05, 11.9623}, 10, 10)
	assert.InDelta(t, 19.2, math.Sqrt(c[0][0]), .05)
	assert.InDelta(t, 9.2, math.Sqrt(c[1][1]), .05)
}

// Ellipses of one standard deviation, tapes of 5 mm and 0.5 mm a metre in
// quadrature, worked with the general formula J⁻¹ diag(s²) J⁻ᵀ apart from this
// code; at (5, 5) by hand too: tapes of 7.0711 m meet square, so both axes are
// sqrt(25 + 12.5) = 6.1237 mm.
func TestEllipse(t *testing.T) {
	for _, c := range []struct {
		b, at               orb.Point
		angle, major, minor float64
		axis                float64 // degrees; -1: a circle has none
	}{
		{orb.Point{10, 0}, orb.Point{5, 5}, 90, 6.12, 6.12, -1},
		{orb.Point{10, 0}, orb.Point{4, 8}, 63.435, 9.28, 5.72, 2.15},
		{orb.Point{10, 0}, orb.Point{5, 1}, 157.38, 20.24, 4.05, 90},
		{orb.Point{10, 0}, orb.Point{3, 15}, 36.327, 21.34, 6.99, 5.66},
		{orb.Point{12, 0}, orb.Point{20, 6}, 20.171, 38.86, 6.11, 121.54},
	} {
		a := orb.Point{0, 0}
		e := setout.Fixed(a, c.b, c.at, tape(a, c.at), tape(c.b, c.at)).Ellipse()
		assert.InDelta(t, c.angle, setout.Angle(a, c.b, c.at)*180/math.Pi, 5e-3, "%v", c.at)
		assert.Equal(t, c.angle >= 30 && c.angle <= 150, setout.Sound(a, c.b, c.at), "%v", c.at)
		assert.InDelta(t, c.major, e.Major, 6e-3, "%v", c.at)
		assert.InDelta(t, c.minor, e.Minor, 6e-3, "%v", c.at)
		if c.axis >= 0 {
			assert.InDelta(t, c.axis, e.Axis, 6e-3, "%v", c.at)
		}
		// 95 % of chi-squared with two degrees of freedom: 5.991 (any table)
		assert.InDelta(t, math.Sqrt(5.991), e.Major95/e.Major, 1e-4)
		assert.InDelta(t, math.Sqrt(5.991), e.Minor95/e.Minor, 1e-4)
	}
}

func tape(a, b orb.Point) float64 { return setout.TapeError(math.Hypot(b[0]-a[0], b[1]-a[1])) }

// The share of points within the ellipse of 95 % when both tapes are off at
// random, tried 20 000 times with a fixed seed.
func TestEllipseHoldsTheErrors(t *testing.T) {
	a, b, at := orb.Point{0, 0}, orb.Point{10, 0}, orb.Point{3, 15}
	c := setout.Fixed(a, b, at, tape(a, at), tape(b, at))
	e := c.Ellipse()
	sin, cos := math.Sincos(e.Axis * math.Pi / 180)
	inside, n := 0, 20000
	for range n {
		ra := math.Hypot(at[0], at[1]) + tape(a, at)/1000*random.NormFloat64()
		rb := math.Hypot(at[0]-10, at[1]) + tape(b, at)/1000*random.NormFloat64()
		p := fixed(a, b, ra, rb, "left")
		x, y := 1000*(p[0]-at[0]), 1000*(p[1]-at[1])
		u, v := (x*cos+y*sin)/e.Major95, (y*cos-x*sin)/e.Minor95
		if u*u+v*v < 1 {
			inside++
		}
	}
	assert.InDelta(t, .95, float64(inside)/float64(n), .006)
}

// The angle at which two tapes meet, worked by hand for marks at (0, 0) and
// (10, 0) or (12, 0); under 30 and over 150 degrees there is no tie.
func TestTiesByAngle(t *testing.T) {
	cases := []struct {
		base  float64
		at    orb.Point
		sound bool
	}{
		{10, orb.Point{5, 5}, true}, {10, orb.Point{4, 8}, true}, {10, orb.Point{3, 15}, true},
		{10, orb.Point{5, 1}, false}, {12, orb.Point{20, 6}, false}, // 157.38 and 20.171 degrees
		{10, orb.Point{0, 0}, false},    // on the mark itself
		{10, orb.Point{5, 30.1}, false}, // longer than the tape
		{10, orb.Point{5, 0}, false},    // on the line between the marks
	}
	for _, c := range cases {
		got := oneCorner([]geodata.Fixture{mark("A", 0, 0), mark("B", c.base, 0)}, c.at)
		assert.Equal(t, c.sound, len(got.Ties) == 2, "%v", c.at)
		assert.Equal(t, c.sound, got.Error.Value > 0, "%v", c.at)
		assert.Equal(t, c.sound, got.Ellipse != nil, "%v", c.at)
	}
}

// Of pairs that meet alike, the one with shorter tapes errs less; of pairs that
// err alike, the one drawn first counts.
func TestMakeTakesTheBestPair(t *testing.T) {
	marks := []geodata.Fixture{mark("A", 0, 0), mark("B", 4, 0), mark("C", 10, 0), mark("D", 10, 10)}
	got := oneCorner(marks, orb.Point{5, 5})
	assert.Equal(t, []string{"A", "C"}, []string{got.Ties[0].Mark, got.Ties[1].Mark})
	marks[0], marks[3] = marks[3], marks[0]
	got = oneCorner(marks, orb.Point{5, 5})
	assert.Equal(t, []string{"D", "C"}, []string{got.Ties[0].Mark, got.Ties[1].Mark})
	got = oneCorner(append(marks, mark("E", 3, 5), mark("F", 5, 3)), orb.Point{5, 5})
	assert.Equal(t, []string{"E", "F"}, []string{got.Ties[0].Mark, got.Ties[1].Mark})
}

// A tape does not pass through a shed, but runs free from the shed's own corner.
func TestTapesPassWhatIsInTheWay(t *testing.T) {
	shed := orb.Polygon{{{2, 2}, {4, 2}, {4, 4}, {2, 4}, {2, 2}}}
	marks := []geodata.Fixture{mark("A", 0, 0), mark("shed corner", 4, 2), mark("C", 10, 0)}
	site := setout.Site{Marks: marks, InTheWay: []orb.Geometry{shed}, Beds: []setout.Input{bed("Bed 1", 6, 6, 3.6, 1.2)}}
	for _, c := range setout.Make(site).Beds[0].Corners {
		require.Len(t, c.Ties, 2)
		for _, tie := range c.Ties {
			assert.NotEqual(t, "A", tie.Mark)
		}
	}
}

// Diagonals of beds 1.2 x 3.6, 1.2 x 2.4 and 3 x 4 m, worked by hand: the roots of
// 14.4, 7.2 and 25 m2.
func TestDiagonal(t *testing.T) {
	for size, want := range map[[2]float64]float64{{3.6, 1.2}: 3.7947, {2.4, 1.2}: 2.6833, {4, 3}: 5} {
		s := setout.Make(setout.Site{Beds: []setout.Input{bed("", 2, 3, size[0], size[1])}})
		assert.InDelta(t, want, s.Beds[0].Diagonal, 5e-5)
		assert.Equal(t, [2]float64{s.Beds[0].Diagonal, s.Beds[0].Diagonal}, s.Beds[0].OnFrame)
	}
}

// Over a top that falls 60 mm across 1.2 m and 108 mm along 3.6 m the diagonals
// rise 168 and 48 mm: sqrt(14.4 + 0.168²) and sqrt(14.4 + 0.048²).
func TestDiagonalsOverATopThatFalls(t *testing.T) {
	in := bed("Bed 1", 2, 3, 3.6, 1.2)
	in.Tops = &[4]float64{10, 10 - .108, 10 - .168, 10 - .06}
	got := setout.Make(setout.Site{Beds: []setout.Input{in}}).Beds[0].OnFrame
	assert.InDelta(t, math.Sqrt(14.4+.168*.168), got[0], 1e-9)
	assert.InDelta(t, math.Sqrt(14.4+.048*.048), got[1], 1e-9)
}

func TestMakeNotes(t *testing.T) {
	sound := []setout.Input{bed("Bed 1", 2, 6, 3.6, 1.2)}
	flat := []setout.Input{bed("Bed 1", 2, .3, 3.6, .2)}
	two := []geodata.Fixture{mark("A", 0, 0), mark("B", 9, 0)}
	stays := []setout.Spot{{Name: "gate post", Where: "against the gate post", At: orb.Point{0, 1}}, {Name: "shed corner", Where: "at the shed", At: orb.Point{9, 1}}}
	cases := []struct {
		name  string
		marks []geodata.Fixture
		beds  []setout.Input
		stays []setout.Spot
		says  []string
	}{
		{"sound", two, sound, nil, nil},
		{"no beds", nil, nil, nil, nil},
		{"no marks", nil, sound, nil, []string{"no mark", "No two marks fix row 1", "0 and 12 m"}},
		{"no marks, canes", nil, sound, stays, []string{"no mark", "Set canes as further marks: against the gate post; shed corner, at the shed"}},
		{"one mark", two[:1], sound, nil, []string{"one mark, A"}},
		{"one mark, cane", two[:1], sound, stays[1:], []string{"one mark, A", "shed corner, at the shed"}},
		{"too close", []geodata.Fixture{mark("A", 0, 0), mark("B", .3, 0)}, sound, nil, []string{"A and B stand 0.30 m apart, too near", "No two marks fix row 1"}},
		{"flat ties", two, flat, nil, []string{"No two marks fix row 1"}},
		{"not a point", append(two, geodata.Fixture{Name: "fence", Shape: orb.LineString{{0, 0}, {1, 1}}}), sound, nil, []string{"fence is not a point"}},
		{"no shape", append(two, geodata.Fixture{}), sound, nil, []string{"mark 3 is not a point"}},
		{"no place", two, []setout.Input{{Name: "Bed 9", Corners: [4]orb.Point{{math.NaN(), 0}}}}, nil, []string{"corners of Bed 9 are not known"}},
		{"no size", two, []setout.Input{{Name: "Bed 9"}}, nil, []string{"corners of Bed 9 are not known"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := setout.Make(setout.Site{Marks: c.marks, Beds: c.beds, Stays: c.stays})
			if c.says == nil {
				assert.Empty(t, s.Note)
			}
			for _, want := range c.says {
				assert.Contains(t, s.Note, want)
			}
			_, err := json.Marshal(s)
			require.NoError(t, err)
		})
	}
}

func TestMakeNamesCornersAndKeepsPegs(t *testing.T) {
	in := bed("Bed 1", 2, 6, 3.6, 1.2)
	in.Pegs = []orb.Point{{2.05, 6.02}, {5.5, 6.02}}
	in.Tops = &[4]float64{10.2, 10.2, 10.15, 10.15}
	in.Boards = []setout.Frame{{Name: "uphill board", Pegs: []float64{.05, 1.8, 3.55}, Side: "outside", Tops: [2]float64{10.2, 10.17}}}
	s := setout.Make(setout.Site{
		Marks: []geodata.Fixture{mark("", 0, 0), mark("gate post", 9, 0), mark("gate post", 9.9, 0)}, Beds: []setout.Input{in}, Left: []string{"Bed 2"},
		Height:      func(orb.Point) float64 { return 10 },
		HeightError: func(_, _ orb.Point) float64 { return .01 },
	})
	assert.Equal(t, []string{"mark 1", "gate post", "gate post (2)"}, []string{s.Marks[0].Name, s.Marks[1].Name, s.Marks[2].Name})
	b := s.Beds[0]
	var names []string
	for _, c := range append(b.Corners, b.Pegs...) {
		names = append(names, c.Name)
	}
	assert.Equal(t, []string{"uphill left", "uphill right", "downhill right", "downhill left", "peg 1", "peg 2"}, names)
	require.NotNil(t, s.Datum)
	assert.Equal(t, "Bed 1", s.Datum.Bed)
	assert.InDelta(t, 200, s.Datum.AboveGround, 1e-9)
	assert.InDelta(t, 0, b.Boards[0].Tops[0], 1e-9)
	assert.InDelta(t, -30, b.Boards[0].Tops[1], 1e-9)
	assert.Equal(t, []float64{.05, 1.8, 3.55}, b.Boards[0].Pegs)
	assert.InDelta(t, 19.6, b.GroundKnownTo, .01)
	assert.Equal(t, []string{"Bed 2"}, s.Left)
	assert.Empty(t, s.Note, "two marks that stand near each other are no fault where others serve")
	assert.NotZero(t, s.Minutes.Value)
	sum := 0.0
	for _, step := range s.Steps {
		sum += step.Minutes.Value
	}
	assert.InDelta(t, sum, s.Minutes.Value, 1e-9)
}

// Marks at 0, 3, 8 and 12 m (Food and Agriculture Organization, R7021E, 4.1).
func TestSquareMarks(t *testing.T) {
	m := setout.SquareMarks(1)
	assert.Equal(t, [4]float64{0, 3, 8, 12}, m)
	a, b, c := m[1]-m[0], m[3]-m[2], m[2]-m[1]
	assert.Equal(t, c*c, a*a+b*b, "the sides at the ends of the tape are square to each other")
}

// With sides good to 5 mm: 0.169 degrees for 3-4-5 m and 0.084 degrees for 6-8-10 m,
// worked with all three partial derivatives of the law of cosines.
func TestSquareError(t *testing.T) {
	assert.InDelta(t, .169, setout.SquareError(1, .005)*180/math.Pi, 5e-4)
	assert.InDelta(t, .0844, setout.SquareError(2, .005)*180/math.Pi, 5e-5)
	cosine := func(a, b, c float64) float64 { return math.Acos((a*a + b*b - c*c) / (2 * a * b)) }
	sum, h := 0.0, 1e-6
	for i := range 3 {
		up, down := [3]float64{3, 4, 5}, [3]float64{3, 4, 5}
		up[i], down[i] = up[i]+h, down[i]-h
		sum += math.Pow((cosine(up[0], up[1], up[2])-cosine(down[0], down[1], down[2]))/(2*h), 2)
	}
	assert.InEpsilon(t, .005*math.Sqrt(sum), setout.SquareError(1, .005), 1e-6)
}

// A frame of 3.6 by 1.2 m whose side is slid along by 5.3 mm has diagonals of
// sqrt((3.6 + 0.0053)^2 + 1.2^2) and sqrt((3.6 - 0.0053)^2 + 1.2^2): 10.06 mm
// apart.
func TestSlideSquaresTheFrame(t *testing.T) {
	s := setout.Make(setout.Site{Beds: []setout.Input{bed("bed", 0, 1.2, 3.6, 1.2)}})
	slide := s.Beds[0].Slide / 1000
	assert.InDelta(t, .0053, slide, 1e-4)
	assert.InDelta(t, .010, math.Hypot(3.6+slide, 1.2)-math.Hypot(3.6-slide, 1.2), 1e-5)
}

// A frame of 1.2 by 3.0 m with diagonals of 3.245 and 3.217 m, worked by hand:
// 0.720 degrees out of square, 37.7 mm over 3 m.
func TestOutOfSquare(t *testing.T) {
	e := setout.OutOfSquare(3.245, 3.217, 1.2, 3.0)
	assert.InDelta(t, 0.720, e*180/math.Pi, 5e-4)
	assert.InDelta(t, 37.7, 3000*e, 0.05)
	assert.Zero(t, setout.OutOfSquare(3, 3, 1, 2))
	assert.Negative(t, setout.OutOfSquare(3, 3.1, 1, 2))
}

func ExampleMake() {
	site := setout.Site{
		Marks: []geodata.Fixture{
			{Kind: geodata.MarkKind, Name: "gate post", Shape: orb.Point{0, 0}},
			{Kind: geodata.MarkKind, Name: "water butt", Shape: orb.Point{10, 0}},
		},
		Beds: []setout.Input{
			{Name: "Bed 1", Corners: [4]orb.Point{{1, 6}, {4.6, 6}, {4.6, 4.8}, {1, 4.8}}},
			{Name: "Bed 2", Corners: [4]orb.Point{{5.2, 6}, {8.8, 6}, {8.8, 4.8}, {5.2, 4.8}}},
		},
	}
	for _, r := range setout.Make(site).Rows {
		for _, e := range r.Ends {
			fmt.Printf("%s of %s: %.3f m from the %s, %.3f m from the %s, on the %s, to within %.0f by %.0f mm\n", e.Name, r.Name,
				e.Ties[0].Distance, e.Ties[0].Mark, e.Ties[1].Distance, e.Ties[1].Mark, e.Side, e.Ellipse.Major95, e.Ellipse.Minor95)
		}
		for _, b := range r.Beds {
			fmt.Printf("%s: %.3f to %.3f m along a string of %.3f m\n", b.Bed, b.From.Distance, b.To.Distance, r.String.Distance)
		}
	}
	// Output:
	// left end of row 1: 6.083 m from the gate post, 10.817 m from the water butt, on the left, to within 22 by 13 mm
	// right end of row 1: 10.651 m from the gate post, 6.119 m from the water butt, on the left, to within 21 by 13 mm
	// Bed 1: 0.000 to 3.600 m along a string of 7.800 m
	// Bed 2: 4.200 to 7.800 m along a string of 7.800 m
}
