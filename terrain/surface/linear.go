package surface

import (
	"math"

	"github.com/paulmach/orb"
	"gonum.org/v1/gonum/mat"

	"crossfall/terrain"
)

// The numbers of terms of a plane and of a full quadratic.
const (
	planeTerms     = 3
	quadraticTerms = 6
)

// rankLimit is the condition number of the centred and scaled equations over
// which a model is refused; a default of ours that leaves eight digits.
const rankLimit = 1e8

// linear is a plane or a full quadratic fitted by weighted least squares:
// z = b0 + b1 u + b2 v (+ b3 u^2 + b4 uv + b5 v^2), u and v the position from
// the survey's origin over its scale. Weights are 1/sigma^2, so that with
// honest sigmas the covariance of b is N^-1, N = X'WX, and the weighted sum of
// squared residuals is chi-squared on n - p (any text on least squares).
type linear struct {
	survey *survey
	terms  int
	b      []float64
	inv    *mat.SymDense // N^-1
	// factor multiplies the covariance: 1, or chi2/(n - p) where the scatter
	// of the heights takes the place of their stated errors.
	factor    float64
	chi2      float64
	df        int
	residuals []float64
	leverage  []float64
}

// basis is the row of the equations for a point from the origin.
func (l *linear) basis(p orb.Point) []float64 {
	u, v := p[0]/l.survey.scale, p[1]/l.survey.scale
	return []float64{1, u, v, u * u, u * v, v * v}[:l.terms]
}

// slopes are the derivatives of basis by east and north, per metre.
func (l *linear) slopes(p orb.Point) (east, north []float64) {
	k := 1 / l.survey.scale
	u, v := p[0]*k, p[1]*k
	east = []float64{0, k, 0, 2 * u * k, v * k, 0}[:l.terms]
	north = []float64{0, 0, k, 0, u * k, 2 * v * k}[:l.terms]
	return east, north
}

// fitLinear fits a plane or quadratic. share multiplies the weight of each
// height, for robust fits; nil is 1. ok is false when the heights do not
// determine the terms.
func fitLinear(s *survey, terms int, share []float64) (l *linear, ok bool) {
	n := len(s.at)
	if n < terms {
		return nil, false
	}
	l = &linear{survey: s, terms: terms, factor: 1, df: n - terms}
	x, y := mat.NewDense(n, terms, nil), mat.NewVecDense(n, nil)
	for i, p := range s.at {
		w := 1 / s.sigma[i]
		if share != nil {
			w *= math.Sqrt(share[i])
		}
		for j, f := range l.basis(p) {
			x.Set(i, j, w*f)
		}
		y.SetVec(i, w*s.z[i])
	}
	var qr mat.QR
	qr.Factorize(x)
	if !(qr.Cond() < rankLimit) {
		return nil, false
	}
	b := mat.NewVecDense(terms, nil)
	if qr.SolveVecTo(b, false, y) != nil {
		return nil, false
	}
	l.b = b.RawVector().Data
	l.inv = inverseOfNormal(&qr, terms)
	l.leave()
	return l, true
}

// inverseOfNormal is (R'R)^-1 from the factor R.
func inverseOfNormal(qr *mat.QR, p int) *mat.SymDense {
	var r mat.Dense
	qr.RTo(&r)
	t := mat.NewTriDense(p, mat.Upper, nil)
	for i := range p {
		for j := i; j < p; j++ {
			t.SetTri(i, j, r.At(i, j))
		}
	}
	var ri mat.TriDense
	// The condition was checked, so the only error left is a warning about it.
	_ = ri.InverseTri(t)
	out := mat.NewSymDense(p, nil)
	for i := range p {
		for j := i; j < p; j++ {
			sum := 0.0
			for k := j; k < p; k++ {
				sum += ri.At(i, k) * ri.At(j, k)
			}
			out.SetSym(i, j, sum)
		}
	}
	return out
}

// leave works out residuals, leverages and the chi-squared statistic.
func (l *linear) leave() {
	s := l.survey
	l.residuals, l.leverage = make([]float64, len(s.at)), make([]float64, len(s.at))
	for i, p := range s.at {
		f := l.basis(p)
		r := s.z[i] - dot(f, l.b)
		w := r / s.sigma[i]
		l.residuals[i] = r
		l.leverage[i] = min(1, l.form(f, f)/(s.sigma[i]*s.sigma[i]))
		l.chi2 += w * w
	}
}

// form is f'N^-1 g.
func (l *linear) form(f, g []float64) float64 {
	a := l.inv.RawSymmetric()
	sum := 0.0
	for i := range f {
		for j := range g {
			sum += f[i] * a.Data[min(i, j)*a.Stride+max(i, j)] * g[j]
		}
	}
	return sum
}

// HeightAt is the height of the fitted ground.
func (l *linear) HeightAt(p orb.Point) (float64, bool) {
	if !finite(p) {
		return math.NaN(), false
	}
	return l.survey.base + dot(l.basis(l.survey.local(p)), l.b), true
}

// GradientAt is the gradient of the fitted ground.
func (l *linear) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	if !finite(p) {
		return terrain.Gradient{}, false
	}
	e, n := l.slopes(l.survey.local(p))
	return terrain.Gradient{East: dot(e, l.b), North: dot(n, l.b)}, true
}

// GradientCovariance is J C J' with J the derivatives of the terms.
func (l *linear) GradientCovariance(p orb.Point) [2][2]float64 {
	e, n := l.slopes(l.survey.local(p))
	en := l.factor * l.form(e, n)
	return [2][2]float64{{l.factor * l.form(e, e), en}, {en, l.factor * l.form(n, n)}}
}

// HeightCovariance is the covariance of the fitted heights at a and b.
func (l *linear) HeightCovariance(a, b orb.Point) float64 {
	return l.factor * l.form(l.basis(l.survey.local(a)), l.basis(l.survey.local(b)))
}

// Extrapolated is described at Surface.
func (l *linear) Extrapolated(p orb.Point) bool {
	return l.survey.beyond(p, l.HeightCovariance(p, p))
}

// useScatter makes the covariance rest on the heights' own scatter.
func (l *linear) useScatter() {
	if l.df > 0 {
		l.factor = l.chi2 / float64(l.df)
	}
}

// variance is that of the heights about the model, m2.
func (l *linear) variance() float64 {
	return dot(l.residuals, l.residuals) / float64(max(1, l.df))
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
