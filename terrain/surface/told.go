package surface

import "github.com/paulmach/orb"

// GradientTold is the covariance of the gradient at a point, as
// GradientCovariance gives it, and whether the heights tell the ground there,
// which is the contrary of Extrapolated: both for hardly more than the price of
// one.
func (f *Fit) GradientTold(p orb.Point) (cov [2][2]float64, told bool) {
	cov = f.GradientCovariance(p)
	if s, ok := f.Surface.(*Smooth); ok {
		return cov, !s.survey.beyond(p, s.HeightCovariance(p, p)) && widest(cov) <= vagueGradient
	}
	return cov, !f.Extrapolated(p)
}
