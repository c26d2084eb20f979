package surface_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/surface"
)

func wallHeights() []geodata.SpotHeight {
	return spotsAt(
		[]orb.Point{{2, 1}, {5, 6}, {8, 2}, {3, 9}, {7, 8}, {12, 1}, {15, 6}, {18, 2}, {13, 9}, {17, 8}},
		[]float64{10.07, 10.28, 10.22, 10.33, 10.38, 9.67, 9.88, 9.82, 9.93, 9.98})
}

func piecesOf(t testing.TB, spots []geodata.SpotHeight, lines []orb.LineString, plot orb.Polygon) *surface.Fit {
	t.Helper()
	fit, err := surface.FitPieces(spots, lines, plot, surface.Options{})
	require.NoError(t, err)
	require.Equal(t, surface.PiecesKind, fit.Kind)
	require.NotNil(t, fit.Pieces)
	return fit
}

// Worked by hand: two equal slopes of (.02, .03) with a wall of 0.6 m between
// at x = 10. One plane through both leans the wrong way by 77 degrees; cut at
// the wall each side is exact.
func TestWall(t *testing.T) {
	one := fitOf(t, wallHeights(), surface.Options{Force: surface.PlaneKind})
	truth := terrain.Gradient{East: .02, North: .03}
	off := one.Plane.Gradient.Downhill().Degrees() - truth.Downhill().Degrees()
	assert.InDelta(t, -77.46, off, .01, "136.230 instead of 213.690 degrees")

	// Drawn short of both edges: it is carried on to them.
	fit := piecesOf(t, wallHeights(), []orb.LineString{{{10, 3}, {10, 8}}}, rectangle(0, 0, 20, 10))
	require.Len(t, fit.Pieces.Parts, 2)
	for _, p := range []orb.Point{{1, 1}, {9.99, 5}, {10.01, 5}, {19, 9}} {
		g, ok := fit.GradientAt(p)
		require.True(t, ok)
		assert.InDelta(t, .02, g.East, 1e-12)
		assert.InDelta(t, .03, g.North, 1e-12)
		assert.InDelta(t, 213.690, g.Downhill().Degrees(), 5e-4)
	}
	west, _ := fit.HeightAt(orb.Point{10 - 1e-9, 5})
	east, _ := fit.HeightAt(orb.Point{10 + 1e-9, 5})
	assert.InDelta(t, .600, west-east, 1e-9, "the step down going east")
	assert.InDelta(t, .02, fit.Plane.Gradient.East, 1e-12, "the common fall")
	assert.InDelta(t, .03, fit.Plane.Gradient.North, 1e-12)
	assert.True(t, fit.Plane.Passes)
	assert.Zero(t, fit.HeightCovariance(orb.Point{9, 5}, orb.Point{11, 5}))
	assert.Greater(t, fit.HeightCovariance(orb.Point{9, 5}, orb.Point{8, 5}), 0.0)
	for i, r := range fit.Residuals {
		assert.Equal(t, wallHeights()[i].Name, r.Name)
		assert.InDelta(t, 0, r.Residual, 1e-12)
	}
	for i, part := range fit.Pieces.Parts {
		assert.Len(t, part.Heights, 5)
		assert.InDelta(t, 100, planar.Area(part.Outline), 1e-6)
		half := fitOf(t, wallHeights()[5*i:5*i+5], surface.Options{})
		p := orb.Point{5 + 10*float64(i), 5}
		assert.InDelta(t, half.HeightCovariance(p, p), fit.HeightCovariance(p, p), 1e-15)
		assert.Equal(t, half.Extrapolated(p), fit.Extrapolated(p))
		assert.Equal(t, half.GradientCovariance(p), fit.GradientCovariance(p))
	}
}

// The same ground with a house on the line of the wall, which runs up to it from
// both sides: the two parts and their areas are those of the wall without the
// house, and the house is in none of them.
func TestWallThatRunsIntoAHouse(t *testing.T) {
	plot := rectangle(0, 0, 20, 10)
	plot = append(plot, orb.Ring{{9, 4}, {9, 6}, {11, 6}, {11, 4}, {9, 4}})
	lines := []orb.LineString{{{10, 0}, {10, 3}}, {{10, 10}, {10, 7}}}
	fit := piecesOf(t, wallHeights(), lines, plot)
	require.Len(t, fit.Pieces.Parts, 2)
	for i, part := range fit.Pieces.Parts {
		assert.Len(t, part.Heights, 5)
		assert.InDelta(t, 98, math.Abs(planar.Area(part.Outline)), 1e-6, "half the plot less half the house")
		for _, p := range part.Outline[0] {
			assert.False(t, p[0] > 9.001 && p[0] < 10.999 && p[1] > 4.001 && p[1] < 5.999, "%v is inside the house", p)
		}
		assert.Equal(t, i, fit.Pieces.PartAt(orb.Point{9.4 + 1.2*float64(i), 5}), "inside the house the nearer part answers")
	}
	west, _ := fit.HeightAt(orb.Point{10 - 1e-9, 2})
	east, _ := fit.HeightAt(orb.Point{10 + 1e-9, 2})
	assert.InDelta(t, .600, west-east, 1e-9)

	// A line inside the house cuts nothing.
	one, err := surface.FitPieces(wallHeights(), []orb.LineString{{{9.5, 5}, {10.5, 5}}}, plot, surface.Options{})
	require.NoError(t, err)
	assert.Nil(t, one.Pieces)
	// A house apart from the wall lies in the part around it.
	apart := append(rectangle(0, 0, 20, 10), orb.Ring{{14, 4}, {14, 5}, {15, 5}, {15, 4}, {14, 4}})
	fit = piecesOf(t, wallHeights(), []orb.LineString{{{10, 0}, {10, 10}}}, apart)
	require.Len(t, fit.Pieces.Parts, 2)
	require.Len(t, fit.Pieces.Parts[1].Outline, 2)
	assert.InDelta(t, 99, planar.Area(fit.Pieces.Parts[1].Outline), 1e-6)
}

// Heights booked at the wall itself, drawn on the wrong side of it by a few
// centimetres, go where their marks send them.
func TestTopAndToeOfAWall(t *testing.T) {
	spots := append(wallHeights(),
		geodata.SpotHeight{Name: "top", At: orb.Point{10.1, 5}, Height: 10.35, Side: geodata.Top},
		geodata.SpotHeight{Name: "toe", At: orb.Point{9.9, 5}, Height: 9.75, Side: geodata.Toe},
		geodata.SpotHeight{Name: "on it", At: orb.Point{10.01, 2}, Height: 10.27})
	line := []orb.LineString{{{10, -1}, {10, 11}}}
	fit := piecesOf(t, spots, line, rectangle(0, 0, 20, 10))
	assert.Equal(t, []int{0, 1, 2, 3, 4, 10, 12}, fit.Pieces.Parts[0].Heights)
	assert.Equal(t, []int{5, 6, 7, 8, 9, 11}, fit.Pieces.Parts[1].Heights)
	for _, r := range fit.Residuals {
		assert.Less(t, math.Abs(r.Residual), 0.015, r.Name)
	}
	require.Len(t, fit.Notes, 1)
	assert.Contains(t, fit.Notes[0], "Height on it stands on a break line")

	// With heights on one side only, a height level with them is theirs.
	few := append([]geodata.SpotHeight(nil), spots[:5]...)
	few = append(few, spots[10], spots[11])
	fit = piecesOf(t, few, line, rectangle(0, 0, 20, 10))
	assert.Equal(t, []int{0, 1, 2, 3, 4, 5}, fit.Pieces.Parts[0].Heights)
	assert.Equal(t, []int{6}, fit.Pieces.Parts[1].Heights)
	assert.True(t, fit.Pieces.Parts[1].Leans)
}

// A bank 2 m wide falling 1 in 2 between terraces that fall 1 in 50: crest at
// y = 8, toe at y = 6. No height stands on the bank but those of its edges.
func bankHeights() []geodata.SpotHeight {
	z := func(y float64) float64 {
		return 20 + .02*y + .48*math.Max(0, math.Min(2, y-6))
	}
	var out []geodata.SpotHeight
	for _, y := range []float64{1, 5, 6, 8, 9.5, 13} {
		for _, x := range []float64{2, 7, 12} {
			h := geodata.SpotHeight{At: orb.Point{x + y/10, y}, Height: z(y)}
			switch y {
			case 6:
				h.Side = geodata.Toe
			case 8:
				h.Side = geodata.Top
			}
			out = append(out, h)
		}
	}
	return out
}

func TestBank(t *testing.T) {
	lines := []orb.LineString{{{-1, 8}, {16, 8}}, {{16, 6}, {-1, 6}}}
	fit := piecesOf(t, bankHeights(), lines, rectangle(0, 0, 15, 14))
	parts := fit.Pieces.Parts
	require.Len(t, parts, 3)
	strip := fit.Pieces.PartAt(orb.Point{7, 7})
	assert.Equal(t, []int{6, 7, 8, 9, 10, 11}, parts[strip].Heights, "the heights of both edges")
	assert.Equal(t, []int{0, 1, 2, 3, 4, 5, 6, 7, 8}, parts[fit.Pieces.PartAt(orb.Point{7, 2})].Heights)
	assert.Equal(t, []int{9, 10, 11, 12, 13, 14, 15, 16, 17}, parts[fit.Pieces.PartAt(orb.Point{7, 12})].Heights)
	for _, c := range []struct{ y, fall float64 }{{2, .02}, {7, .50}, {12, .02}} {
		g, _ := fit.GradientAt(orb.Point{7, c.y})
		assert.InDelta(t, c.fall, g.North, 1e-9, "at %v", c.y)
		assert.InDelta(t, 0, g.East, 1e-9)
	}
	for _, y := range []float64{6, 8} {
		below, _ := fit.HeightAt(orb.Point{7, y - 1e-9})
		above, _ := fit.HeightAt(orb.Point{7, y + 1e-9})
		assert.InDelta(t, below, above, 1e-6, "no step at the edge of a bank")
	}
	assert.Len(t, fit.Residuals, 18)
}

// A flat terrace between two walls is no bank, though only the foot of the one
// above and the top of the one below were read, or only the two far sides.
func TestTerraceBetweenWallsIsNoBank(t *testing.T) {
	lines := []orb.LineString{{{-1, 4}, {16, 4}}, {{-1, 10}, {16, 10}}}
	level := func(y float64) float64 { return 10 + .6*math.Floor(math.Max(0, y+2)/6) } // steps at y = 4 and 10
	var spots []geodata.SpotHeight
	for _, y := range []float64{.5, 2, 3.2, 5, 7, 9, 11, 12, 13.5} {
		for _, x := range []float64{2, 7, 12} {
			spots = append(spots, geodata.SpotHeight{At: orb.Point{x + y/10, y}, Height: level(y)})
		}
	}
	at := func(y float64, side geodata.BreakSide, z float64) (out []geodata.SpotHeight) {
		for _, x := range []float64{3, 6, 9} {
			out = append(out, geodata.SpotHeight{At: orb.Point{x, y}, Height: z, Side: side})
		}
		return out
	}
	for _, marks := range [][]geodata.SpotHeight{
		append(at(10, geodata.Toe, level(7)), at(4, geodata.Top, level(7))...),
		append(at(10, geodata.Top, level(12)), at(4, geodata.Toe, level(1))...),
	} {
		fit := piecesOf(t, append(append([]geodata.SpotHeight(nil), spots...), marks...), lines, rectangle(0, 0, 15, 14))
		for _, y := range []float64{1, 3.9, 4.1, 7, 9.9, 10.1, 13} {
			z, _ := fit.HeightAt(orb.Point{7, y})
			assert.InDelta(t, level(y), z, 1e-9, "at %v", y)
		}
		assert.Equal(t, surface.PlaneKind, fit.Pieces.Parts[fit.Pieces.PartAt(orb.Point{7, 7})].Fit.Kind)
	}
}

// Heights on the slope of a bank keep to it.
func TestBankWithHeightsOnIt(t *testing.T) {
	lines := []orb.LineString{{{-1, 8}, {16, 8}}, {{16, 6}, {-1, 6}}}
	spots := append(bankHeights(), geodata.SpotHeight{At: orb.Point{5, 7}, Height: 20.62})
	fit := piecesOf(t, spots, lines, rectangle(0, 0, 15, 14))
	strip := fit.Pieces.Parts[fit.Pieces.PartAt(orb.Point{7, 7})]
	assert.Len(t, strip.Heights, 7)
	g, _ := fit.GradientAt(orb.Point{7, 7})
	assert.InDelta(t, .5, g.North, 1e-9)
}

// Only the edges of a bank were read: the bank has a fall, and lends it.
func TestBankAlone(t *testing.T) {
	var edges []geodata.SpotHeight
	for _, h := range bankHeights()[6:12] {
		if h.At[0] < 10 {
			edges = append(edges, h)
		}
	}
	require.Len(t, edges, 4)
	lines := []orb.LineString{{{-1, 8}, {16, 8}}, {{16, 6}, {-1, 6}}}
	fit := piecesOf(t, edges, lines, rectangle(0, 0, 15, 14))
	strip := fit.Pieces.PartAt(orb.Point{7, 7})
	for i, p := range fit.Pieces.Parts {
		assert.Equal(t, i != strip, p.Leans)
	}
	assert.InDelta(t, .5, fit.Plane.Gradient.North, 1e-9)
	for _, y := range []float64{1, 7, 13} {
		z, _ := fit.HeightAt(orb.Point{7, y})
		assert.False(t, math.IsNaN(z))
	}
}

// A closed line cuts out a raised terrace; a second line ends on the first.
func TestClosedLineAndLineThatEndsOnIt(t *testing.T) {
	ring := orb.LineString{{8, 4}, {12, 4}, {12, 8}, {8, 8}, {8, 4}}
	tail := orb.LineString{{12, 6}, {15, 6}} // carried on to the edge
	second := orb.LineString{{3, 6}, {6, 6}} // carried on to the ring and to the edge
	height := func(p orb.Point) float64 {
		z := 5 + .03*p[0] - .01*p[1]
		switch {
		case p[0] > 8 && p[0] < 12 && p[1] > 4 && p[1] < 8:
			return z + 1
		case p[1] > 6:
			return z + .4
		}
		return z
	}
	var spots []geodata.SpotHeight
	for i := range 11 * 7 {
		p := orb.Point{.5 + 1.9*float64(i%11), .4 + 1.85*float64(i/11)}
		spots = append(spots, geodata.SpotHeight{At: p, Height: height(p)})
	}
	alone := piecesOf(t, spots, []orb.LineString{ring}, rectangle(0, 0, 20, 12))
	require.Len(t, alone.Pieces.Parts, 2)
	assert.Len(t, alone.Pieces.Parts[0].Outline, 2, "the ground round it has a hole")
	assert.NotEqual(t, alone.Pieces.PartAt(orb.Point{10, 6}), alone.Pieces.PartAt(orb.Point{1, 1}))
	assert.Equal(t, alone.Pieces.PartAt(orb.Point{10, 1}), alone.Pieces.PartAt(orb.Point{10, 11}))

	fit := piecesOf(t, spots, []orb.LineString{ring, tail, second}, rectangle(0, 0, 20, 12))
	require.Len(t, fit.Pieces.Parts, 3)
	area := 0.0
	for _, p := range fit.Pieces.Parts {
		area += planar.Area(p.Outline)
	}
	assert.InDelta(t, 240, area, 1e-3)
	for _, p := range []orb.Point{{1, 1}, {10, 6}, {10, 11}, {19, 5.9}, {19, 6.1}, {10, 3.9}, {25, 1}} {
		z, _ := fit.HeightAt(p)
		assert.InDelta(t, height(p), z, 1e-9, "%v", p)
	}
}

// A part with three heights or fewer takes its neighbour's fall at its own
// level and is flagged all over.
func TestPartWithFewHeights(t *testing.T) {
	line := []orb.LineString{{{10, 0}, {10, 10}}}
	for _, n := range []int{3, 2, 1, 0} {
		spots := wallHeights()[:5+n]
		fit := piecesOf(t, spots, line, rectangle(0, 0, 20, 10))
		part := fit.Pieces.Parts[1]
		assert.True(t, part.Leans)
		assert.Zero(t, part.LeansOn)
		assert.Nil(t, part.Fit)
		p := orb.Point{15, 5}
		g, _ := fit.GradientAt(p)
		assert.InDelta(t, .02, g.East, 1e-12)
		assert.InDelta(t, .03, g.North, 1e-12)
		assert.True(t, fit.Extrapolated(p))
		z, _ := fit.HeightAt(p)
		sd := math.Sqrt(fit.HeightCovariance(p, p))
		if n == 0 {
			assert.InDelta(t, 10.45, z, 1e-9, "the neighbour's ground carried on")
			assert.GreaterOrEqual(t, sd, .5)
			assert.Contains(t, fit.Notes[0], "its level is not known")
		} else {
			assert.InDelta(t, 9.85, z, 1e-9, "its own level")
			assert.Less(t, sd, .3)
			assert.Contains(t, fit.Notes[0], "has too few heights of its own")
		}
		assert.Greater(t, math.Sqrt(fit.GradientCovariance(p)[0][0]), .02)
		require.Len(t, fit.Residuals, 5+n)
	}
}

func TestNoLineCutsThePlot(t *testing.T) {
	plot := rectangle(0, 0, 20, 10)
	for _, lines := range [][]orb.LineString{nil, {{{30, 0}, {30, 10}}}, {{{5, 5}}}, {{}}, {{{0, 0}, {20, 0}}}} {
		fit, err := surface.FitPieces(wallHeights(), lines, plot, surface.Options{})
		require.NoError(t, err)
		assert.Nil(t, fit.Pieces)
		said := len(fit.Notes) > 0 && fit.Notes[len(fit.Notes)-1] == "No break line cuts the plot, so the ground was fitted as one."
		assert.Equal(t, lines != nil, said)
	}
}

func TestFitPiecesRefuses(t *testing.T) {
	plot := rectangle(0, 0, 20, 10)
	wall := []orb.LineString{{{10, 0}, {10, 10}}}
	_, err := surface.FitPieces(wallHeights()[:2], wall, plot, surface.Options{})
	assert.ErrorIs(t, err, surface.ErrTooFewHeights)
	_, err = surface.FitPieces(wallHeights()[2:8], wall, plot, surface.Options{})
	assert.ErrorIs(t, err, surface.ErrTooFewHeights, "three on each side")
	_, err = surface.FitPieces(wallHeights(), []orb.LineString{{{10, math.NaN()}, {10, 10}}}, plot, surface.Options{})
	assert.ErrorContains(t, err, "break line 1")
	_, err = surface.FitPieces(wallHeights(), wall, orb.Polygon{{{0, 0}, {20, 10}, {20, 0}, {0, 10}, {0, 0}}}, surface.Options{})
	assert.ErrorContains(t, err, "the boundary crosses")
	_, err = surface.FitPieces(wallHeights(), wall, plot, surface.Options{Force: "bumpy"})
	assert.ErrorContains(t, err, "no surface is called")
}

// Rippled ground on both sides of a wall: one set of hyperparameters, and the
// step comes out.
func TestSmoothPartsShareHyperparameters(t *testing.T) {
	h := rippleHill()
	step := hill{"step", func(x, y float64) float64 {
		if x > 10 {
			return h.height(x, y) - .8
		}
		return h.height(x, y)
	}}
	spots := step.survey(rand.New(rand.NewPCG(2, 1)), 60, 0.012)
	plot := rectangle(0, 0, 20, 15)
	fit := piecesOf(t, spots, []orb.LineString{{{10, -1}, {10, 16}}}, plot)
	a, b := fit.Pieces.Parts[0].Fit, fit.Pieces.Parts[1].Fit
	require.Equal(t, surface.SmoothKind, a.Kind)
	require.Equal(t, surface.SmoothKind, b.Kind)
	assert.Equal(t, a.Smooth.Hyper, b.Smooth.Hyper)
	for _, y := range []float64{4, 7, 11} {
		p, q := orb.Point{9.999, y}, orb.Point{10.001, y}
		west, _ := fit.HeightAt(p)
		east, _ := fit.HeightAt(q)
		sd := math.Sqrt(fit.HeightCovariance(p, p) + fit.HeightCovariance(q, q))
		assert.InDelta(t, .8, west-east, 3*sd)
		assert.Less(t, sd, .2)
	}
	// Questions and draws keep to the parts.
	draws, err := surface.Simulate(fit, []orb.Point{{9, 7}, {11, 7}, {11.2, 7}}, 2000, 3)
	require.NoError(t, err)
	var cross, along, v float64
	for _, z := range draws.Heights {
		x, _ := fit.HeightAt(orb.Point{9, 7})
		y, _ := fit.HeightAt(orb.Point{11, 7})
		w, _ := fit.HeightAt(orb.Point{11.2, 7})
		cross += (z[0] - x) * (z[1] - y) / 2000
		along += (z[1] - y) * (z[2] - w) / 2000
		v += (z[1] - y) * (z[1] - y) / 2000
	}
	assert.InDelta(t, 0, cross/v, .1)
	assert.Greater(t, along/v, .6)
	near := surface.Question{Name: "bed", Points: []orb.Point{{11, 7}}}
	got, err := surface.Next(fit, []surface.Question{near}, plot, surface.NextOptions{Count: 1})
	require.NoError(t, err)
	require.Len(t, got, 1)
	assert.Equal(t, 1, fit.Pieces.PartAt(got[0].At), "a height across the wall tells nothing")
}

// Whatever the lines, the parts make up the plot, every height is in one, and
// each of its points is in the part that says so.
func TestPartsMakeUpThePlot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := func(to int) float64 { return float64(rapid.IntRange(-2, to).Draw(t, "coordinate")) / 2 }
		var lines []orb.LineString
		for range rapid.IntRange(1, 4).Draw(t, "lines") {
			var l orb.LineString
			for range rapid.IntRange(2, 4).Draw(t, "points") {
				l = append(l, orb.Point{coordinate(42), coordinate(32)})
			}
			if len(l) > 2 && rapid.Bool().Draw(t, "closed") {
				l = append(l, l[0])
			}
			lines = append(lines, l)
		}
		spots := planeHill().survey(rand.New(rand.NewPCG(1, 1)), 60, 0.012)
		fit, err := surface.FitPieces(spots, lines, rectangle(0, 0, 20, 15), surface.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if fit.Pieces == nil {
			return
		}
		area, seen := 0.0, map[int]bool{}
		for i, p := range fit.Pieces.Parts {
			area += planar.Area(p.Outline)
			for _, k := range p.Heights {
				seen[k] = true
			}
			if p.Leans == (p.Fit != nil) {
				t.Fatalf("part %d: %+v", i, p)
			}
		}
		if math.Abs(area-300) > .05*float64(len(fit.Pieces.Parts)) || len(seen) != 60 {
			t.Fatalf("area %v, %d heights in %d parts", area, len(seen), len(fit.Pieces.Parts))
		}
		for _, s := range spots {
			// One in a sliver too small for a part is given to the nearest.
			at := fit.Pieces.PartAt(s.At)
			for i, p := range fit.Pieces.Parts {
				if in := planar.PolygonContains(p.Outline, s.At); in && i != at && !planar.PolygonContains(fit.Pieces.Parts[at].Outline, s.At) {
					t.Fatalf("%v is in part %d, not %d", s.At, i, at)
				}
			}
		}
	})
}
