package rain

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

const (
	leastSamples    = 999 // so that 2.5 % of (samples + 1) is a whole number
	greatestSamples = 100_000
)

// resolved puts the defaults in and refuses what is out of range.
func (o FrequencyOptions) resolved() (FrequencyOptions, error) {
	if len(o.Years) == 0 {
		o.Years = []float64{2, 5, 10, 30, 100}
	}
	for _, T := range o.Years {
		if !(T > 1 && T <= 1e6) {
			return o, fmt.Errorf("return period of %g years, not over 1: %w", T, ErrRange)
		}
	}
	if o.Samples == 0 {
		o.Samples = leastSamples
	}
	if o.Samples < leastSamples || o.Samples > greatestSamples {
		return o, fmt.Errorf("%d bootstrap samples, not %d to %d: %w", o.Samples, leastSamples, greatestSamples, ErrRange)
	}
	return o, nil
}

// band is the spread of one level over the samples of the bootstrap.
type band struct{ low95, low80, high80, high95 float64 }

// gevBands draws samples of n maxima from the fit, fits each in the same way
// and takes the percentiles of the levels. The shape is not held here, so that
// the bands stay wide.
func gevBands(g GEV, n int, fit func(LMoments) (GEV, error), o FrequencyOptions) ([]band, error) {
	rng := rand.New(rand.NewPCG(o.Seed, 0x9e3779b97f4a7c15))
	x := make([]float64, n)
	return percentiles(o, func(levels []float64) error {
		for i := range x {
			x[i] = g.Quantile(openUniform(rng))
		}
		m, err := SampleLMoments(x)
		if err != nil {
			return err
		}
		sample, err := fit(m)
		for i, T := range o.Years {
			levels[i] = sample.ReturnLevel(T)
		}
		return err
	})
}

// gpdBands does the same for peaks. Their number is drawn too, as a Poisson
// number, since how often the threshold is passed is itself uncertain.
func gpdBands(g GPD, n int, years float64, o FrequencyOptions) ([]band, error) {
	src := rand.NewPCG(o.Seed, 0x9e3779b97f4a7c15)
	rng := rand.New(src)
	count := distuv.Poisson{Lambda: float64(n), Src: src}
	return percentiles(o, func(levels []float64) error {
		x := make([]float64, int(count.Rand()))
		for i := range x {
			x[i] = g.Quantile(openUniform(rng))
		}
		m, err := SampleLMoments(x)
		if err != nil {
			return err
		}
		sample, err := GPDByLMoments(m, g.Threshold)
		perYear := float64(len(x)) / years
		for i, T := range o.Years {
			levels[i] = g.Threshold // where the sample has less than one peak in T years
			if T := BetweenPeaks(T); T*perYear >= 1 {
				levels[i] = sample.ReturnLevel(T, perYear)
			}
		}
		return err
	})
}

// openUniform is a number between 0 and 1, neither of them.
func openUniform(rng *rand.Rand) float64 { return (float64(rng.Uint64N(1<<52)) + 0.5) / (1 << 52) }

// percentiles collects the levels of all samples. A sample that cannot be
// fitted is drawn anew; more than one in ten of these and there is no band.
func percentiles(o FrequencyOptions, sample func(levels []float64) error) ([]band, error) {
	all := make([][]float64, len(o.Years))
	levels := make([]float64, len(o.Years))
	for done, failed := 0, 0; done < o.Samples; {
		switch err := sample(levels); {
		case err == nil:
			for i, v := range levels {
				all[i] = append(all[i], v)
			}
			done++
		case errors.Is(err, ErrRange), errors.Is(err, ErrTooFew):
			if failed++; failed > o.Samples/10 {
				return nil, fmt.Errorf("bands: over one sample in ten has no fit: %w", err)
			}
		default:
			return nil, err
		}
	}
	out := make([]band, len(all))
	for i, v := range all {
		slices.Sort(v)
		out[i] = band{percentile(v, 0.025), percentile(v, 0.10), percentile(v, 0.90), percentile(v, 0.975)}
	}
	return out, nil
}

// percentile reads sorted values at the place p (n + 1), between two of them
// linearly (Davison & Hinkley, Bootstrap Methods and their Application, 1997).
func percentile(sorted []float64, p float64) float64 {
	at := p*float64(len(sorted)+1) - 1
	i := min(max(int(math.Floor(at)), 0), len(sorted)-2)
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}
