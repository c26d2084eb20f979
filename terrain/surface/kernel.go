package surface

import "math"

// Hyper are the hyperparameters of a smooth surface: the height of the ground
// about its general slope is a Gaussian process with covariance
// Variance * k(h) over a distance h.
type Hyper struct {
	Range    float64 // m, over 0
	Variance float64 // m2, over 0
	// NoiseFactor multiplies the variance of every reading; at least 1, and
	// over 1 only where many heights scatter more than their stated errors.
	// Default 0 means 1.
	NoiseFactor float64
}

// The Matern kernel of smoothness 5/2 (Rasmussen and Williams 2006, Gaussian
// Processes for Machine Learning, equation 4.17): with u = sqrt5 h / range,
// k = (1 + u + u^2/3) e^-u. Ground under it has a gradient and a curvature.

// kernel is Variance * k at distance d and bend its derivative by ln Range,
// Variance * (u^2/3)(1 + u) e^-u.
func (h Hyper) kernel(d float64) (k, bend float64) {
	u := math.Sqrt(5) * d / h.Range
	e := h.Variance * math.Exp(-u)
	third := u * u / 3
	return (1 + u + third) * e, third * (1 + u) * e
}

// kernelSlope is what the step from a height to the point asked is multiplied
// by to give the derivative of the kernel at that point:
// -(5 Variance / (3 Range^2)) (1 + u) e^-u.
func (h Hyper) kernelSlope(d float64) float64 {
	u := math.Sqrt(5) * d / h.Range
	return -h.gradientVariance() * (1 + u) * math.Exp(-u)
}

// gradientVariance is the variance of the process's gradient in any direction,
// minus the second derivative of the kernel at 0: 5 Variance / (3 Range^2).
func (h Hyper) gradientVariance() float64 { return 5 * h.Variance / (3 * h.Range * h.Range) }
