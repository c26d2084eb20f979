package rain

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
)

// ErrNoFit is wrapped where maximum likelihood finds no usable fit.
var ErrNoFit = errors.New("no fit by maximum likelihood")

// standard takes a place off values and divides them by a unit.
func standard(x []float64, place, unit float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = (v - place) / unit
	}
	return out
}

// reduced is log(1 + shape z)/shape, by its series to the third power of z where
// shape is near 0 (the error is under 3e-12 for z to 10), and not a number where
// z is outside the range of the distribution.
func reduced(z, shape float64) float64 {
	if math.Abs(shape) < nearGumbel {
		return z * (1 - shape*z/2*(1-shape*z*2/3))
	}
	return math.Log(1+shape*z) / shape
}

// orInfinite keeps what is not a number from the simplex.
func orInfinite(cost float64) float64 {
	if math.IsNaN(cost) {
		return math.Inf(1)
	}
	return cost
}

// settled is how far down the simplex goes: until the log-likelihood has gained
// less than this in so many rounds.
var settled = optimize.FunctionConverge{Absolute: 1e-10, Iterations: 25}

// lowest goes down from a point by the simplex. It is deterministic.
func lowest(cost func([]float64) float64, first []float64) ([]float64, error) {
	if !finite(cost(first)) {
		return nil, fmt.Errorf("no start: %w", ErrNoFit)
	}
	until := settled // it keeps count
	settings := &optimize.Settings{FuncEvaluations: 2000, Converger: &until}
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
