package surface

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"gonum.org/v1/gonum/optimize"
)

// Limits of the search for hyperparameters, defaults of ours.
const (
	leastVariance = 1e-6 // m2
	mostNoise     = 0.01 // m2, of a reading
	// mostNoiseFactor bounds the noise by what was stated of the readings, at
	// three times their standard deviation: what is rougher is the ground's, such as
	// the banks of terraces, and smoothed away as noise it would leave falls that
	// look well known and are wrong.
	mostNoiseFactor = 9.0
	// hopeless stands for a likelihood that cannot be worked out; it keeps the
	// line search finite.
	hopeless = -1e30
	// A climb ends when the log-likelihood gains less than this: closely, or in
	// between where many heights make each step dear and the maximum sharp.
	between = 1e-3
	closely = 1e-7
	// coarseHeights is the number of heights from which all starts are tried;
	// a larger set takes up the best of them.
	coarseHeights = 60
	// middleHeights is the number of heights between.
	middleHeights = 200
	// searchHeights is the most heights that hyperparameters are sought from.
	searchHeights = 400
)

// limits are the bounds of ln Range, ln Variance and ln NoiseFactor.
type limits struct{ low, high [3]float64 }

// limitsOf bounds the search: the range between 1.5 spacings and 2 diameters,
// the variance up to ten times the squared range of heights, and the noise,
// where it is sought at all, from its stated value up to mostNoiseFactor times it
// and mostNoise.
func limitsOf(r readings, e extent, noiseSought bool) limits {
	reach := slices.Max(r.z) - slices.Min(r.z)
	b := limits{
		low:  [3]float64{math.Log(1.5 * e.spacing), math.Log(leastVariance), 0},
		high: [3]float64{math.Log(2 * e.diameter), math.Log(math.Max(10*reach*reach, 10*leastVariance)), 0},
	}
	if noiseSought {
		b.high[2] = math.Max(0, math.Log(math.Min(mostNoiseFactor, mostNoise/median(r.noise))))
	}
	return b
}

// dims is the number of parameters that have room to move.
func (b limits) dims() int {
	if b.high[2] > b.low[2] {
		return 3
	}
	return 2
}

// The search runs in t with x = middle + half sin t, which cannot leave the
// bounds and can rest on them (James and Roos 1975, Computer Physics
// Communications 10, 343-367, from memory).

func (b limits) outer(t []float64) Hyper {
	var x [3]float64
	for i, v := range t {
		x[i] = (b.low[i]+b.high[i])/2 + (b.high[i]-b.low[i])/2*math.Sin(v)
	}
	return Hyper{Range: math.Exp(x[0]), Variance: math.Exp(x[1]), NoiseFactor: math.Exp(x[2])}
}

// inner is a start in t, moved off the bounds, where the search cannot stir.
func (b limits) inner(h Hyper) []float64 {
	x := []float64{math.Log(h.Range), math.Log(h.Variance), math.Log(h.NoiseFactor)}
	t := make([]float64, b.dims())
	for i := range t {
		s := (2*x[i] - b.low[i] - b.high[i]) / (b.high[i] - b.low[i])
		t[i] = math.Asin(math.Max(-0.95, math.Min(0.95, s)))
	}
	return t
}

// likelihood is a restricted log-likelihood with its gradient; see reml.value.
type likelihood func(h Hyper, gradient bool) (l float64, d [3]float64, ok bool)

// climb goes up the restricted likelihood from one start with the analytic
// gradient, until a step gains less than gain.
func (of likelihood) climb(b limits, start Hyper, gain float64) (Hyper, float64) {
	var at []float64
	var value float64
	var slope [3]float64
	look := func(t []float64) { // value and gradient come together; keep the last
		if !slices.Equal(t, at) {
			at = append(at[:0], t...)
			value, slope, _ = of(b.outer(t), true)
			if math.IsNaN(value-value) || math.IsNaN(slope[0]+slope[1]+slope[2]) {
				value, slope = hopeless, [3]float64{}
			}
		}
	}
	problem := optimize.Problem{
		Func: func(t []float64) float64 { look(t); return -value },
		Grad: func(g, t []float64) {
			look(t)
			for i := range g {
				g[i] = -slope[i] * (b.high[i] - b.low[i]) / 2 * math.Cos(t[i])
			}
		},
	}
	settings := &optimize.Settings{
		GradientThreshold: math.Sqrt(gain),
		Converger:         &optimize.FunctionConverge{Absolute: gain, Iterations: 2},
		MajorIterations:   50,
		FuncEvaluations:   500,
	}
	t := b.inner(start)
	look(t)
	first := value
	// An error means that the line search could go no further; the best point
	// so far is then the answer.
	result, _ := optimize.Minimize(problem, t, settings, &optimize.BFGS{Linesearcher: &optimize.MoreThuente{}})
	if result == nil || !(-result.F >= first) {
		return b.outer(t), first
	}
	return b.outer(result.X), -result.F
}

// findHyper seeks the hyperparameters of greatest restricted likelihood: from
// several starts on at most coarseHeights heights spread over the plot, and from
// the best of those on more and more of them, up to searchHeights.
func findHyper(r readings, scatter float64, noiseSought bool) (Hyper, limits) {
	some := r.spread(coarseHeights)
	best, b := fromStarts(some, scatter, noiseSought)
	of := likelihood(newREML(some).value)
	for _, count := range []int{middleHeights, searchHeights} {
		if len(some.at) == len(r.at) {
			break
		}
		more := r.spread(count)
		ofMore := likelihood(newREML(more).value)
		to := limitsOf(more, newExtent(more.at), noiseSought)
		best = of.onward(best, ofMore, to, float64(len(more.at))/float64(len(some.at)))
		some, of, b = more, ofMore, to
	}
	return best, b
}

// onward takes the best hyperparameters of some heights up the likelihood of
// more of them.
func (of likelihood) onward(best Hyper, more likelihood, to limits, ratio float64) Hyper {
	x := to.clamped(logsOf(best))
	if m, ok := of.bend(x, to); ok {
		if y, ok := more.polish(to, x, scaled(m, ratio), between); ok {
			return y.hyper()
		}
	}
	best, _ = more.climb(to, best, between)
	return best
}

// fromStarts is a climb from the best of several starts; scatter is the variance of the
// heights about their plane, m2.
func fromStarts(r readings, scatter float64, noiseSought bool) (best Hyper, b limits) {
	e := newExtent(r.at)
	b = limitsOf(r, e, noiseSought)
	return likelihood(newREML(r).value).fromBest(b, e.diameter, scatter), b
}

// fromBest climbs from the best of a few starts: ranges that are shares of a
// diameter, with the variance of the heights about their plane and four times
// that. Only their values are looked at, which cost a fraction of a step uphill.
func (of likelihood) fromBest(b limits, diameter, scatter float64) Hyper {
	scatter = math.Max(scatter, leastVariance)
	best, most := Hyper{Range: diameter / 4, Variance: scatter, NoiseFactor: 1}, math.Inf(-1)
	for _, share := range []float64{0.25, 0.1, 0.8, 0.15, 0.5, 0.06} {
		for _, times := range []float64{1, 4} {
			start := b.clamped(logsOf(Hyper{Range: share * diameter, Variance: times * scatter, NoiseFactor: 1})).hyper()
			if l, _, ok := of(start, false); ok && l > most {
				best, most = start, l
			}
		}
	}
	best, _ = of.climb(b, best, closely)
	return best
}

// findShared seeks the hyperparameters of several grounds together: those of
// greatest sum of their restricted likelihoods, each with a slope of its own.
// The bounds reach over those of all.
func findShared(rs []readings, scatter []float64) Hyper {
	n := 0
	for _, r := range rs {
		n += len(r.at)
	}
	var b limits
	var each []likelihood
	diameter := 0.0
	for i, r := range rs {
		part := r.spread(searchHeights / len(rs))
		e := newExtent(part.at)
		own := limitsOf(part, e, n >= noiseSoughtFrom)
		if i == 0 {
			b = own
		}
		for k := range 3 {
			b.low[k], b.high[k] = math.Min(b.low[k], own.low[k]), math.Max(b.high[k], own.high[k])
		}
		diameter = math.Max(diameter, e.diameter)
		each = append(each, newREML(part).value)
	}
	sum := likelihood(func(h Hyper, gradient bool) (total float64, d [3]float64, ok bool) {
		for _, of := range each {
			l, slope, ok := of(h, gradient)
			if !ok {
				return math.Inf(-1), d, false
			}
			total += l
			for k := range d {
				d[k] += slope[k]
			}
		}
		return total, d, true
	})
	return sum.fromBest(b, diameter, slices.Max(scatter))
}

// atLow and atHigh say that the range came to rest on a bound, to 1 %.
func (b limits) atLow(h Hyper) bool  { return math.Log(h.Range) < b.low[0]+0.01 }
func (b limits) atHigh(h Hyper) bool { return math.Log(h.Range) > b.high[0]-0.01 }

// spread is at most n of the readings, each as far as can be from those chosen
// before it, from the one nearest the middle; ties go to the earlier.
func (r readings) spread(n int) readings {
	if len(r.at) <= n {
		return r
	}
	gap := make([]float64, len(r.at))
	next := 0
	for i, p := range r.at {
		gap[i] = math.Inf(1)
		if planar.Distance(p, orb.Point{}) < planar.Distance(r.at[next], orb.Point{}) {
			next = i
		}
	}
	var out readings
	for len(out.at) < n {
		p := r.at[next]
		out.at = append(out.at, p)
		out.z = append(out.z, r.z[next])
		out.noise = append(out.noise, r.noise[next])
		farthest := 0
		for i, q := range r.at {
			gap[i] = math.Min(gap[i], planar.Distance(p, q))
			if gap[i] > gap[farthest] {
				farthest = i
			}
		}
		next = farthest
	}
	return out
}
