package rain

import (
	"fmt"

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

// FrequencyOptions are the choices of a frequency analysis; the zero value works.
type FrequencyOptions struct {
	Years   []float64 // return periods, each over 1; default 2, 5, 10, 30 and 100
	Samples int       // of the bootstrap, 999 to 100 000; default 999
	Seed    uint64    // of the bootstrap; default 0, a fixed seed like any other
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
	// Likelihood is the level by maximum likelihood, mm, with 1.96 standard
	// errors by the delta method either way, to set beside the other; zero
	// where it finds no fit.
	Likelihood geodata.Estimate
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
	fit, beside := GEVByLMoments, GEVByLikelihood
	f.Model = "generalised extreme value distribution by L-moments"
	if f.Short {
		fit, beside, f.Model = GumbelByLMoments, GumbelByLikelihood, "Gumbel distribution by L-moments"
		f.note("%d maxima: too few for the generalised extreme value distribution (%d), so Gumbel was fitted", n, LeastGEVBlocks)
	}
	g, err := fit(m)
	if err != nil {
		return Frequency{}, err
	}
	if held := holdShape(g.Shape); held != g.Shape {
		f.noteHeld(g.Shape, held)
		g = gevOfShape(m, -held)
		f.Model += " with the shape held"
	}
	f.Maxima = &g
	bands, err := gevBands(g, n, fit, o)
	if err != nil {
		return Frequency{}, err
	}
	f.levels(o.Years, bands, g.ReturnLevel)
	top, err := beside(maxima)
	for i := range f.Levels {
		l := &f.Levels[i]
		l.Gumbel = gumbel.ReturnLevel(l.Years)
		if err == nil {
			l.Likelihood = normalBand(top.ReturnLevel(l.Years), top.LevelError(l.Years))
		}
	}
	return f, nil
}

// tooFew refuses a record that tells no maxima, and names what serves instead.
func tooFew(what string) error {
	return fmt.Errorf("%s, where the greatest days of %d or more winters are needed to tell how rare a depth is;"+
		" give the 60-minute depth of a published map instead (rain.m5_60_mm in site.toml): %w", what, LeastBlocks, ErrTooFew)
}
