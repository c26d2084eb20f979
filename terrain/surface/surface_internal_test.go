package surface

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"

	"crossfall/geodata"
)

func spotsOf(rows [][3]float64) []geodata.SpotHeight {
	var out []geodata.SpotHeight
	for i, r := range rows {
		out = append(out, geodata.SpotHeight{Name: fmt.Sprint(i + 1), At: orb.Point{r[0], r[1]}, Height: r[2]})
	}
	return out
}

var eight = [][3]float64{{0, 0, 2}, {10, 0, 1.95}, {20, 0, 1.9}, {0, 10, 1.2}, {10, 10, 1.1}, {20, 10, .95}, {5, 5, 1.62}, {15, 5, 1.55}}

// The analytic gradient of the restricted likelihood against differences.
func TestLikelihoodGradient(t *testing.T) {
	s, err := newSurvey(spotsOf(eight), Options{Sigma: 0.01})
	require.NoError(t, err)
	m := newREML(s.readings())
	at := func(x []float64) Hyper {
		return Hyper{Range: math.Exp(x[0]), Variance: math.Exp(x[1]), NoiseFactor: math.Exp(x[2])}
	}
	for _, h := range []Hyper{{12, .04, 1}, {4, .01, 2}, {40, 1, 1}, {1, .3, 5}} {
		x := []float64{math.Log(h.Range), math.Log(h.Variance), math.Log(h.NoiseFactor)}
		want := fd.Gradient(nil, func(x []float64) float64 {
			l, _, ok := m.value(at(x), false)
			require.True(t, ok)
			return l
		}, x, &fd.Settings{Formula: fd.Central})
		_, got, ok := m.value(h, true)
		require.True(t, ok)
		for i := range want {
			assert.InDelta(t, want[i], got[i], 1e-5*(1+math.Abs(want[i])), "%v, parameter %d", h, i)
		}
	}
}

// On these eight heights the likelihood has a ridge towards each end of the
// range; the search must not be beaten by any point of a fine lattice inside
// its bounds. Recomputed independently: with no bound it climbs from .103778 at
// (12 m, .04 m2) to 1.56546 as the range grows past 1000 m.
func TestSearchIsNotBeatenByALattice(t *testing.T) {
	s, err := newSurvey(spotsOf(eight), Options{Sigma: 0.01})
	require.NoError(t, err)
	m := newREML(s.readings())
	for _, scatter := range []float64{1e-4, 0.01, 0.1} {
		h, b := findHyper(s.readings(), scatter, false)
		found, _, ok := m.value(h, false)
		require.True(t, ok)
		for i := range 41 {
			for j := range 81 {
				x := math.Exp(b.low[0] + float64(i)/40*(b.high[0]-b.low[0]))
				v := math.Exp(b.low[1] + float64(j)/80*(b.high[1]-b.low[1]))
				l, _, _ := m.value(Hyper{x, v, 1}, false)
				require.LessOrEqual(t, l, found+1e-3, "range %v, variance %v", x, v)
			}
		}
		assert.True(t, b.atLow(h))
		assert.False(t, b.atHigh(h))
	}
	last := .103778076
	for _, h := range []Hyper{{100, 27.66, 1}, {300, 2344.9, 1}, {1000, 348015, 1}} {
		l, _, ok := m.value(h, false)
		require.True(t, ok)
		assert.Greater(t, l, last)
		last = l
	}
	assert.InDelta(t, 1.56546, last, 0.01)
}

// Recomputed independently: Tukey's weights and plane at a known scale of 20 mm, one of
// nine heights raised by a metre, and Huber's.
func TestTukeyWeights(t *testing.T) {
	var rows [][3]float64
	z := []float64{100.00, 100.62, 101.18, 100.41, 100.98, 102.63, 100.79, 101.42, 102.00}
	for i := range z {
		rows = append(rows, [3]float64{float64(10 * (i % 3)), float64(8 * (i / 3)), z[i]})
	}
	s, err := newSurvey(spotsOf(rows), Options{Sigma: 0.020})
	require.NoError(t, err)
	f := &fitting{survey: s}
	w, ok := f.tukey(planeTerms)
	require.True(t, ok)
	want := []float64{.9993976, .8874759, .9603188, .9904519, .9166323, 0, .9466377, .9213469, .9980165}
	assert.InDeltaSlice(t, want, w, 1e-4)
	l, ok := fitLinear(s, planeTerms, w)
	require.True(t, ok)
	height, _ := l.HeightAt(orb.Point{10, 8})
	g, _ := l.GradientAt(orb.Point{})
	assert.InDelta(t, 100.999337, height, 5e-6)
	assert.InDelta(t, .0595819, g.East, 5e-7)
	assert.InDelta(t, .0502365, g.North, 5e-7)

	huber := slices.Repeat([]float64{1}, len(z))
	require.True(t, f.reweight(planeTerms, huber, func(u float64) float64 { return math.Min(1, huberK/u) }))
	l, ok = fitLinear(s, planeTerms, huber)
	require.True(t, ok)
	g, _ = l.GradientAt(orb.Point{})
	assert.InDelta(t, .0602105, g.East, 5e-7)
	assert.InDelta(t, .0502083, g.North, 5e-7)
	assert.InDelta(t, .0262626, huber[5], 1e-4)
}

// Leaving a height out by its normalised residual is refitting without it.
func TestLeavingOutIsRefitting(t *testing.T) {
	s, err := newSurvey(spotsOf(eight), Options{})
	require.NoError(t, err)
	f := &fitting{survey: s}
	l, _ := fitLinear(s, planeTerms, nil)
	for i := range eight {
		rest, ok := f.without([]int{i}, planeTerms)
		require.True(t, ok)
		w := l.normalised(i)
		assert.InDelta(t, rest.chi2, l.chi2-w*w, 1e-8)
		z, _ := rest.HeightAt(s.plotPoint(i))
		assert.InDelta(t, eight[i][2]-z, l.leftOut(i), 1e-10)
	}
}

func TestExtent(t *testing.T) {
	e := newExtent([]orb.Point{{0, 0}, {4, 0}, {4, 3}, {0, 3}, {2, 1}, {2, 0}, {4, 3}})
	assert.Equal(t, []orb.Point{{0, 0}, {4, 0}, {4, 3}, {0, 3}}, e.hull)
	assert.InDelta(t, 5, e.diameter, 1e-12)
	// Nearest other place, by hand: 2, 2, 2.828, 2.828, 1, 1.
	assert.InDelta(t, 2, e.spacing, 1e-12)
	assert.Zero(t, e.outside(orb.Point{1, 1}))
	assert.InDelta(t, 1, e.outside(orb.Point{2, -1}), 1e-12)
	assert.InDelta(t, 5, e.outside(orb.Point{7, 7}), 1e-12)
}

func TestBlocksKeepThePlaneAndTheWeight(t *testing.T) {
	var r readings
	for i := range 50 {
		for j := range 50 {
			x, y := float64(i), float64(j)
			r.at = append(r.at, orb.Point{x, y})
			r.z = append(r.z, 0.1*x-0.02*y)
			r.noise = append(r.noise, 1e-4*(1+x/50))
		}
	}
	b := r.blocks(200)
	assert.LessOrEqual(t, len(b.at), 200)
	assert.Greater(t, len(b.at), 100)
	var before, after float64
	for _, n := range r.noise {
		before += 1 / n
	}
	for i, p := range b.at {
		after += 1 / b.noise[i]
		assert.InDelta(t, 0.1*p[0]-0.02*p[1], b.z[i], 1e-12)
	}
	assert.InEpsilon(t, before, after, 1e-12)
}

func TestSpreadTakesTheCorners(t *testing.T) {
	var r readings
	for i := -5; i <= 5; i++ {
		for j := -5; j <= 5; j++ {
			r.at = append(r.at, orb.Point{float64(i), float64(j)})
			r.z = append(r.z, 0)
			r.noise = append(r.noise, 1)
		}
	}
	got := r.spread(5)
	assert.ElementsMatch(t, []orb.Point{{0, 0}, {-5, -5}, {-5, 5}, {5, -5}, {5, 5}}, got.at)
}

// Recomputed independently: among 181 smoothings, evenly in the logarithm from
// 1e-6 to 1e3, generalised cross-validation is least at .794.
func TestLeastScoreOfThinPlate(t *testing.T) {
	s, err := newSurvey(spotsOf(eight), Options{})
	require.NoError(t, err)
	p, err := newPlate(s)
	require.NoError(t, err)
	best, least := 0.0, math.Inf(1)
	for i := range 181 {
		lambda := math.Pow(10, -6+float64(i)/20)
		if score, _ := p.score(lambda); score < least {
			best, least = lambda, score
		}
	}
	assert.InDelta(t, .794, best, 5e-4)
	assert.InDelta(t, .0039614963, least, 5e-11)
}

// With more heights than the first search takes, the hyperparameters must still
// not be beaten: by the long way round, a climb from the first search's answer,
// or by any point of a lattice about them.
func TestSearchOverManyHeightsIsNotBeaten(t *testing.T) {
	for seed := range uint64(3) {
		rng := rand.New(rand.NewPCG(seed, 2))
		var rows [][3]float64
		for range 130 {
			x, y := 20*rng.Float64(), 15*rng.Float64()
			z := .1*x + .15*math.Sin(x/1.7)*math.Cos(y/1.7) + .02*rng.NormFloat64()
			rows = append(rows, [3]float64{x, y, z})
		}
		s, err := newSurvey(spotsOf(rows), Options{Sigma: .012})
		require.NoError(t, err)
		r := s.readings()
		h, b := findHyper(r, .01, true)
		of := likelihood(newREML(r).value)
		found, slope, ok := of(h, true)
		require.True(t, ok)
		assert.Greater(t, h.NoiseFactor, 1.5, "more noise than stated")
		first, _ := fromStarts(r.spread(coarseHeights), .01, true)
		_, climbed := of.climb(b, first, closely)
		assert.Greater(t, found, climbed-2*between)
		for i := range slope {
			assert.Less(t, math.Abs(slope[i]), .5, "parameter %d", i)
		}
		x := logsOf(h)
		for i := range 125 {
			y := x
			for k, step := range []int{i % 5, i / 5 % 5, i / 25} {
				y[k] += .2 * float64(step-2)
			}
			l, _, ok := of(b.clamped(y).hyper(), false)
			require.True(t, ok)
			assert.Less(t, l, found+2*between)
		}
	}
}

// A bend that is no hill's is refused, and the way along a bound stays on it.
func TestPolishKeepsToTheBounds(t *testing.T) {
	b := limits{low: [3]float64{0, 0, 0}, high: [3]float64{2, 2, 2}}
	// A dome with its top at (1, 5, -3): the nearest of the box is (1, 2, 0).
	dome := likelihood(func(h Hyper, _ bool) (l float64, d [3]float64, ok bool) {
		for i, top := range []float64{1, 5, -3} {
			off := logsOf(h)[i] - top
			l, d[i] = l-off*off/2, -off
		}
		return l, d, true
	})
	unit := [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	x, ok := dome.polish(b, logs{0, 0, 2}, unit, 1e-9)
	require.True(t, ok)
	assert.InDeltaSlice(t, []float64{1, 2, 0}, x[:], 1e-5)
	_, ok = dome.polish(b, logs{0, 0, 2}, [3][3]float64{{-1}, {0, 1}, {0, 0, 1}}, 1e-9)
	assert.False(t, ok)
	m, ok := dome.bend(logs{1, 1, 2}, b)
	require.True(t, ok)
	for i := range m {
		assert.InDeltaSlice(t, unit[i][:], m[i][:], 1e-9)
	}
}
