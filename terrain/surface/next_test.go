package surface_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/surface"
)

func rectangle(x0, y0, x1, y1 float64) orb.Polygon {
	return orb.Polygon{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}}
}

// acrossAndAlong are the pairs of a bed 3.6 m by 1.2 m, long side east and west.
func acrossAndAlong(x, y float64) []surface.Pair {
	return []surface.Pair{
		{From: orb.Point{x - .9, y + .6}, To: orb.Point{x - .9, y - .6}},
		{From: orb.Point{x + .9, y + .6}, To: orb.Point{x + .9, y - .6}},
		{From: orb.Point{x - 1.8, y}, To: orb.Point{x + 1.8, y}},
	}
}

func rippled(t testing.TB, n int) *surface.Fit {
	fit := fitOf(t, rippleHill().survey(rand.New(rand.NewPCG(1, 1)), n, 0.012), surface.Options{})
	require.Equal(t, surface.SmoothKind, fit.Kind)
	return fit
}

// openQuestions are decisions about four beds, each with a limit that the
// survey does not settle, and one about heights.
func openQuestions(fit *surface.Fit) []surface.Question {
	var out []surface.Question
	for i, at := range []orb.Point{{4, 4}, {15, 4}, {9, 10}, {16, 12}} {
		g, _ := fit.GradientAt(at)
		out = append(out, surface.Question{
			Name: fmt.Sprintf("bed %d", i+1), Pairs: acrossAndAlong(at[0], at[1]), Limits: []float64{g.Fall(), g.Fall() * 1.02},
		})
	}
	return append(out, surface.Question{Name: "compost", Points: []orb.Point{{4, 4}, {4.5, 4}, {5, 4}}, Says: "how much compost bed 1 takes"})
}

func TestNextReadings(t *testing.T) {
	fit := rippled(t, 40)
	plot := rectangle(0, 0, 20, 15)
	start := orb.Point{0, 0}
	got, err := surface.Next(fit, openQuestions(fit), plot, surface.NextOptions{Count: 9, Start: &start})
	require.NoError(t, err)
	require.Len(t, got, 5, "five at most")
	ranks := map[int]bool{}
	for _, r := range got {
		ranks[r.Rank] = true
		assert.True(t, planar.PolygonContains(plot, r.At))
		assert.Equal(t, surface.ByDecision, r.By)
		assert.NotEmpty(t, r.Settles)
		assert.Less(t, r.After, r.Before)
		nearest := math.Inf(1)
		for _, s := range rippleHill().survey(rand.New(rand.NewPCG(1, 1)), 40, 0.012) {
			nearest = math.Min(nearest, planar.Distance(s.At, r.At))
		}
		assert.Equal(t, r.Repeats, nearest < 1e-9)
		assert.True(t, r.Repeats || nearest >= 0.3, "%v", nearest)
	}
	for rank := 1; rank <= 5; rank++ {
		assert.True(t, ranks[rank], "rank %d", rank)
	}
	again, err := surface.Next(fit, openQuestions(fit), plot, surface.NextOptions{Count: 5, Start: &start})
	require.NoError(t, err)
	assert.Equal(t, got, again)
	three, err := surface.Next(fit, openQuestions(fit), plot, surface.NextOptions{})
	require.NoError(t, err)
	assert.Len(t, three, 3)
}

// A reading must in fact help: many surveys drawn from the fitted ground, the
// heights that were planned read on each, and the decision made again. The
// share of wrong decisions must fall to what was foretold.
func TestForetoldChanceComesTrue(t *testing.T) {
	spots := eightPoints()
	fit := &surface.Fit{Surface: smoothEight(t)}
	at := orb.Point{3, 8}
	question := []surface.Question{{Name: "q", Points: []orb.Point{at}, Limits: []float64{.09}}}
	got, err := surface.Next(fit, question, rectangle(-1, -1, 21, 11), surface.NextOptions{Count: 1})
	require.NoError(t, err)
	require.Len(t, got, 1)
	r := got[0]
	assert.Equal(t, []string{"q"}, r.Settles)

	const draws, d = 1200, 0.02
	nodes := []orb.Point{r.At, {3 - d, 8}, {3 + d, 8}, {3, 8 - d}, {3, 8 + d}}
	drawn, err := surface.Simulate(fit, nodes, draws, 4)
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(9, 1))
	before, after := 0, 0
	now := surface.FallExceeds(gradientAt(fit, at), fit.GradientCovariance(at), .09) > .5
	for _, z := range drawn.Heights {
		truth := math.Hypot(z[2]-z[1], z[4]-z[3])/(2*d) > .09
		more := append(append([]geodata.SpotHeight(nil), spots...), geodata.SpotHeight{At: r.At, Height: z[0] + .01*rng.NormFloat64()})
		m, err := surface.SmoothWith(more, surface.Hyper{Range: 12, Variance: 0.04}, surface.Options{Sigma: 0.01})
		require.NoError(t, err)
		then := surface.FallExceeds(gradientAt(m, at), m.GradientCovariance(at), .09) > .5
		if truth != now {
			before++
		}
		if truth != then {
			after++
		}
	}
	assert.InDelta(t, r.Before, float64(before)/draws, 4*math.Sqrt(r.Before*(1-r.Before)/draws))
	assert.InDelta(t, r.After, float64(after)/draws, 4*math.Sqrt(r.After*(1-r.After)/draws))
	assert.Less(t, r.After, r.Before-.05)
}

func gradientAt(s surface.Surface, p orb.Point) terrain.Gradient {
	v, _ := s.GradientAt(p)
	return v
}

// A settled decision asks for nothing; the heights of a bed are then asked.
func TestNextLeavesSettledDecisions(t *testing.T) {
	fit := &surface.Fit{Surface: smoothEight(t)}
	plot := rectangle(0, 0, 20, 10)
	settled := surface.Question{Name: "far off", Points: []orb.Point{{3, 8}}, Limits: []float64{.5, .001}}
	got, err := surface.Next(fit, []surface.Question{settled}, plot, surface.NextOptions{})
	require.NoError(t, err)
	assert.Empty(t, got)
	bed := surface.Question{Name: "fill", Points: []orb.Point{{8, 7}, {9, 7}, {10, 7}}, Says: "how deep the compost lies"}
	got, err = surface.Next(fit, []surface.Question{settled, bed}, plot, surface.NextOptions{Count: 1})
	require.NoError(t, err)
	require.Len(t, got, 1)
	assert.Equal(t, surface.ByHeight, got[0].By)
	assert.Equal(t, []string{"how deep the compost lies"}, got[0].Settles)
	assert.Less(t, planar.Distance(got[0].At, orb.Point{9, 7}), 2.5, "beside the bed")
	sd := 0.0
	for _, p := range bed.Points {
		sd += fit.HeightCovariance(p, p) / 3
	}
	assert.InDelta(t, math.Sqrt(sd), got[0].Before, 1e-12)
	// Nowhere to stand.
	got, err = surface.Next(fit, []surface.Question{bed}, plot, surface.NextOptions{Keep: func(orb.Point) bool { return false }})
	require.NoError(t, err)
	assert.Empty(t, got)
}

// By hand: on a plane through nine heights of 20 mm the error of the gradient
// north is .02/sqrt(384); one more at v north of the middle takes the share
// (v^2/384)/(1 + 1/9 + u^2/600 + v^2/384) from its variance: most, 3/23, at the
// middle of the north or south side. That moves the fall too little to change a
// decision at one and a half standard errors, but several do.
func TestNextNarrowsAFall(t *testing.T) {
	fit := fitOf(t, spotsAt(ninePoints(), evenHeights), surface.Options{Sigma: .020})
	north, se := fit.Plane.Gradient.North, .02/math.Sqrt(384)
	along := surface.Question{
		Name: "bed", Pairs: []surface.Pair{{From: orb.Point{10, 9}, To: orb.Point{10, 8}}},
		Limits: []float64{north + 1.55*se},
	}
	got, err := surface.Next(fit, []surface.Question{along}, rectangle(0, 0, 20, 16), surface.NextOptions{Count: 5})
	require.NoError(t, err)
	require.NotEmpty(t, got)
	for _, r := range got {
		if r.Rank == 1 {
			assert.Equal(t, surface.ByFall, r.By)
			assert.InDelta(t, se, r.Before, 1e-9)
			assert.InDelta(t, se*math.Sqrt(20./23), r.After, 1e-9)
			assert.InDelta(t, 10, r.At[0], 1e-9)
			assert.InDelta(t, 0, r.At[1], 1e-9, "of two as good, the southern")
			assert.True(t, r.Repeats)
		}
		assert.Less(t, r.After, r.Before)
	}
}

func TestNextRefuses(t *testing.T) {
	fit := &surface.Fit{Surface: smoothEight(t)}
	plot, at := rectangle(0, 0, 20, 10), orb.Point{3, 8}
	for _, q := range []surface.Question{
		{Name: "empty"},
		{Name: "no place", Limits: []float64{.1}},
		{Name: "pairs need limits", Pairs: []surface.Pair{{From: at, To: orb.Point{4, 8}}}},
		{Name: "one place", Pairs: []surface.Pair{{From: at, To: at}}, Limits: []float64{.1}},
		{Name: "not finite", Points: []orb.Point{{math.Inf(1), 0}}},
		{Name: "no limit", Points: []orb.Point{at}, Limits: []float64{math.NaN()}},
	} {
		_, err := surface.Next(fit, []surface.Question{q}, plot, surface.NextOptions{})
		require.Error(t, err, q.Name)
		assert.Contains(t, err.Error(), q.Name)
	}
	for _, bad := range []orb.Polygon{nil, {}, {{}}, {{{0, 0}, {1, 1}, {math.NaN(), 0}, {0, 0}}}} {
		_, err := surface.Next(fit, nil, bad, surface.NextOptions{})
		assert.Error(t, err)
	}
	_, err := surface.Next(nil, nil, plot, surface.NextOptions{})
	assert.Error(t, err)
	_, err = surface.Next(&surface.Fit{}, nil, plot, surface.NextOptions{})
	assert.Error(t, err)
}

// BenchmarkNext plans three readings for four open decisions.
func BenchmarkNext(b *testing.B) {
	for _, n := range []int{20, 60} {
		fit := rippled(b, n)
		questions := openQuestions(fit)
		b.Run(fmt.Sprintf("heights=%d", n), func(b *testing.B) {
			for b.Loop() {
				got, err := surface.Next(fit, questions, rectangle(0, 0, 20, 15), surface.NextOptions{})
				require.NoError(b, err)
				require.Len(b, got, 3)
			}
		})
	}
}
