package setout_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/setout"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var random = rand.New(rand.NewPCG(1, 2))

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

// taped finds marks by name and sets out a corner from its two tapes, each
// rounded to a step.
func taped(at map[string]orb.Point, c setout.Corner, step float64) orb.Point {
	a, b := c.Ties[0], c.Ties[1]
	return fixed(at[a.Mark], at[b.Mark], rounded(a.Distance, step), rounded(b.Distance, step), c.Side)
}

func rounded(v, step float64) float64 {
	if step == 0 {
		return v
	}
	return math.Round(v/step) * step
}

// laid sets out every bed of a sheet by its own numbers alone: tape the ends of
// the rows, run along the string, square off by width and diagonal. A step is
// what every number is rounded to, m; 0: not rounded.
func laid(s setout.Sheet, step float64) map[string][4]orb.Point {
	at := map[string]orb.Point{}
	for _, m := range s.Marks { // a cane on open ground is itself taped
		at[m.Name] = m.At
		if len(m.Ties) > 0 {
			at[m.Name] = taped(at, setout.Corner{Ties: m.Ties, Side: m.Side}, step)
		}
	}
	size := map[string]setout.Bed{}
	for _, b := range s.Beds {
		size[b.Name] = b
	}
	out := map[string][4]orb.Point{}
	for _, r := range s.Rows {
		if len(r.Ends[0].Ties) == 0 || len(r.Ends[1].Ties) == 0 {
			continue
		}
		left, right := taped(at, r.Ends[0], step), taped(at, r.Ends[1], step)
		d := math.Hypot(right[0]-left[0], right[1]-left[1])
		u := orb.Point{(right[0] - left[0]) / d, (right[1] - left[1]) / d}
		for _, b := range r.Beds {
			on := func(run, off float64) orb.Point {
				run, off = rounded(run, step), rounded(off/1000, step)
				return orb.Point{left[0] + u[0]*run + u[1]*off, left[1] + u[1]*run - u[0]*off}
			}
			c0, c1 := on(b.From.Distance, b.Off[0]), on(b.To.Distance, b.Off[1])
			w, diagonal := rounded(size[b.Bed].Width, step), rounded(size[b.Bed].Diagonal, step)
			out[b.Bed] = [4]orb.Point{c0, c1, fixed(c0, c1, diagonal, w, "right"), fixed(c0, c1, w, diagonal, "right")}
		}
	}
	return out
}

// drawnSite is a random plot: marks, beds in rows that bend and shift a little,
// and perhaps a shed.
func drawnSite(t *rapid.T) setout.Site {
	place := rapid.Float64Range(-12, 12)
	var site setout.Site
	for i := range rapid.IntRange(0, 4).Draw(t, "marks") {
		site.Marks = append(site.Marks, mark(fmt.Sprintf("mark %d", i+1), place.Draw(t, "x"), place.Draw(t, "y")))
	}
	site.Boundary = orb.Ring{{-13, -13}, {13, -13}, {13, 13}, {-13, 13}, {-13, -13}}
	site.CornerNames = []string{"south-west corner", "south-east corner", "north-east corner", "north-west corner"}
	if rapid.Bool().Draw(t, "stays") {
		for i, c := range site.Boundary[:4] {
			site.Stays = append(site.Stays, setout.Spot{Name: site.CornerNames[i], Where: "at the boundary's " + site.CornerNames[i], At: c})
		}
	}
	if rapid.Bool().Draw(t, "shed") {
		x, y := place.Draw(t, "shed x"), place.Draw(t, "shed y")
		site.InTheWay = []orb.Geometry{orb.Polygon{{{x, y}, {x + 2, y}, {x + 2, y + 2}, {x, y + 2}, {x, y}}}}
	}
	site.Height = func(p orb.Point) float64 { return 30 + .1*p[1] + .3*math.Sin(p[0]/5) }
	n := 0
	for range rapid.IntRange(1, 3).Draw(t, "rows") {
		turn := rapid.Float64Range(0, 2*math.Pi).Draw(t, "bearing")
		right := orb.Point{math.Cos(turn), math.Sin(turn)}
		up := orb.Point{-right[1], right[0]}
		from := orb.Point{place.Draw(t, "from x"), place.Draw(t, "from y")}
		length, width := rapid.Float64Range(1, 4).Draw(t, "length"), rapid.Float64Range(.6, 1.5).Draw(t, "width")
		run := 0.0
		for range rapid.IntRange(1, 4).Draw(t, "beds") {
			off := rapid.Float64Range(-.08, .08).Draw(t, "off")
			in := setout.Input{Name: fmt.Sprintf("bed %d", n+1)}
			for i, q := range [4][2]float64{{0, 0}, {length, 0}, {length, -width}, {0, -width}} {
				x, y := run+q[0], off+q[1]
				in.Corners[i] = orb.Point{from[0] + right[0]*x + up[0]*y, from[1] + right[1]*x + up[1]*y}
			}
			site.Beds, n = append(site.Beds, in), n+1
			run += length + rapid.Float64Range(.3, 1).Draw(t, "gap")
		}
	}
	return site
}

// Whatever the plot, the sheet's own numbers lead back to the beds it was made
// from, within a millimetre.
func TestTheSheetLeadsBackToTheBeds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		site := drawnSite(t)
		s := setout.Make(site)
		got, inRows := laid(s, 0), 0
		for _, r := range s.Rows {
			inRows += len(r.Beds)
			for _, b := range r.Beds {
				require.LessOrEqual(t, math.Max(math.Abs(b.Off[0]), math.Abs(b.Off[1])), 50.0+1e-6)
			}
		}
		require.Equal(t, len(site.Beds), inRows, "every bed is in one row")
		for _, in := range site.Beds {
			back, ok := got[in.Name]
			if !ok {
				require.Contains(t, s.Note, "No two marks fix")
				continue
			}
			for i, c := range in.Corners {
				require.InDelta(t, c[0], back[i][0], 1e-3, "%s, corner %d", in.Name, i)
				require.InDelta(t, c[1], back[i][1], 1e-3, "%s, corner %d", in.Name, i)
			}
		}
	})
}

// Every tape that is given is one that can be pulled: no longer than the
// longest, meeting at 30 to 150 degrees, and longer on the slope than level.
func TestTapesCanBePulled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := setout.Make(drawnSite(t))
		at := map[string]orb.Point{}
		for _, m := range s.Marks {
			at[m.Name] = m.At
		}
		require.Len(t, at, len(s.Marks), "marks have names of their own")
		for _, r := range s.Rows {
			for _, e := range r.Ends {
				if len(e.Ties) == 0 {
					continue
				}
				angle := setout.Angle(at[e.Ties[0].Mark], at[e.Ties[1].Mark], e.At) * 180 / math.Pi
				require.True(t, angle > 29.99 && angle < 150.01, "%v", angle)
				require.Greater(t, e.Ellipse.Major, 0.0)
				require.GreaterOrEqual(t, e.Ellipse.Major, e.Ellipse.Minor)
				for _, tie := range e.Ties {
					require.LessOrEqual(t, tie.Distance, setout.LongestTape)
					require.GreaterOrEqual(t, tie.OnSlope, tie.Distance-1e-9)
				}
			}
		}
	})
}

// Rounded to the millimetre, as printed, the numbers lead back within what two
// tapes rounded by half of one leave at the flattest angle: sqrt(2) × 0.5 mm /
// sin 30° = 1.4 mm at an end of the string, and half a millimetre more for each
// of the running distance, the offset, the width and the diagonal.
func TestPrintedToTheMillimetre(t *testing.T) {
	site := setout.Site{
		Marks: []geodata.Fixture{mark("A", 0, 0), mark("B", 11.3, .7)},
		Beds:  []setout.Input{bed("Bed 1", 1.234, 7.777, 3.6, 1.2), bed("Bed 2", 5.4321, 7.765, 3.6, 1.2)},
	}
	s := setout.Make(site)
	require.Len(t, s.Rows, 1)
	for i, in := range site.Beds {
		for k, c := range laid(s, 1e-3)[fmt.Sprintf("Bed %d", i+1)] {
			require.InDelta(t, in.Corners[k][0], c[0], 3.4e-3)
			require.InDelta(t, in.Corners[k][1], c[1], 3.4e-3)
		}
	}
}

// What a string and a third tape may be off holds 95 times in 100: all tapes off
// at random, 20 000 times with a fixed seed.
func TestAllowancesHold(t *testing.T) {
	site := setout.Site{
		Marks: []geodata.Fixture{mark("A", 0, 0), mark("B", 11.3, .7), mark("C", 3, 14)},
		Beds:  []setout.Input{bed("Bed 1", 1.2, 7.8, 3.6, 1.2), bed("Bed 2", 5.4, 7.8, 3.6, 1.2)},
	}
	s := setout.Make(site)
	at := map[string]orb.Point{}
	for _, m := range s.Marks {
		at[m.Name] = m.At
	}
	off := func(d float64) float64 { return d + setout.TapeError(d)/1000*random.NormFloat64() }
	r := s.Rows[0]
	require.NotNil(t, r.Checks[0])
	strung, checked, n := 0, 0, 20000
	for range n {
		var ends [2]orb.Point
		for i, c := range r.Ends {
			ends[i] = fixed(at[c.Ties[0].Mark], at[c.Ties[1].Mark], off(c.Ties[0].Distance), off(c.Ties[1].Distance), c.Side)
		}
		if 1000*math.Abs(off(planar.Distance(ends[0], ends[1]))-r.String.Distance) < r.Allowed {
			strung++
		}
		k := r.Checks[0]
		if 1000*math.Abs(off(planar.Distance(at[k.Mark], ends[0]))-k.Distance) < k.Allowed {
			checked++
		}
	}
	require.InDelta(t, .95, float64(strung)/float64(n), .006)
	require.InDelta(t, .95, float64(checked)/float64(n), .006)
}

// On a plane that falls 1 in 10 along the tape, 10 m level are sqrt(10² + 1²) on
// the slope. Over a ridge of 1 m in the middle the tape bends: twice
// sqrt(5² + 1²). Over a dip it hangs straight.
func TestTapeOnTheSlope(t *testing.T) {
	marks := []geodata.Fixture{mark("A", 0, 0), mark("B", 0, 10)}
	on := func(height func(orb.Point) float64) float64 {
		site := setout.Site{Marks: marks, Height: height, Beds: []setout.Input{bed("Bed 1", 10, 0, 3.6, 1.2)}}
		return setout.Make(site).Beds[0].Corners[0].Ties[0].OnSlope
	}
	tent := func(p orb.Point) float64 { return 1 - math.Abs(p[0]-5)/5 }
	require.InDelta(t, math.Sqrt(101), on(func(p orb.Point) float64 { return 20 - .1*p[0] }), 1e-9)
	require.InDelta(t, 2*math.Sqrt(26), on(tent), 1e-9)
	require.InDelta(t, 10, on(func(p orb.Point) float64 { return -tent(p) }), 1e-9)
	require.InDelta(t, 10, on(nil), 1e-9)
}

// About a bed along the contour of a plane that falls 1 in 10 across it: its
// sides are sqrt(1.2² + 0.12²) and its diagonals sqrt(3.6² + 1.2² + 0.12²), alike.
// Where the plane falls 1 in 20 along it too, the diagonals fall 0.12 + 0.18 and
// 0.18 - 0.12 m.
func TestAboutABedOnTheSlope(t *testing.T) {
	about := func(along float64) setout.Sloped {
		return setout.Make(setout.Site{
			Height: func(p orb.Point) float64 { return .1*p[1] - along*p[0] },
			Beds:   []setout.Input{bed("Bed 1", 2, 3, 3.6, 1.2)},
		}).Beds[0].OnSlope
	}
	s := about(0)
	require.InDelta(t, math.Hypot(1.2, .12), s.Left, 1e-9)
	require.InDelta(t, math.Hypot(1.2, .12), s.Right, 1e-9)
	require.InDelta(t, math.Sqrt(3.6*3.6+1.2*1.2+.12*.12), s.FromLeft, 1e-9)
	require.InDelta(t, s.FromLeft, s.FromRight, 1e-9)
	s = about(.05)
	require.InDelta(t, math.Sqrt(14.4+.3*.3), s.FromLeft, 1e-9)
	require.InDelta(t, math.Sqrt(14.4+.06*.06), s.FromRight, 1e-9)
}
