package rain

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// ErrTooFew is wrapped by every refusal of a record that is too short.
var ErrTooFew = errors.New("record too short")

// LMoments are the sample L-moments of a record: the measures of place, spread
// and lean from which the distributions of extremes are fitted.
type LMoments struct {
	N      int
	L1, L2 float64 // mean and L-scale, in the unit of the record
	T3, T4 float64 // L-skewness and L-kurtosis, ratios within -1 to 1
}

// SampleLMoments works the unbiased sample L-moments by the probability-weighted
// moments b0 to b3 (Hosking, Journal of the Royal Statistical Society B 52,
// 1990; Hosking & Wallis, Regional Frequency Analysis, 1997; from memory). The
// order of x is free and x is left as it was. Fewer than four values are
// ErrTooFew; values that are not finite, or all equal, are ErrRange.
func SampleLMoments(x []float64) (LMoments, error) {
	if len(x) < 4 {
		return LMoments{}, fmt.Errorf("%d values, four are needed: %w", len(x), ErrTooFew)
	}
	s := slices.Clone(x)
	slices.Sort(s) // a value that is not a number sorts first
	if math.IsNaN(s[0]) || math.IsInf(s[0], -1) || math.IsInf(s[len(s)-1], 1) {
		return LMoments{}, fmt.Errorf("a value that is not a finite number: %w", ErrRange)
	}
	if s[0] == s[len(s)-1] {
		return LMoments{}, fmt.Errorf("all %d values are %g: %w", len(s), s[0], ErrRange)
	}
	return sortedLMoments(s), nil
}

// sortedLMoments does the sums for at least four ascending, finite values.
func sortedLMoments(s []float64) LMoments {
	n := float64(len(s))
	var b [4]float64
	for i, v := range s {
		j := float64(i)
		w := v / n
		for r := range b {
			b[r] += w
			w *= (j - float64(r)) / (n - 1 - float64(r))
		}
	}
	l2 := 2*b[1] - b[0]
	return LMoments{
		N:  len(s),
		L1: b[0],
		L2: l2,
		T3: (6*b[2] - 6*b[1] + b[0]) / l2,
		T4: (20*b[3] - 30*b[2] + 12*b[1] - b[0]) / l2,
	}
}
