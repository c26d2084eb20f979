package rain

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
)

// ErrNoFit is wrapped where maximum likelihood finds no usable fit.
var ErrNoFit = errors.New("no fit by maximum likelihood")

// GEVFit is a fit by maximum likelihood.
type GEVFit struct {
	GEV
	LogLikelihood float64
	// Covariance of location, scale and shape from the observed information,
	// in the unit of the maxima; zeros for the shape of a Gumbel fit.
	Covariance [3][3]float64
}

// GPDFit is a fit by maximum likelihood.
type GPDFit struct {
	GPD
	N             int // exceedances
	LogLikelihood float64
	Covariance    [2][2]float64 // of scale and shape, from the observed information
}

// GEVByLikelihood fits by maximum likelihood, with standard errors by the
// observed information (Coles 2001, section 3.3). It starts from the exact
// L-moment fit and goes down by the Nelder-Mead simplex. A shape of -1 or less
// is never taken, for there the likelihood has no maximum; of -0.5 or less the
// standard errors are not to be trusted (Smith, Biometrika 72, 1985) and the
// fit is refused. Refusals are ErrNoFit, or those of SampleLMoments.
func GEVByLikelihood(x []float64) (GEVFit, error) {
	m, err := SampleLMoments(x)
	if err != nil {
		return GEVFit{}, err
	}
	start, err := GEVByLMoments(m)
	if err != nil {
		return GEVFit{}, err
	}
	return gevLikelihood(x, start, 3)
}

// GumbelByLikelihood fits the Gumbel distribution as GEVByLikelihood does the
// generalised extreme value distribution.
func GumbelByLikelihood(x []float64) (GEVFit, error) {
	m, err := SampleLMoments(x)
	if err != nil {
		return GEVFit{}, err
	}
	start, err := GumbelByLMoments(m)
	if err != nil {
		return GEVFit{}, err
	}
	return gevLikelihood(x, start, 2)
}

// gevLikelihood adds to the best fit its covariance. Two free parameters leave
// the shape at 0.
func gevLikelihood(x []float64, start GEV, free int) (GEVFit, error) {
	top, err := gevTop(x, start, free, fine)
	if err != nil {
		return GEVFit{}, err
	}
	if top.Shape <= -0.5 {
		return GEVFit{}, fmt.Errorf("shape %.2f is -0.5 or less: %w", top.Shape, ErrNoFit)
	}
	// in the unit of the fit itself, for a step that suits all parameters
	scaled := standard(x, top.Location, top.Scale)
	cost := func(p []float64) float64 { return gevCost(scaled, p) }
	at := []float64{0, 1, top.Shape}[:free]
	cov, err := inverseCurvature(cost, at)
	if err != nil {
		return GEVFit{}, err
	}
	// the density goes with one over the unit
	fit := GEVFit{GEV: top, LogLikelihood: -cost(at) - float64(len(x))*math.Log(top.Scale)}
	unit := [3]float64{top.Scale, top.Scale, 1}
	for i := range free {
		for j := range free {
			fit.Covariance[i][j] = cov.At(i, j) * unit[i] * unit[j]
		}
	}
	return fit, nil
}

// gevTop finds the top of the likelihood, on maxima freed of place and unit by
// the starting fit.
func gevTop(x []float64, start GEV, free int, until optimize.FunctionConverge) (GEV, error) {
	scaled := standard(x, start.Location, start.Scale)
	cost := func(p []float64) float64 { return gevCost(scaled, p) }
	first := []float64{0, 1, math.Max(start.Shape, -0.45)}[:free]
	for !finite(cost(first)) && first[1] < 1e3 { // a maximum past the bound of the first fit
		first[1] *= 1.25
	}
	p, err := lowest(cost, first, until)
	if err != nil {
		return GEV{}, err
	}
	return GEV{Location: start.Location + start.Scale*p[0], Scale: start.Scale * p[1], Shape: shapeOf(p)}, nil
}

// standard takes a place off values and divides them by a unit.
func standard(x []float64, place, unit float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = (v - place) / unit
	}
	return out
}

// shapeOf is the shape among location, scale and shape, 0 where it is left out.
func shapeOf(p []float64) float64 {
	if len(p) == 3 {
		return p[2]
	}
	return 0
}

// gevCost is the negative log-likelihood for location, scale and shape (Coles
// 2001, equations 3.7 and 3.9), infinite outside the range of the parameters.
// The logarithm and the exponential take the place of two powers; near shape 0
// the series of log(1+s z)/s to the second order bridges the Gumbel case
// smoothly, with an error of s^3 z^4/4 that is under 1e-13 for z to 10.
func gevCost(x, p []float64) float64 {
	scale, shape := p[1], shapeOf(p)
	if !(scale > 0) || shape <= -1 {
		return math.Inf(1)
	}
	sum := float64(len(x)) * math.Log(scale)
	for _, v := range x {
		z := (v - p[0]) / scale
		y := z * (1 - shape*z/2*(1-shape*z*2/3))
		if math.Abs(shape) >= nearGumbel {
			t := 1 + shape*z
			if t <= 0 {
				return math.Inf(1)
			}
			y = math.Log(t) / shape
		}
		sum += (1+shape)*y + math.Exp(-y)
	}
	return sum
}

// GPDByLikelihood fits the values of x that lie above the threshold by maximum
// likelihood, with standard errors by the observed information (Coles 2001,
// section 4.3.2), in the way of GEVByLikelihood and with its refusals. Values
// at or below the threshold are ErrRange.
func GPDByLikelihood(x []float64, threshold float64) (GPDFit, error) {
	m, err := SampleLMoments(x)
	if err != nil {
		return GPDFit{}, err
	}
	start, err := GPDByLMoments(m, threshold)
	if err != nil {
		return GPDFit{}, err
	}
	if low := slices.Min(x); low <= threshold {
		return GPDFit{}, fmt.Errorf("%g is not above the threshold of %g: %w", low, threshold, ErrRange)
	}
	top, err := gpdTop(x, start, fine)
	if err != nil {
		return GPDFit{}, err
	}
	if top.Shape <= -0.5 {
		return GPDFit{}, fmt.Errorf("shape %.2f is -0.5 or less: %w", top.Shape, ErrNoFit)
	}
	scaled := standard(x, threshold, top.Scale)
	cost := func(p []float64) float64 { return gpdCost(scaled, p) }
	at := []float64{1, top.Shape}
	cov, err := inverseCurvature(cost, at)
	if err != nil {
		return GPDFit{}, err
	}
	s := top.Scale
	return GPDFit{
		GPD:           top,
		N:             len(x),
		LogLikelihood: -cost(at) - float64(len(x))*math.Log(s),
		Covariance: [2][2]float64{
			{cov.At(0, 0) * s * s, cov.At(0, 1) * s},
			{cov.At(1, 0) * s, cov.At(1, 1)},
		},
	}, nil
}

// gpdTop finds the top of the likelihood in the way of gevTop.
func gpdTop(x []float64, start GPD, until optimize.FunctionConverge) (GPD, error) {
	scaled := standard(x, start.Threshold, start.Scale)
	cost := func(p []float64) float64 { return gpdCost(scaled, p) }
	first := []float64{1, math.Max(start.Shape, -0.45)}
	for !finite(cost(first)) && first[0] < 1e3 {
		first[0] *= 1.25
	}
	p, err := lowest(cost, first, until)
	if err != nil {
		return GPD{}, err
	}
	return GPD{Threshold: start.Threshold, Scale: start.Scale * p[0], Shape: p[1]}, nil
}

// gpdCost is the negative log-likelihood for scale and shape (Coles 2001,
// equations 4.10 and 4.11), infinite outside the range of the parameters.
func gpdCost(x, p []float64) float64 {
	scale, shape := p[0], p[1]
	if !(scale > 0) || shape <= -1 {
		return math.Inf(1)
	}
	sum := float64(len(x)) * math.Log(scale)
	for _, v := range x {
		z := v / scale
		y := z * (1 - shape*z/2*(1-shape*z*2/3))
		if math.Abs(shape) >= nearGumbel {
			t := 1 + shape*z
			if t <= 0 {
				return math.Inf(1)
			}
			y = math.Log(t) / shape
		}
		sum += (1 + shape) * y
	}
	return sum
}

// How far down the simplex goes: until the log-likelihood has gained less than
// this in so many rounds. Coarse is for the samples of a bootstrap, where 0.0001
// is about a hundredth of a standard error of a parameter.
var (
	fine   = optimize.FunctionConverge{Absolute: 1e-10, Iterations: 25}
	coarse = optimize.FunctionConverge{Absolute: 1e-4, Iterations: 6}
)

// lowest goes down from a point by the simplex. It is deterministic.
func lowest(cost func([]float64) float64, first []float64, until optimize.FunctionConverge) ([]float64, error) {
	if !finite(cost(first)) {
		return nil, fmt.Errorf("no start: %w", ErrNoFit)
	}
	settings := &optimize.Settings{
		FuncEvaluations: 2000,
		Converger:       &until,
	}
	r, err := optimize.Minimize(optimize.Problem{Func: cost}, first, settings, &optimize.NelderMead{SimplexSize: 0.1})
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoFit, err)
	}
	if r.Status != optimize.FunctionConvergence || !finite(r.F) {
		return nil, fmt.Errorf("the search did not settle: %w", ErrNoFit)
	}
	return r.X, nil
}

// inverseCurvature is the inverse of the matrix of second derivatives, which
// is the observed information where cost is a negative log-likelihood.
func inverseCurvature(cost func([]float64) float64, at []float64) (*mat.SymDense, error) {
	n := len(at)
	h := mat.NewSymDense(n, nil)
	fd.Hessian(h, cost, at, &fd.Settings{Formula: fd.Central, Step: 1e-4})
	var c mat.Cholesky
	if !c.Factorize(h) {
		return nil, fmt.Errorf("the likelihood has no sharp top: %w", ErrNoFit)
	}
	inv := mat.NewSymDense(n, nil)
	if err := c.InverseTo(inv); err != nil {
		return nil, fmt.Errorf("the likelihood is too flat: %w", ErrNoFit)
	}
	return inv, nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
