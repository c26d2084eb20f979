package surface

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"gonum.org/v1/gonum/mat"

	"crossfall/terrain"
)

// ThinPlate is a thin-plate smoothing spline: the surface that weighs its sum
// of squared residuals over n against Lambda times its bending (Wahba 1990,
// Spline Models for Observational Data, chapters 2 and 4, from memory). It
// takes no reading error and gives none: it is the second opinion on a smooth
// surface.
type ThinPlate struct {
	Lambda float64 // m4 in metres of the plot
	// Freedom is the effective number of parameters, 3 for a plane, up to the
	// number of heights.
	Freedom float64
	// Score is the generalised cross-validation n |z - f|^2 / (n - Freedom)^2, m2.
	Score   float64
	LeftOut []float64 // each height less the surface of the others, m
	survey  *survey
	c       []float64  // weights of the heights' kernels
	d       [3]float64 // plane, from the survey's origin
}

// Limits of the thin plate, defaults of ours.
const (
	mostForPlate  = 500 // heights: the work grows with their cube
	lambdaLow     = 1e-6
	lambdaHigh    = 1e6
	lambdaSteps   = 121 // of the search, evenly in the logarithm
	mostOfFreedom = 0.5 // of the number of heights, in the search
)

// bending is the thin-plate kernel h^2 ln h / (8 pi), 0 at 0.
func bending(h float64) float64 {
	if h == 0 {
		return 0
	}
	return h * h * math.Log(h) / (8 * math.Pi)
}

// plate is a thin plate made ready for any Lambda: with the planes taken out by
// Q, the other columns of T = QR, Q'EQ = V diag(e) V'.
type plate struct {
	survey *survey
	e      []float64  // eigenvalues
	basis  *mat.Dense // Q V, n by n-3
	z      []float64  // (Q V)'z
	kernel *mat.SymDense
	qr     mat.QR
}

// newPlate makes a thin plate ready for 4 to 500 heights, which count alike
// whatever their Sigma.
func newPlate(s *survey) (*plate, error) {
	n := len(s.at)
	if n < 4 || n > mostForPlate {
		return nil, fmt.Errorf("%w: %d given, a thin plate takes 4 to %d", ErrTooFewHeights, n, mostForPlate)
	}
	p := &plate{survey: s, kernel: mat.NewSymDense(n, nil)}
	t := mat.NewDense(n, 3, nil)
	for i, a := range s.at {
		t.SetRow(i, []float64{1, a[0], a[1]})
		for j := range i {
			p.kernel.SetSym(i, j, bending(planar.Distance(a, s.at[j])))
		}
	}
	p.qr.Factorize(t)
	var q mat.Dense
	p.qr.QTo(&q)
	rest := q.Slice(0, n, 3, n)
	var eq, inner mat.Dense
	eq.Mul(p.kernel, rest)
	inner.Mul(rest.T(), &eq)
	half := mat.NewSymDense(n-3, nil)
	for i := range n - 3 {
		for j := range i + 1 {
			half.SetSym(i, j, (inner.At(i, j)+inner.At(j, i))/2)
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(half, true) {
		return nil, errors.New("its equations could not be solved")
	}
	p.e = eigen.Values(nil)
	var v mat.Dense
	eigen.VectorsTo(&v)
	p.basis = new(mat.Dense)
	p.basis.Mul(rest, &v)
	var z mat.VecDense
	z.MulVec(p.basis.T(), mat.NewVecDense(n, s.z))
	p.z = z.RawVector().Data
	return p, nil
}

// score is the generalised cross-validation at a lambda, with the freedom.
func (p *plate) score(lambda float64) (score, freedom float64) {
	n := float64(len(p.survey.at))
	squares, left := 0.0, 0.0
	for i, e := range p.e {
		keep := n * lambda / (math.Max(0, e) + n*lambda)
		left += keep
		squares += keep * keep * p.z[i] * p.z[i]
	}
	return n * squares / (left * left), n - left
}

// search is the lambda of least score among those allowed; bound says that the
// score would be under half of that with more freedom.
func (p *plate) search() (best float64, bound bool) {
	best = lambdaHigh
	allowed, least := math.Inf(1), math.Inf(1)
	for i := range lambdaSteps {
		lambda := lambdaLow * math.Pow(lambdaHigh/lambdaLow, float64(i)/(lambdaSteps-1))
		score, freedom := p.score(lambda)
		least = math.Min(least, score)
		if freedom <= math.Max(planeTerms+1, mostOfFreedom*float64(len(p.survey.at))) && score < allowed {
			best, allowed = lambda, score
		}
	}
	return best, least < allowed/2
}

// at is the surface at one lambda: c = QV (e + n lambda)^-1 (QV)'z, and the
// plane through what E c + n lambda c leaves of z.
func (p *plate) at(lambda float64) (*ThinPlate, error) {
	s, n := p.survey, len(p.survey.at)
	f := &ThinPlate{Lambda: lambda, survey: s, LeftOut: make([]float64, n)}
	f.Score, f.Freedom = p.score(lambda)
	nl := float64(n) * lambda
	w := mat.NewVecDense(n-3, nil)
	for i, e := range p.e {
		w.SetVec(i, p.z[i]/(math.Max(0, e)+nl))
	}
	var c, ec, d mat.VecDense
	c.MulVec(p.basis, w)
	f.c = c.RawVector().Data
	ec.MulVec(p.kernel, &c)
	rest := mat.NewVecDense(n, nil)
	for i := range n {
		rest.SetVec(i, s.z[i]-ec.AtVec(i)-nl*f.c[i])
		free := 0.0 // 1 - S_ii
		for j, e := range p.e {
			b := p.basis.At(i, j)
			free += b * b * nl / (math.Max(0, e) + nl)
		}
		f.LeftOut[i] = nl * f.c[i] / free
	}
	if err := p.qr.SolveVecTo(&d, false, rest); err != nil {
		return nil, fmt.Errorf("fit thin plate: %w", err)
	}
	copy(f.d[:], d.RawVector().Data)
	return f, nil
}

// HeightAt is the height of the surface; ok is false only for a point that is
// not finite.
func (f *ThinPlate) HeightAt(p orb.Point) (float64, bool) {
	if !finite(p) {
		return math.NaN(), false
	}
	q := f.survey.local(p)
	z := f.survey.base + f.d[0] + f.d[1]*q[0] + f.d[2]*q[1]
	for i, a := range f.survey.at {
		z += f.c[i] * bending(planar.Distance(q, a))
	}
	return z, true
}

// GradientAt is the gradient of the surface, with the terms
// c (2 ln h + 1) (q - p) / (8 pi).
func (f *ThinPlate) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	if !finite(p) {
		return terrain.Gradient{}, false
	}
	q := f.survey.local(p)
	g := terrain.Gradient{East: f.d[1], North: f.d[2]}
	for i, a := range f.survey.at {
		if h := planar.Distance(q, a); h > 0 {
			k := f.c[i] * (2*math.Log(h) + 1) / (8 * math.Pi)
			g.East += k * (q[0] - a[0])
			g.North += k * (q[1] - a[1])
		}
	}
	return g, true
}
