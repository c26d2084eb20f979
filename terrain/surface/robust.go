package surface

import "math"

// Constants that give 95 % efficiency at normal errors (Holland and Welsch
// 1977, Communications in Statistics A6, 813-827, from memory).
const (
	huberK = 1.345
	tukeyC = 4.685
)

// tukey is the weights of a robust fit by iteratively reweighted least squares
// with Tukey's biweight, started from Huber's weights; the scale of a residual
// is its stated standard deviation. It serves to find mis-booked heights, not
// to fit the ground. ok is false when the weighted fit breaks down.
func (f *fitting) tukey(terms int) (weight []float64, ok bool) {
	weight = make([]float64, len(f.at))
	for i := range weight {
		weight[i] = 1
	}
	huber := func(u float64) float64 { return math.Min(1, huberK/u) }
	biweight := func(u float64) float64 {
		v := math.Max(0, 1-(u/tukeyC)*(u/tukeyC))
		return v * v
	}
	for _, psi := range []func(float64) float64{huber, biweight} {
		if !f.reweight(terms, weight, psi) {
			return nil, false
		}
	}
	return weight, true
}

// reweight repeats fit and weights until they settle. The weights decide only
// which heights get none, so a loose end is enough.
func (f *fitting) reweight(terms int, weight []float64, psi func(float64) float64) bool {
	const passes, settled = 50, 1e-4
	for range passes {
		l, ok := fitLinear(f.survey, terms, weight)
		if !ok {
			return false
		}
		change := 0.0
		for i, r := range l.residuals {
			w := psi(math.Abs(r) / f.sigma[i])
			change = math.Max(change, math.Abs(w-weight[i]))
			weight[i] = w
		}
		if change < settled {
			break
		}
	}
	return true
}

// without is the model fitted to the heights not in set, which is in order.
func (f *fitting) without(set []int, terms int) (*linear, bool) {
	return fitLinear(f.withoutHeights(set), terms, nil)
}
