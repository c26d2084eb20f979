package rain

import (
	"fmt"
	"math"
	"slices"
)

// GPDFit is a fit by maximum likelihood.
type GPDFit struct {
	GPD
	N             int // exceedances
	LogLikelihood float64
	Covariance    [2][2]float64 // of scale and shape, from the observed information
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
	top, err := gpdTop(x, start)
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
func gpdTop(x []float64, start GPD) (GPD, error) {
	scaled := standard(x, start.Threshold, start.Scale)
	cost := func(p []float64) float64 { return gpdCost(scaled, p) }
	first := []float64{1, math.Max(start.Shape, -0.45)}
	for !finite(cost(first)) && first[0] < 1e3 {
		first[0] *= 1.25
	}
	p, err := lowest(cost, first)
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
		sum += (1 + shape) * reduced(v/scale, shape)
	}
	return orInfinite(sum)
}
