package rain

import (
	"fmt"
	"math"
	"slices"
)

// PeaksFrequency fits the peaks above a threshold, mm, of a record of so many
// years, and works the levels as MaximaFrequency does. The peaks must be
// independent storms (Record.Peaks). A return period of T years is, as for
// maxima, a chance of 1 in T in each year (BetweenPeaks). A record under 10
// years or under 20 peaks is ErrTooFew; peaks not above the threshold and options
// out of range are ErrRange, and so is a return period with less than one peak in it.
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
		if BetweenPeaks(T)*f.PerYear < 1 {
			return Frequency{}, fmt.Errorf("return period of %g years with %.2f peaks in a year: %w", T, f.PerYear, ErrRange)
		}
	}
	if f.PerYear < 1.5 || f.PerYear > 4 {
		f.note("%.1f peaks in a year: a threshold with 1.5 to 4 is common practice", f.PerYear)
	}
	g, err := f.fitPeaks(peaks, threshold)
	if err != nil {
		return Frequency{}, err
	}
	f.Peaks = &g
	bands, err := gpdBands(g, n, years, o)
	if err != nil {
		return Frequency{}, err
	}
	f.levels(o.Years, bands, func(T float64) float64 { return g.ReturnLevel(BetweenPeaks(T), f.PerYear) })
	if top, err := GPDByLikelihood(peaks, threshold); err == nil {
		for i := range f.Levels {
			T := BetweenPeaks(f.Levels[i].Years)
			f.Levels[i].Likelihood = normalBand(top.ReturnLevel(T, f.PerYear), top.LevelError(T, f.PerYear, int(years*365.25)))
		}
	}
	return f, nil
}

// fitPeaks fits by L-moments, and holds the shape within what is believed.
func (f *Frequency) fitPeaks(peaks []float64, threshold float64) (GPD, error) {
	m, err := SampleLMoments(peaks)
	if err != nil {
		return GPD{}, err
	}
	g, err := GPDByLMoments(m, threshold)
	if err != nil {
		return GPD{}, err
	}
	f.Model = "generalised Pareto distribution by L-moments"
	if held := holdShape(g.Shape); held != g.Shape {
		f.noteHeld(g.Shape, held)
		g = GPD{Threshold: threshold, Scale: (1 - held) * (m.L1 - threshold), Shape: held}
		f.Model += " with the shape held"
	}
	return g, nil
}
