package rain

import (
	"fmt"
	"math"
)

// GEVFit is a fit by maximum likelihood.
type GEVFit struct {
	GEV
	LogLikelihood float64
	// Covariance of location, scale and shape from the observed information,
	// in the unit of the maxima; zeros for the shape of a Gumbel fit.
	Covariance [3][3]float64
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
	top, err := gevTop(x, start, free)
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
func gevTop(x []float64, start GEV, free int) (GEV, error) {
	scaled := standard(x, start.Location, start.Scale)
	cost := func(p []float64) float64 { return gevCost(scaled, p) }
	first := []float64{0, 1, math.Max(start.Shape, -0.45)}[:free]
	for !finite(cost(first)) && first[1] < 1e3 { // a maximum past the bound of the first fit
		first[1] *= 1.25
	}
	p, err := lowest(cost, first)
	if err != nil {
		return GEV{}, err
	}
	return GEV{Location: start.Location + start.Scale*p[0], Scale: start.Scale * p[1], Shape: shapeOf(p)}, nil
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
func gevCost(x, p []float64) float64 {
	scale, shape := p[1], shapeOf(p)
	if !(scale > 0) || shape <= -1 {
		return math.Inf(1)
	}
	sum := float64(len(x)) * math.Log(scale)
	for _, v := range x {
		y := reduced((v-p[0])/scale, shape)
		sum += (1+shape)*y + math.Exp(-y)
	}
	return orInfinite(sum)
}
