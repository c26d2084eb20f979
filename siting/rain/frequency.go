package rain

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
)

// How long a record must be. Common practice has 20 years for a distribution
// with three parameters and 10 for one with two; 20 peaks are a default of ours.
const (
	LeastBlocks    = 10 // years of maxima for the Gumbel distribution
	LeastGEVBlocks = 20 // years of maxima for the generalised extreme value distribution
	LeastPeakYears = 10 // years of record for peaks over a threshold
	LeastPeaks     = 20 // peaks over a threshold
)

// Shapes that are believed of daily rain, a default of ours: few long records
// have a fitted one outside them, and a bound or a heavy tail drawn from some
// tens of years is mostly chance.
const (
	leastShape    = -0.30
	greatestShape = 0.35
)

// beyondTimes is how many times the length of the record a return period may
// be before it counts as extrapolated; a default of ours.
const beyondTimes = 4

// FrequencyOptions are the choices of a frequency analysis; the zero value works.
type FrequencyOptions struct {
	Years      []float64 // return periods, each over 1; default 2, 5, 10, 30 and 100
	Likelihood bool      // fit by maximum likelihood; default by L-moments
	Samples    int       // of the bootstrap, 999 to 100 000; default 999
	Seed       uint64    // of the bootstrap; default 0, a fixed seed like any other
}

// Frequency says how rare which depth is.
type Frequency struct {
	Model   string   // the distribution and how it was fitted, in words
	Maxima  *GEV     // the fit to maxima of years or winters; nil for peaks
	Peaks   *GPD     // the fit to peaks over a threshold; nil for maxima
	PerYear float64  // peaks in a year, 0 for maxima
	Values  int      // maxima or peaks that were fitted
	Length  float64  // years (or winters) of record
	Levels  []Level  // in the order of the return periods asked for
	Notes   []string // what a reader must know before using the levels
	Samples int      // bootstrap samples behind the bands
	Seed    uint64
	Short   bool // true when the record was too short for three parameters
}

// Level is the depth of one return period.
type Level struct {
	Years  float64          // return period
	Depth  geodata.Estimate // mm, with the 95 % band of the bootstrap
	Low80  float64          // mm, the 80 % band of the bootstrap
	High80 float64
	// Gumbel is the level by the Gumbel distribution, mm, to set beside the
	// other; 0 for peaks over a threshold.
	Gumbel float64
	// Extrapolated is true where the return period is over four times the
	// length of the record.
	Extrapolated bool
}

// MaximaFrequency fits the greatest depths of years or of winters, mm, one for
// each in any order, and works the levels of the return periods with their
// bands by a parametric bootstrap (Efron & Tibshirani, An Introduction to the
// Bootstrap, 1993). From 20 maxima on the generalised extreme value
// distribution is fitted, from 10 to 19 Gumbel, fewer are ErrTooFew. A shape
// outside -0.30 to 0.35 is brought to that limit with a note. Depths that are
// negative or not finite, all alike, and options out of range are ErrRange.
func MaximaFrequency(maxima []float64, o FrequencyOptions) (Frequency, error) {
	o, err := o.resolved()
	if err != nil {
		return Frequency{}, err
	}
	n := len(maxima)
	if n < LeastBlocks {
		return Frequency{}, tooFew(fmt.Sprintf("%d maxima", n))
	}
	for _, v := range maxima {
		if !depthOK(v) {
			return Frequency{}, fmt.Errorf("a greatest depth of %g mm: %w", v, ErrRange)
		}
	}
	m, err := SampleLMoments(maxima)
	if err != nil {
		return Frequency{}, err
	}
	gumbel, err := GumbelByLMoments(m)
	if err != nil {
		return Frequency{}, err
	}
	f := Frequency{Values: n, Length: float64(n), Samples: o.Samples, Seed: o.Seed, Short: n < LeastGEVBlocks}
	fit := gevEstimator{free: 3, likelihood: o.Likelihood, until: fine}
	if f.Short {
		fit.free = 2
		f.note("%d maxima: too few for the generalised extreme value distribution (%d), so Gumbel was fitted", n, LeastGEVBlocks)
	}
	g, fit, err := f.fitMaxima(maxima, m, fit)
	if err != nil {
		return Frequency{}, err
	}
	f.Maxima = &g
	bands, err := gevBands(g, n, fit, o)
	if err != nil {
		return Frequency{}, err
	}
	f.levels(o.Years, bands, g.ReturnLevel)
	for i := range f.Levels {
		f.Levels[i].Gumbel = gumbel.ReturnLevel(f.Levels[i].Years)
	}
	return f, nil
}

// fitMaxima fits, and holds the shape within what is believed. The estimator
// comes back as it was used, for the samples of the bootstrap.
func (f *Frequency) fitMaxima(maxima []float64, m LMoments, fit gevEstimator) (GEV, gevEstimator, error) {
	g, err := fit.of(maxima)
	if fit.likelihood && errors.Is(err, ErrNoFit) {
		f.note(noLikelihood)
		fit.likelihood = false
		g, err = fit.of(maxima)
	}
	if err != nil {
		return GEV{}, fit, err
	}
	model := "generalised extreme value distribution by "
	if fit.free == 2 {
		model = "Gumbel distribution by "
	}
	f.Model = model + fitWords(fit.likelihood)
	if held := holdShape(g.Shape); held != g.Shape {
		f.noteHeld(g.Shape, held)
		fit.likelihood = false
		g, f.Model = gevOfShape(m, -held), model+"L-moments with the shape held"
	}
	return g, fit, nil
}

const noLikelihood = "maximum likelihood found no fit, so L-moments were used"

func fitWords(likelihood bool) string {
	if likelihood {
		return "maximum likelihood"
	}
	return "L-moments"
}

// PeaksFrequency fits the peaks above a threshold, mm, of a record of so many
// years, and works the levels as MaximaFrequency does. The peaks must be
// independent storms (Record.Peaks). A record under 10 years or under 20 peaks
// is ErrTooFew; peaks not above the threshold and options out of range are
// ErrRange, and so is a return period with less than one peak in it. A level
// here is passed once in T years on average; for the return period of annual
// maxima see AnnualReturnPeriod.
func PeaksFrequency(peaks []float64, threshold, years float64, o FrequencyOptions) (Frequency, error) {
	o, err := o.resolved()
	if err != nil {
		return Frequency{}, err
	}
	n := len(peaks)
	if !(years >= LeastPeakYears) || n < LeastPeaks {
		return Frequency{}, fmt.Errorf("%d peaks in %.1f years, where %d peaks in %d years are the least: %w",
			n, years, LeastPeaks, LeastPeakYears, ErrTooFew)
	}
	if math.IsInf(years, 1) || !(slices.Min(peaks) > threshold && threshold >= 0) {
		return Frequency{}, fmt.Errorf("peaks from %g mm over a threshold of %g mm: %w", slices.Min(peaks), threshold, ErrRange)
	}
	f := Frequency{Values: n, Length: years, PerYear: float64(n) / years, Samples: o.Samples, Seed: o.Seed}
	for _, T := range o.Years {
		if T*f.PerYear < 1 {
			return Frequency{}, fmt.Errorf("return period of %g years with %.2f peaks in a year: %w", T, f.PerYear, ErrRange)
		}
	}
	if f.PerYear < 1.5 || f.PerYear > 4 {
		f.note("%.1f peaks in a year: a threshold with 1.5 to 4 is common practice", f.PerYear)
	}
	g, fit, err := f.fitPeaks(peaks, threshold, o.Likelihood)
	if err != nil {
		return Frequency{}, err
	}
	f.Peaks = &g
	bands, err := gpdBands(g, n, years, fit, o)
	if err != nil {
		return Frequency{}, err
	}
	f.levels(o.Years, bands, func(T float64) float64 { return g.ReturnLevel(T, f.PerYear) })
	return f, nil
}

// fitPeaks does for peaks what fitMaxima does for maxima.
func (f *Frequency) fitPeaks(peaks []float64, threshold float64, likelihood bool) (GPD, gpdEstimator, error) {
	fit := gpdEstimator{threshold: threshold, likelihood: likelihood, until: fine}
	g, err := fit.of(peaks)
	if likelihood && errors.Is(err, ErrNoFit) {
		f.note(noLikelihood)
		fit.likelihood = false
		g, err = fit.of(peaks)
	}
	if err != nil {
		return GPD{}, fit, err
	}
	const model = "generalised Pareto distribution by "
	f.Model = model + fitWords(fit.likelihood)
	if held := holdShape(g.Shape); held != g.Shape {
		f.noteHeld(g.Shape, held)
		fit.likelihood = false
		m := mean(peaks)
		g = GPD{Threshold: threshold, Scale: (1 - held) * (m - threshold), Shape: held}
		f.Model = model + "L-moments with the shape held"
	}
	return g, fit, nil
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// holdShape brings a shape to what is believed of daily rain.
func holdShape(shape float64) float64 { return math.Min(math.Max(shape, leastShape), greatestShape) }

func (f *Frequency) noteHeld(shape, held float64) {
	tail := "an upper bound drawn from so few years makes rare storms too small"
	if shape > held {
		tail = "so heavy a tail drawn from so few years makes rare storms too great"
	}
	f.note("fitted shape %.2f was brought to %.2f: %s", shape, held, tail)
}

func (f *Frequency) note(format string, args ...any) {
	f.Notes = append(f.Notes, fmt.Sprintf(format, args...))
}

// levels puts levels and bands together. A band that chance has moved off its
// level is stretched to hold it, and no depth is under 0.
func (f *Frequency) levels(years []float64, bands []band, level func(float64) float64) {
	beyond := math.Inf(1)
	for i, T := range years {
		v, b := math.Max(0, level(T)), bands[i]
		l := Level{
			Years: T, Extrapolated: T > beyondTimes*f.Length,
			Depth: geodata.Estimate{Value: v, Low: math.Max(0, math.Min(b.low95, v)), High: math.Max(b.high95, v)},
			Low80: math.Max(0, math.Min(b.low80, v)), High80: math.Max(b.high80, v),
		}
		f.Levels = append(f.Levels, l)
		if l.Extrapolated {
			beyond = math.Min(beyond, T)
		}
	}
	if !math.IsInf(beyond, 1) {
		f.note("from once in %g years on the depths are extrapolated: over four times the %.0f years of record", beyond, f.Length)
	}
}

// tooFew refuses a record that tells no maxima, and names what serves instead.
func tooFew(what string) error {
	return fmt.Errorf("%s, where the greatest days of %d or more winters are needed to tell how rare a depth is;"+
		" give the 60-minute depth of a published map instead (rain.m5_60_mm in site.toml): %w", what, LeastBlocks, ErrTooFew)
}
