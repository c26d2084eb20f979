package surface

import "github.com/paulmach/orb"

// GradientTold is the covariance of the gradient at a point, as
// GradientCovariance gives it, and whether the heights tell the ground there,
// which is the contrary of Extrapolated: both for hardly more than the price of
// one.
func (f *Fit) GradientTold(p orb.Point) (cov [2][2]float64, told bool) {
	if s, ok := f.Surface.(*Smooth); ok {
		cov, v := s.known(p)
		return cov, !s.vague(p, cov, v)
	}
	return f.GradientCovariance(p), !f.Extrapolated(p)
}
