package rain

import (
	"fmt"
	"math"
)

// GPD is the generalised Pareto distribution of what passes a threshold, with
// shape in the sign of Coles (2001): over 0 a heavy tail, under 0 an upper
// bound, 0 the exponential distribution.
type GPD struct {
	Threshold float64 // in the unit of the record
	Scale     float64 // in the unit of the record, over 0
	Shape     float64
}

// Quantile is the value that an exceedance does not pass with probability p;
// NaN unless 0 <= p < 1.
func (g GPD) Quantile(p float64) float64 {
	if !(p >= 0 && p < 1) {
		return math.NaN()
	}
	return g.Threshold + g.excess(-math.Log1p(-p))
}

// ReturnLevel is the value passed once in so many years on average where
// perYear exceedances of the threshold come in a year: u + (scale/shape)
// ((years perYear)^shape - 1) (Coles 2001, section 4.3). It is NaN where fewer
// than one exceedance is to be expected, since the fit says nothing below its
// threshold.
func (g GPD) ReturnLevel(years, perYear float64) float64 {
	if !(years*perYear >= 1) {
		return math.NaN()
	}
	return g.Threshold + g.excess(math.Log(years*perYear))
}

// excess is the height above the threshold at an exponential reduced variate.
func (g GPD) excess(y float64) float64 {
	if math.Abs(g.Shape) < 1e-9 {
		return g.Scale * y
	}
	return g.Scale * math.Expm1(g.Shape*y) / g.Shape
}

// GPDByLMoments fits the excesses over a known threshold by the first two
// L-moments of the values: k = (l1 - u)/l2 - 2, scale (1 + k)(l1 - u), shape -k
// (Hosking & Wallis, Technometrics 29, 1987; from memory). A mean not above the
// threshold is ErrRange.
func GPDByLMoments(m LMoments, threshold float64) (GPD, error) {
	if err := m.check(); err != nil {
		return GPD{}, err
	}
	over := m.L1 - threshold
	if !(over > 0) || math.IsInf(over, 1) || over <= m.L2 {
		return GPD{}, fmt.Errorf("values with mean %g and L-scale %g do not lie above a threshold of %g: %w",
			m.L1, m.L2, threshold, ErrRange)
	}
	k := over/m.L2 - 2
	return GPD{Threshold: threshold, Scale: (1 + k) * over, Shape: -k}, nil
}

// BetweenPeaks is the mean time between peaks over a level, years, that has a
// chance of 1 in T of being passed in each year: -1/ln(1 - 1/T), for peaks that
// come as a Poisson process (Langbein 1949). It is half a year less than T from
// about 5 years on. T is over 1.
func BetweenPeaks(T float64) float64 { return -1 / math.Log1p(-1/T) }
