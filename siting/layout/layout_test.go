package layout_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/caution"
	"crossfall/siting/layout"
	"crossfall/terrain"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hill is ground whose gradient changes evenly over the plot; without turn it
// is a plane.
type hill struct {
	g    terrain.Gradient
	turn float64 // change of the east gradient per metre east
	from float64 // heights were taken north of this y only
}

func (h hill) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	return terrain.Gradient{East: h.g.East + h.turn*(p[0]-12), North: h.g.North}, true
}

func (h hill) Extrapolated(p orb.Point) bool { return p[1] < h.from }

// southward falls 1 in 12 to the south.
var southward = hill{g: terrain.Gradient{North: 1.0 / 12}}

var ordinary = layout.Wish{Count: 4, Length: 3.6, Width: 1.2, Path: 0.6}

func box(w, s, e, n float64) orb.Polygon {
	return orb.Polygon{orb.Ring{{w, s}, {e, s}, {e, n}, {w, n}, {w, s}}}
}

func plotOf(boundary orb.Polygon, fixtures ...geodata.Fixture) *geodata.Plot {
	return &geodata.Plot{Boundary: boundary, BoundaryDrawn: true, Fixtures: fixtures}
}

func search(t *testing.T, plot *geodata.Plot, g layout.Ground, w layout.Wish, pinned []bed.Bed, score func(bed.Bed) (float64, bool)) layout.Result {
	t.Helper()
	r, err := layout.Search(context.Background(), plot, g, w, pinned, layout.Keepouts(plot, nil), score, layout.Options{})
	require.NoError(t, err)
	return r
}

func ExampleSearch() {
	// A plot of 10 by 8 m that falls 1 in 12 to the south, with a gate in the
	// south-west corner.
	plot := plotOf(box(0, 0, 10, 8), geodata.Fixture{Kind: geodata.GateKind, Shape: orb.Point{0, 0}})
	r, err := layout.Search(context.Background(), plot, southward,
		layout.Wish{Count: 3, Length: 3.6, Width: 1.2, Path: 0.6},
		nil, layout.Keepouts(plot, nil), nil, layout.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range r.Beds {
		fmt.Printf("%s at %.2f east, %.2f north, long side %.0f degrees\n", b.Name, b.Centre[0], b.Centre[1], b.LongSide.Degrees())
	}
	// Output:
	// bed 1 at 2.40 east, 1.65 north, long side 90 degrees
	// bed 2 at 2.40 east, 3.45 north, long side 90 degrees
	// bed 3 at 2.40 east, 5.25 north, long side 90 degrees
}

func ExampleKeepouts() {
	plot := plotOf(box(0, 0, 10, 8),
		geodata.Fixture{Kind: geodata.ObstacleKind, What: "hedge", Name: "North", Shape: orb.LineString{{0, 8}, {10, 8}}},
		geodata.Fixture{Kind: geodata.TreeKind, Name: "Apple", StemDiameter: 0.3, Shape: orb.Point{9, 7}},
		geodata.Fixture{Kind: geodata.ServiceKind, Carries: geodata.Gas, Shape: orb.LineString{{0, 1}, {10, 1}}},
	)
	for _, k := range layout.Keepouts(plot, nil) {
		fmt.Printf("%s: %.2f m\n", k.Why, k.Clear)
	}
	// Output:
	// the hedge "North": 1.00 m
	// the roots of the tree "Apple": 3.70 m
	// the buried service: 1.00 m
}

func TestRowsPackARectangle(t *testing.T) {
	// Room for 2 beds of 3.6 m end to end needs 2 x 3.6 + 3 x 0.6 = 9.0 m, and
	// 4 of 1.2 m side by side 4 x 1.2 + 5 x 0.6 = 7.8 m: 8 beds and not one more.
	w := ordinary
	w.Count = 9
	r := search(t, plotOf(box(0, 0, 9, 7.8)), southward, w, nil, nil)
	assert.Equal(t, 8, r.Fits)
	assert.Len(t, r.Beds, 8)
	assert.True(t, r.InLine)
	assert.Contains(t, r.Short, "8 of 9 beds fit")
	assert.Contains(t, r.Short, "the beds placed and the paths between them")

	less := search(t, plotOf(box(0, 0, 8.99, 7.8)), southward, w, nil, nil)
	assert.Equal(t, 4, less.Fits)
}

func TestLongSidesLieOnTheContour(t *testing.T) {
	for _, degrees := range []float64{0, 30, 77, 135, 180, 301} {
		east, north := terrain.FromDegrees(degrees).Unit()
		g := terrain.Gradient{East: -0.1 * east, North: -0.1 * north} // falls on that bearing
		r := search(t, plotOf(box(0, 0, 18, 24)), hill{g: g}, ordinary, nil, nil)
		require.Len(t, r.Beds, 4)
		for _, b := range r.Beds {
			assert.InDelta(t, 0, b.OffContour(g), 1e-6)
		}
	}
}

func TestLevelGroundTakesTheLongestSide(t *testing.T) {
	r := search(t, plotOf(box(0, 0, 8, 20)), hill{}, ordinary, nil, nil)
	require.Len(t, r.Beds, 4)
	for _, b := range r.Beds {
		assert.InDelta(t, 0, b.LongSide.Degrees(), 1e-9)
	}
}

func TestBedsFollowATurningContour(t *testing.T) {
	// The contour turns through 90 degrees from one side to the other, so one
	// bearing cannot serve all over.
	g := hill{g: terrain.Gradient{North: 0.1}, turn: 0.1 / 12}
	w := ordinary
	w.Count = 14
	r := search(t, plotOf(box(0, 0, 24, 18)), g, w, nil, nil)
	assert.Equal(t, 14, r.Fits)
	for _, b := range r.Beds {
		mean, _ := g.GradientAt(b.Centre) // even change: the mean is the middle's
		assert.LessOrEqual(t, b.OffContour(mean), layout.DefaultMaxTurn+1e-6)
	}
}

func TestPinnedBedsKeepTheirPathAndTheirNames(t *testing.T) {
	pinned := []bed.Bed{bed.New("Bed 2", orb.Point{5, 4}, terrain.FromDegrees(70), 5, 1.5)}
	w := ordinary
	w.Count = 2
	r := search(t, plotOf(box(0, 0, 12, 12)), southward, w, pinned, nil)
	require.Len(t, r.Beds, 2)
	assert.Equal(t, "bed 1", r.Beds[0].Name)
	assert.Equal(t, "bed 3", r.Beds[1].Name)
	noOverlap(t, append(pinned, r.Beds...), w.Path)
}

func TestCostDecides(t *testing.T) {
	// The further north the cheaper, but nothing north of y = 16 is allowed.
	score := func(b bed.Bed) (float64, bool) { return 100 - b.Centre[1], b.Centre[1] <= 16 }
	w := ordinary
	w.Count = 1
	plot := plotOf(box(0, 0, 18, 24))
	r := search(t, plot, southward, w, nil, score)
	require.Len(t, r.Beds, 1)
	assert.Greater(t, r.Beds[0].Centre[1], 15.4)
	assert.LessOrEqual(t, r.Beds[0].Centre[1], 16.0)
	assert.InDelta(t, 100-r.Beds[0].Centre[1], r.Cost, 1e-6)

	none := search(t, plot, southward, w, nil, func(bed.Bed) (float64, bool) { return 0, false })
	assert.Zero(t, none.Fits)
	assert.Contains(t, none.Short, "the bed does not fit: most other places are stopped by")
	assert.Contains(t, none.Short, "must not be built")

	nan := search(t, plot, southward, w, nil, func(bed.Bed) (float64, bool) { return math.NaN(), true })
	assert.Zero(t, nan.Fits)
}

func TestAnExchangeMakesRoomForOneMore(t *testing.T) {
	// A strip with room for exactly two beds end to end. The cheapest place is
	// in the middle, and taken alone it would leave room for no other.
	score := func(b bed.Bed) (float64, bool) { return math.Abs(b.Centre[0] - 4.5), true }
	w := ordinary
	w.Count = 2
	r := search(t, plotOf(box(0, 0, 9, 2.4)), southward, w, nil, score)
	assert.Equal(t, 2, r.Fits)
	assert.Empty(t, r.Short)
}

func TestAnExchangeLowersTheCost(t *testing.T) {
	// Two rows of two. The cheapest place is in the middle of the southern row
	// (0); taken first it leaves only the northern row (5) for the second bed.
	// The best are the two ends of the southern row, 2.1 m off the middle each:
	// 0.21 + 0.21.
	score := func(b bed.Bed) (float64, bool) {
		if b.Centre[1] > 1.5 {
			return 5, true
		}
		return math.Abs(b.Centre[0]-4.5) / 10, true
	}
	w := ordinary
	w.Count = 2
	r := search(t, plotOf(box(0, 0, 9, 4.2)), southward, w, nil, score)
	assert.InDelta(t, 0.42, r.Cost, 1e-6)
}

func TestTwoNeighboursAreExchanged(t *testing.T) {
	// One row with room for three, two wished. The cost grows with the cube of
	// the distance from the middle, so a bed in the middle sends the other far off.
	score := func(b bed.Bed) (float64, bool) { return math.Pow(math.Abs(b.Centre[0]-6.6), 3), true }
	w := ordinary
	w.Count = 2
	// Best: the two as near to the middle as the lattice of 4.2/9 m allows,
	// side by side 4.2 m apart: offsets o and 4.2 - o, cheapest when equal.
	r := search(t, plotOf(box(0, 0, 13.2, 2.4)), southward, w, nil, score)
	step := 4.2 / 9
	best := math.Inf(1)
	for k := range 19 {
		left := 2.4 + float64(k)*step
		if right := left + 4.2; right <= 10.8+1e-9 {
			best = math.Min(best, math.Pow(math.Abs(left-6.6), 3)+math.Pow(math.Abs(right-6.6), 3))
		}
	}
	assert.InDelta(t, best, r.Cost, 1e-6)
}

func TestKeepouts(t *testing.T) {
	line := orb.LineString{{0, 0}, {5, 0}}
	tests := []struct {
		f    geodata.Fixture
		why  string
		want float64
	}{
		{geodata.Fixture{Kind: geodata.NoGoKind, Shape: box(0, 0, 1, 1)}, "the no-go area", 0},
		{geodata.Fixture{Kind: geodata.ObstacleKind, What: "wall", Name: "A", Shape: line}, `the wall "A"`, 0.5},
		{geodata.Fixture{Kind: geodata.ObstacleKind, What: "fence", Shape: line}, "the fence", 0.5},
		{geodata.Fixture{Kind: geodata.ObstacleKind, What: "shed", Shape: line}, "the shed", 0.6},
		{geodata.Fixture{Kind: geodata.ObstacleKind, What: "well", Shape: line}, "the well", 3.1},
		{geodata.Fixture{Kind: geodata.ObstacleKind, Shape: line}, "the obstacle", 0.5},
		{geodata.Fixture{Kind: geodata.TreeKind, Shape: orb.Point{0, 0}, StemDiameter: 1.4}, "the roots of the tree", 15.1},
		{geodata.Fixture{Kind: geodata.ServiceKind, Carries: geodata.Gas, Shape: line}, "the buried service", 0.7},
		{geodata.Fixture{Kind: geodata.PathKind, Shape: line}, "the path", 0.3},
		{geodata.Fixture{Kind: geodata.PathKind, Shape: box(0, 0, 1, 1)}, "the path", 0},
		{geodata.Fixture{Kind: geodata.GateKind, Shape: line}, "the gate", 1.2},
		{geodata.Fixture{Kind: geodata.BreakLineKind, Shape: line}, "the break line", 0.3},
		{geodata.Fixture{Kind: geodata.MarkKind, Name: "M1", Shape: orb.Point{0, 0}}, `the mark "M1"`, 0.1},
	}
	for _, tt := range tests {
		t.Run(tt.why, func(t *testing.T) {
			got := layout.Keepouts(plotOf(box(0, 0, 9, 9), tt.f), func(geodata.Fixture) float64 { return 0.6 })
			require.Len(t, got, 1)
			assert.Equal(t, tt.why, got[0].Why)
			assert.InDelta(t, tt.want, got[0].Clear, 1e-12)
			assert.Equal(t, tt.f.Shape, got[0].Shape)
		})
	}
	none := plotOf(box(0, 0, 9, 9), geodata.Fixture{Kind: geodata.ServiceKind, Overhead: true, Shape: line}, geodata.Fixture{Kind: geodata.BedKind, Shape: box(0, 0, 1, 1)})
	assert.Empty(t, layout.Keepouts(none, nil))
}

func TestShortNamesWhatIsInTheWay(t *testing.T) {
	plot := plotOf(box(0, 0, 9, 7.8),
		geodata.Fixture{Kind: geodata.NoGoKind, Name: "Orchard", Shape: box(0, 2, 9, 6)},
		geodata.Fixture{Kind: geodata.ObstacleKind, What: "shed", Name: "Tool shed", Shape: box(8.8, 0, 9, 0.2)},
	)
	r := search(t, plot, southward, ordinary, nil, nil)
	assert.Less(t, r.Fits, 4)
	assert.Contains(t, r.Short, `the no-go area "Orchard"`)

	small := search(t, plotOf(box(0, 0, 2, 1)), southward, ordinary, nil, nil)
	assert.Equal(t, "none of the 4 beds fits: the plot is too small for a bed of 3.60 by 1.20 m with 0.60 m round it", small.Short)

	g := southward
	g.from = 8
	unsurveyed := search(t, plotOf(box(0, 0, 9, 7.8)), g, ordinary, nil, nil)
	assert.Contains(t, unsurveyed.Short, "not surveyed")
}

func TestNamesRunFromTheGateOrFromTheTop(t *testing.T) {
	gate := geodata.Fixture{Kind: geodata.GateKind, Shape: orb.LineString{{0, 0}, {1, 0}}}
	fromGate := search(t, plotOf(box(0, 0, 9, 7.8), gate), southward, ordinary, nil, nil)
	require.Len(t, fromGate.Beds, 4)
	assert.Less(t, orbDistance(fromGate.Beds[0].Centre, orb.Point{1, 0}), orbDistance(fromGate.Beds[3].Centre, orb.Point{1, 0}))

	w := ordinary
	w.Count = 8
	fromTop := search(t, plotOf(box(0, 0, 9, 7.8)), southward, w, nil, nil)
	require.Len(t, fromTop.Beds, 8)
	assert.Greater(t, fromTop.Beds[0].Centre[1], fromTop.Beds[7].Centre[1])
	assert.Less(t, fromTop.Beds[0].Centre[0], fromTop.Beds[1].Centre[0])
}

func orbDistance(a, b orb.Point) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }

func TestPlacedBedsBringNoStopFromTheCautions(t *testing.T) {
	plot := plotOf(box(0, 0, 18, 24),
		geodata.Fixture{Kind: geodata.ServiceKind, Name: "Power", Carries: geodata.Electricity, Shape: orb.LineString{{0, 12}, {18, 14}}},
		geodata.Fixture{Kind: geodata.TreeKind, Name: "Apple", StemDiameter: 0.4, Shape: orb.Point{4, 20}},
		geodata.Fixture{Kind: geodata.ServiceKind, Name: "tank", What: "septic tank", Carries: geodata.Drain, Shape: orb.Point{15, 4}},
	)
	w := ordinary
	w.Count = 12
	r := search(t, plot, southward, w, nil, nil)
	require.NotEmpty(t, r.Beds)
	var works []caution.Work
	for _, b := range r.Beds {
		grown := b
		grown.Length, grown.Width = b.Length+0.14, b.Width+0.14 // pegs outside the boards
		ring := grown.Footprint()[0]
		works = append(works, caution.Work{Bed: b.Name, Outline: b.Footprint(), Fill: 0.15, Pegs: ring[:4], Cuts: []orb.Geometry{orb.LineString(b.Footprint()[0])}})
	}
	assert.Empty(t, caution.Services(plot, works))
	assert.Empty(t, caution.Trees(plot, works))
	assert.Empty(t, caution.FoulGround(plot, works))
}

func TestSameInputSameBeds(t *testing.T) {
	g := hill{g: terrain.Gradient{North: 0.1}, turn: 0.004}
	plot := plotOf(orb.Polygon{orb.Ring{{0, 0}, {13, 0}, {15, 6}, {11, 11}, {3, 10}, {0, 6}, {0, 0}}})
	score := func(b bed.Bed) (float64, bool) { return math.Sin(b.Centre[0]) + math.Cos(b.Centre[1]), true }
	first := search(t, plot, g, ordinary, nil, score)
	for range 3 {
		assert.Equal(t, first, search(t, plot, g, ordinary, nil, score))
	}
}

func TestSearchRefuses(t *testing.T) {
	good := plotOf(box(0, 0, 18, 24))
	wish := func(change func(*layout.Wish)) layout.Wish {
		w := ordinary
		change(&w)
		return w
	}
	tests := []struct {
		name   string
		plot   *geodata.Plot
		ground layout.Ground
		wish   layout.Wish
		keep   []layout.Keepout
		opt    layout.Options
		says   string
	}{
		{name: "no plot", ground: southward, wish: ordinary, says: "no boundary"},
		{name: "no ground", plot: good, wish: ordinary, says: "no ground"},
		{name: "count under 0", plot: good, ground: southward, wish: wish(func(w *layout.Wish) { w.Count = -1 }), says: "-1 beds"},
		{name: "no width", plot: good, ground: southward, wish: wish(func(w *layout.Wish) { w.Width = 0 }), says: "over 0"},
		{name: "long side shorter", plot: good, ground: southward, wish: wish(func(w *layout.Wish) { w.Length = 1 }), says: "the longer"},
		{name: "length not a number", plot: good, ground: southward, wish: wish(func(w *layout.Wish) { w.Length = math.NaN() }), says: "over 0"},
		{name: "path not a number", plot: good, ground: southward, wish: wish(func(w *layout.Wish) { w.Path = math.NaN() }), says: "paths"},
		{name: "lattice too close", plot: good, ground: southward, wish: ordinary, opt: layout.Options{Step: 0.01}, says: "0.05 m or more"},
		{name: "option under 0", plot: good, ground: southward, wish: ordinary, opt: layout.Options{Margin: -1}, says: "under 0"},
		{name: "keepout without a shape", plot: good, ground: southward, wish: ordinary, keep: []layout.Keepout{{Why: "the pond"}}, says: "the pond has no shape"},
		{name: "keepout with a clearance that is no number", plot: good, ground: southward, wish: ordinary,
			keep: []layout.Keepout{{Why: "the pond", Shape: orb.Point{1, 1}, Clear: math.NaN()}}, says: "the pond is kept clear by NaN"},
		{name: "boundary that is no number", plot: plotOf(box(0, 0, math.NaN(), 3)), ground: southward, wish: ordinary, says: "not a number"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := layout.Search(context.Background(), tt.plot, tt.ground, tt.wish, nil, tt.keep, nil, tt.opt)
			assert.ErrorContains(t, err, tt.says)
		})
	}
}

func TestSearchStopsWhenCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	n := 0
	score := func(bed.Bed) (float64, bool) {
		if n++; n == 10 {
			cancel()
		}
		return 0, true
	}
	_, err := layout.Search(ctx, plotOf(box(0, 0, 60, 60)), southward, ordinary, nil, nil, score, layout.Options{})
	assert.ErrorIs(t, err, context.Canceled)
	assert.Less(t, n, 300)
}

func TestNoBedsWished(t *testing.T) {
	w := ordinary
	w.Count = 0
	r := search(t, plotOf(box(0, 0, 18, 24)), southward, w, nil, nil)
	assert.Empty(t, r.Beds)
	assert.Empty(t, r.Short)
}

func TestWidePlotWidensTheLattice(t *testing.T) {
	r := search(t, plotOf(box(0, 0, 400, 400)), southward, ordinary, nil, nil)
	assert.InDelta(t, 2, r.Step, 1e-9) // 400 m x 400 m / 40 000
	assert.Equal(t, 4, r.Fits)
}
