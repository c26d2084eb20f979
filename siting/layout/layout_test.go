package layout_test

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"sync/atomic"
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

var ordinary = layout.Wish{Length: 3.6, Width: 1.2, Path: 0.6}

func box(w, s, e, n float64) orb.Polygon {
	return orb.Polygon{orb.Ring{{w, s}, {e, s}, {e, n}, {w, n}, {w, s}}}
}

func plotOf(boundary orb.Polygon, fixtures ...geodata.Fixture) *geodata.Plot {
	return &geodata.Plot{Boundary: boundary, BoundaryDrawn: true, Fixtures: fixtures}
}

func arrange(t require.TestingT, plot *geodata.Plot, g layout.Ground, w layout.Wish, count int, pinned []bed.Bed, weigh layout.Weigh) layout.Result {
	places, err := layout.Survey(context.Background(), plot, g, w, layout.Keepouts(plot, nil), weigh, layout.Options{})
	require.NoError(t, err)
	r, err := places.Arrange(context.Background(), count, pinned, nil)
	require.NoError(t, err)
	return r
}

func ExamplePlaces_Arrange() {
	// A plot of 10 by 8 m that falls 1 in 12 to the south, with a gate in the
	// south-west corner.
	plot := plotOf(box(0, 0, 10, 8), geodata.Fixture{Kind: geodata.GateKind, Shape: orb.Point{0, 0}})
	places, err := layout.Survey(context.Background(), plot, southward,
		layout.Wish{Length: 3.6, Width: 1.2, Path: 0.6}, layout.Keepouts(plot, nil), nil, layout.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := places.Arrange(context.Background(), 3, nil, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range r.Beds {
		fmt.Printf("%s at %.2f east, %.2f north, long side %.0f degrees\n", b.Name, b.Centre[0], b.Centre[1], b.LongSide.Degrees())
	}
	fmt.Printf("%s: no layout of these places is more than %.1f %% better\n", r.Method, 100*r.Gap())
	// Output:
	// bed 1 at 2.40 east, 1.65 north, long side 90 degrees
	// bed 2 at 2.40 east, 3.45 north, long side 90 degrees
	// bed 3 at 6.60 east, 1.65 north, long side 90 degrees
	// rows in one direction: no layout of these places is more than 0.0 % better
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
	const count = 9
	r := arrange(t, plotOf(box(0, 0, 9, 7.8)), southward, ordinary, count, nil, nil)
	assert.Equal(t, 8, r.Fits)
	assert.Len(t, r.Beds, 8)
	assert.True(t, r.InLine)
	assert.Contains(t, r.Short, "8 of 9 beds fit")
	assert.Contains(t, r.Short, "the beds placed and the paths between them")

	eastward := func(b bed.Bed) (float64, bool) { return layout.FullMarks, math.Abs(b.LongSide.Degrees()-90) < 1 }
	less := arrange(t, plotOf(box(0, 0, 8.99, 7.8)), southward, ordinary, count, nil, eastward)
	assert.Equal(t, 4, less.Fits)
	full := arrange(t, plotOf(box(0, 0, 9, 7.8)), southward, ordinary, count, nil, eastward)
	assert.Equal(t, 8, full.MostBeds)
	assert.Contains(t, full.Short, "8 of 9 beds fit, and no layout of the places looked at holds more")
}

func TestLongSidesLieOnTheContour(t *testing.T) {
	for _, degrees := range []float64{0, 30, 77, 135, 180, 301} {
		east, north := terrain.FromDegrees(degrees).Unit()
		g := terrain.Gradient{East: -0.1 * east, North: -0.1 * north} // falls on that bearing
		r := arrange(t, plotOf(box(0, 0, 18, 24)), hill{g: g}, ordinary, 4, nil, nil)
		require.Len(t, r.Beds, 4)
		for _, b := range r.Beds {
			assert.InDelta(t, 0, b.OffContour(g), 1e-6)
		}
	}
}

func TestLevelGroundTakesTheLongestSide(t *testing.T) {
	r := arrange(t, plotOf(box(0, 0, 8, 20)), hill{}, ordinary, 4, nil, nil)
	require.Len(t, r.Beds, 4)
	for _, b := range r.Beds {
		assert.InDelta(t, 0, b.LongSide.Degrees(), 1e-9)
	}
}

func TestBedsFollowATurningContour(t *testing.T) {
	// The contour turns through 90 degrees from one side to the other, so one
	// bearing cannot serve all over.
	g := hill{g: terrain.Gradient{North: 0.1}, turn: 0.1 / 12}
	const count = 14
	r := arrange(t, plotOf(box(0, 0, 24, 18)), g, ordinary, count, nil, nil)
	assert.Equal(t, 14, r.Fits)
	for _, b := range r.Beds {
		mean, _ := g.GradientAt(b.Centre) // even change: the mean is the middle's
		assert.LessOrEqual(t, b.OffContour(mean), 15*math.Pi/180)
	}
}

func TestPinnedBedsKeepTheirPathAndTheirNames(t *testing.T) {
	pinned := []bed.Bed{bed.New("Bed 2", orb.Point{5, 4}, terrain.FromDegrees(70), 5, 1.5)}
	const count = 2
	r := arrange(t, plotOf(box(0, 0, 12, 12)), southward, ordinary, count, pinned, nil)
	require.Len(t, r.Beds, 2)
	assert.Equal(t, "bed 1", r.Beds[0].Name)
	assert.Equal(t, "bed 3", r.Beds[1].Name)
	noOverlap(t, append(pinned, r.Beds...), ordinary.Path)
}

func TestMarksDecide(t *testing.T) {
	// The further north the better, but nothing north of y = 16 is allowed.
	score := func(b bed.Bed) (float64, bool) { return b.Centre[1], b.Centre[1] <= 16 }
	const count = 1
	plot := plotOf(box(0, 0, 18, 24))
	r := arrange(t, plot, southward, ordinary, count, nil, score)
	require.Len(t, r.Beds, 1)
	assert.Greater(t, r.Beds[0].Centre[1], 15.7)
	assert.LessOrEqual(t, r.Beds[0].Centre[1], 16.0)
	assert.InDelta(t, layout.Told(r.Beds[0].Centre[1])-layout.DefaultRowCost, r.Score, 1e-6)
	assert.InDelta(t, r.Score, r.Bound, 1e-6, "one bed in the best place")
	assert.True(t, r.Proved())

	none := arrange(t, plot, southward, ordinary, count, nil, func(bed.Bed) (float64, bool) { return 0, false })
	assert.Zero(t, none.Fits)
	assert.Contains(t, none.Short, "the bed does not fit: most other places are stopped by")
	assert.Contains(t, none.Short, "must not be built")

	nan := arrange(t, plot, southward, ordinary, count, nil, func(bed.Bed) (float64, bool) { return math.NaN(), true })
	assert.Zero(t, nan.Fits)
}

func TestBestPlaceGivesWayForOneMore(t *testing.T) {
	// A strip with room for exactly two beds end to end. The best place is in the
	// middle, and taken alone it would leave room for no other.
	score := func(b bed.Bed) (float64, bool) { return 50 - math.Abs(b.Centre[0]-4.5), true }
	r := arrange(t, plotOf(box(0, 0, 9, 2.4)), southward, ordinary, 2, nil, score)
	assert.Equal(t, 2, r.Fits)
	assert.Empty(t, r.Short)
	assert.True(t, r.Proved())
}

func TestRowInTheMiddleOfTwo(t *testing.T) {
	// One row with room for three, two wished. The marks fall with the cube of
	// the distance from the middle, so a bed in the middle sends the other far off.
	far := func(x float64) float64 { return math.Pow(math.Abs(x-6.6), 3) }
	score := func(b bed.Bed) (float64, bool) { return 50 - far(b.Centre[0]), true }
	// Best: side by side 4.2 m apart, as near to the middle as the places allow,
	// which are 4.2/9 m apart.
	r := arrange(t, plotOf(box(0, 0, 13.2, 2.4)), southward, ordinary, 2, nil, score)
	best := 0.0
	for k := range 19 {
		left := 2.4 + float64(k)*4.2/9
		if right := left + 4.2; right <= 10.8+1e-9 {
			best = math.Max(best, layout.Told(50-far(left))+layout.Told(50-far(right)))
		}
	}
	assert.InDelta(t, best-layout.DefaultRowCost, r.Score, 1e-6)
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
	r := arrange(t, plot, southward, ordinary, 4, nil, nil)
	assert.Less(t, r.Fits, 4)
	assert.Contains(t, r.Short, `the no-go area "Orchard"`)

	small := arrange(t, plotOf(box(0, 0, 2, 1)), southward, ordinary, 4, nil, nil)
	assert.Equal(t, "none of the 4 beds fits: the plot is too small for a bed of 3.60 by 1.20 m with 0.60 m round it", small.Short)

	g := southward
	g.from = 8
	unsurveyed := arrange(t, plotOf(box(0, 0, 9, 7.8)), g, ordinary, 4, nil, nil)
	assert.Contains(t, unsurveyed.Short, "not surveyed")
}

func TestNamesRunFromTheGateOrFromTheTop(t *testing.T) {
	gate := geodata.Fixture{Kind: geodata.GateKind, Shape: orb.LineString{{0, 0}, {1, 0}}}
	fromGate := arrange(t, plotOf(box(0, 0, 9, 7.8), gate), southward, ordinary, 4, nil, nil)
	require.Len(t, fromGate.Beds, 4)
	assert.Less(t, orbDistance(fromGate.Beds[0].Centre, orb.Point{1, 0}), orbDistance(fromGate.Beds[3].Centre, orb.Point{1, 0}))

	const count = 8
	fromTop := arrange(t, plotOf(box(0, 0, 9, 7.8)), southward, ordinary, count, nil, nil)
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
	const count = 12
	r := arrange(t, plot, southward, ordinary, count, nil, nil)
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
	first := arrange(t, plot, g, ordinary, 4, nil, score)
	for cores := range 3 {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores + 1))
		assert.Equal(t, first, arrange(t, plot, g, ordinary, 4, nil, score))
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
		{name: "rows under 0", plot: good, ground: southward, wish: wish(func(w *layout.Wish) { w.RowMin = -1 }), says: "-1 beds"},
		{name: "pairs wider than the path", plot: good, ground: southward, wish: wish(func(w *layout.Wish) { w.Pairs, w.PairPath = true, 0.7 }), says: "give 0 to 0.6 m"},
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
			_, err := layout.Survey(context.Background(), tt.plot, tt.ground, tt.wish, tt.keep, nil, tt.opt)
			assert.ErrorContains(t, err, tt.says)
		})
	}
}

func TestSurveyStopsWhenCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var n atomic.Int64
	score := func(bed.Bed) (float64, bool) {
		if n.Add(1) == 10 {
			cancel()
		}
		return 0, true
	}
	_, err := layout.Survey(ctx, plotOf(box(0, 0, 60, 60)), southward, ordinary, nil, score, layout.Options{})
	assert.ErrorIs(t, err, context.Canceled)
	assert.Less(t, n.Load(), int64(1000))
}

func TestArrangeStopsWhenCancelled(t *testing.T) {
	places, err := layout.Survey(context.Background(), plotOf(box(0, 0, 20, 20)), southward, ordinary, nil, nil, layout.Options{})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = places.Arrange(ctx, 4, nil, nil)
	assert.ErrorIs(t, err, context.Canceled)
}

func TestNoBedsWished(t *testing.T) {
	r := arrange(t, plotOf(box(0, 0, 18, 24)), southward, ordinary, 0, nil, nil)
	assert.Empty(t, r.Beds)
	assert.Empty(t, r.Short)
}

func TestWidePlotIsSearchedOnFewerPlaces(t *testing.T) {
	places, err := layout.Survey(context.Background(), plotOf(box(0, 0, 400, 400)), southward, ordinary, nil, nil, layout.Options{})
	require.NoError(t, err)
	assert.LessOrEqual(t, places.Count(), layout.MaxPlaces)
	assert.Greater(t, places.Step(), layout.DefaultStep)
	r, err := places.Arrange(context.Background(), 4, nil, nil)
	require.NoError(t, err)
	assert.Equal(t, 4, r.Fits)
}

func TestMostBedsThatFit(t *testing.T) {
	// 2 beds of 3.6 m end to end and 4 of 1.2 m side by side, as worked out above.
	r := arrange(t, plotOf(box(0, 0, 9, 7.8)), southward, ordinary, layout.Most, nil, nil)
	assert.Equal(t, 8, r.Fits)
	assert.GreaterOrEqual(t, r.MostBeds, 8)
	assert.Empty(t, r.Short)
	pinned := []bed.Bed{bed.New("mine", orb.Point{2.4, 1.2}, terrain.FromDegrees(90), 3.6, 1.2)}
	round := arrange(t, plotOf(box(0, 0, 9, 7.8)), southward, ordinary, layout.Most, pinned, nil)
	assert.Equal(t, 7, round.Fits)
	noOverlap(t, append(pinned, round.Beds...), ordinary.Path)
}

func TestTwoZonesWhereThePlotTurns(t *testing.T) {
	// An L of which one arm is too narrow for beds across it: 2.5 m, with 0.6 m
	// kept on both sides. Rows of one direction serve one arm only.
	ring := orb.Ring{{0, 0}, {14, 0}, {14, 2.5}, {2.5, 2.5}, {2.5, 14}, {0, 14}, {0, 0}}
	level := func(bed.Bed) (float64, bool) { return layout.FullMarks, true }
	r := arrange(t, plotOf(orb.Polygon{ring}), hill{}, ordinary, 5, nil, level)
	assert.Equal(t, 5, r.Fits)
	assert.Equal(t, layout.InZones, r.Method)
	assert.False(t, r.InLine)
	assert.Len(t, r.BestRows, 3, "one arm")
	noOverlap(t, r.Beds, ordinary.Path)
}

func TestRowsAsWished(t *testing.T) {
	plot := plotOf(orb.Polygon{orb.Ring{{0, 0}, {13, 0}, {15, 6}, {11, 11}, {3, 10}, {0, 6}, {0, 0}}})
	inRow := func(r layout.Result) map[float64][]float64 {
		rows := map[float64][]float64{}
		require.True(t, r.InLine)
		e, n := r.Bearing.Unit()
		for _, b := range r.Beds {
			across := math.Round(1e4*(b.Centre[1]*e-b.Centre[0]*n)) / 1e4
			rows[across] = append(rows[across], b.Centre[0]*e+b.Centre[1]*n)
		}
		return rows
	}
	w := ordinary
	w.RowMin = 2
	r := arrange(t, plot, southward, w, 5, nil, nil)
	require.Equal(t, 5, r.Fits)
	for _, row := range inRow(r) {
		assert.GreaterOrEqual(t, len(row), 2)
	}
	w = ordinary
	w.Columns = true
	r = arrange(t, plot, southward, w, 7, nil, nil)
	require.Equal(t, 7, r.Fits)
	first := r.Beds[0].Centre
	e, n := r.Bearing.Unit()
	for _, b := range r.Beds {
		columns := ((b.Centre[0]-first[0])*e + (b.Centre[1]-first[1])*n) / (w.Length + w.Path)
		assert.InDelta(t, math.Round(columns), columns, 1e-6)
	}
	// 8.7 m hold 4 rows of 1.2 m, two and two, only if the paths inside the pairs
	// are narrower: 4 x 1.2 + 3 x 0.6 + 2 x 0.4 = 7.4 m.
	w = ordinary
	w.Pairs, w.PairPath = true, 0.4
	narrow := plotOf(box(0, 0, 4.8, 7.4))
	assert.Equal(t, 3, arrange(t, narrow, southward, ordinary, layout.Most, nil, nil).Fits)
	r = arrange(t, narrow, southward, w, layout.Most, nil, nil)
	assert.Equal(t, 4, r.Fits)
	noOverlap(t, r.Beds, w.PairPath)
}
