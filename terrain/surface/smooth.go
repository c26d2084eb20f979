package surface

import (
	"errors"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"

	"crossfall/terrain"
)

// vagueGradient is the standard error of a smooth surface's gradient over
// which the ground is called unknown; a default of ours.
const vagueGradient = 0.02

// errNotPositive is met only with hyperparameters far out of range.
var errNotPositive = errors.New("the heights' covariance is not positive definite")

// Smooth is a smooth surface: a Gaussian process about a sloping plane whose
// three terms are fitted with it (universal kriging). Means and covariances
// are those of Rasmussen and Williams 2006, equations 2.41 and 2.42, in the
// limit of a flat prior on the slope.
type Smooth struct {
	Hyper
	LogLikelihood float64 // restricted, natural logarithm
	// Trend is the height at Centre, then the gradient east and north.
	Trend           [3]float64
	TrendCovariance [3][3]float64
	Centre          orb.Point // mean position of the heights
	// LeftOut holds for each reading what remains of it when the surface is
	// fitted to the others.
	LeftOut []LeftOut
	// Widening multiplies every standard error for what is not known of the
	// hyperparameters.
	Widening float64

	survey *survey
	data   readings
	factor blas64.Triangular // K = U'U
	side   []float64         // U^-T F, n by 3
	alpha  []float64         // K^-1 (z - F beta)
}

// LeftOut is the leave-one-out residual of a reading, metres, and its standard
// deviation with the reading's own noise: (Pz)_i / P_ii and P_ii^-1/2 (Dubrule
// 1983, Mathematical Geology 15, 687-699, from memory).
type LeftOut struct{ Residual, Sigma float64 }

// readings are the survey's heights with the variance of each.
func (s *survey) readings() readings {
	r := readings{at: s.at, z: s.z, noise: make([]float64, len(s.z))}
	for i, sigma := range s.sigma {
		r.noise[i] = sigma * sigma
	}
	return r
}

// newSmooth factorises once and keeps what later questions need.
func newSmooth(s *survey, r readings, h Hyper) (*Smooth, error) {
	m := newREML(r)
	t, ok := m.factorise(h)
	if !ok {
		return nil, errNotPositive
	}
	cols := m.columns()
	blas64.Trsm(blas.Left, blas.Trans, 1, t, cols)
	tr := fitTrend(cols.Data)
	if !tr.whole {
		return nil, errNotPositive
	}
	f := &Smooth{
		Hyper: h, Trend: tr.beta, TrendCovariance: tr.inv, Centre: s.origin,
		Widening: 1, survey: s, data: r, factor: t,
	}
	f.Trend[0] += s.base
	f.LogLikelihood = -0.5 * (logDet(t) + tr.logA + tr.zPz + float64(m.n-3)*math.Log(2*math.Pi))
	f.side = make([]float64, 3*m.n)
	for i := range m.n {
		copy(f.side[3*i:3*i+3], cols.Data[4*i:])
	}
	blas64.Trsm(blas.Left, blas.NoTrans, 1, t, cols)
	f.alpha = make([]float64, m.n)
	for i := range m.n {
		row := cols.Data[4*i : 4*i+4]
		f.alpha[i] = row[3] - row[0]*tr.beta[0] - row[1]*tr.beta[1] - row[2]*tr.beta[2]
	}
	f.leaveOut(cols.Data, tr)
	return f, nil
}

// leaveOut works out LeftOut from the diagonal of P; cols holds K^-1 F and the
// diagonal of K^-1 is the squared rows of U^-1.
func (f *Smooth) leaveOut(cols []float64, tr trend) {
	n := len(f.alpha)
	inv := blas64.Triangular{Uplo: blas.Upper, Diag: blas.NonUnit, N: n, Stride: n, Data: append([]float64(nil), f.factor.Data...)}
	lapack64.Trtri(inv) // the diagonal is over 0, so it cannot fail
	f.LeftOut = make([]LeftOut, n)
	for i := range n {
		p := 0.0
		for _, v := range inv.Data[i*n+i : (i+1)*n] {
			p += v * v
		}
		row := cols[4*i : 4*i+3]
		for j := range 3 {
			for k := range 3 {
				p -= row[j] * tr.inv[j][k] * row[k]
			}
		}
		f.LeftOut[i] = LeftOut{Residual: f.alpha[i] / p, Sigma: 1 / math.Sqrt(p)}
	}
}

// HeightAt is the mean height of the ground.
func (f *Smooth) HeightAt(p orb.Point) (float64, bool) {
	if !finite(p) {
		return math.NaN(), false
	}
	q := f.survey.local(p)
	z := f.Trend[0] + f.Trend[1]*q[0] + f.Trend[2]*q[1]
	for i, a := range f.data.at {
		k, _ := f.kernel(planar.Distance(q, a))
		z += k * f.alpha[i]
	}
	return z, true
}

// GradientAt is the mean gradient of the ground.
func (f *Smooth) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	if !finite(p) {
		return terrain.Gradient{}, false
	}
	q := f.survey.local(p)
	g := terrain.Gradient{East: f.Trend[1], North: f.Trend[2]}
	for i, a := range f.data.at {
		k := f.kernelSlope(planar.Distance(q, a)) * f.alpha[i]
		g.East += k * (q[0] - a[0])
		g.North += k * (q[1] - a[1])
	}
	return g, true
}

// whitened is U^-T k for what is asked about (a height or a part of a
// gradient), with u = f - F'K^-1 k for its row f of the trend.
type whitened struct {
	k []float64
	u [3]float64
}

func (f *Smooth) whiten(k []float64, row [3]float64) whitened {
	blas64.Trsv(blas.Trans, f.factor, blas64.Vector{N: len(k), Inc: 1, Data: k})
	return f.withTrend(k, row)
}

// withTrend adds to a whitened column what is left of its row of the trend.
func (f *Smooth) withTrend(k []float64, row [3]float64) whitened {
	w := whitened{k: k, u: row}
	for i, v := range k {
		for j := range 3 {
			w.u[j] -= f.side[3*i+j] * v
		}
	}
	return w
}

// reduced is what the heights leave of a prior covariance c between two asked
// things: c - k_a'K^-1 k_b + u_a'A^-1 u_b, widened.
func (f *Smooth) reduced(c float64, a, b whitened) float64 {
	c -= dot(a.k, b.k)
	for i := range 3 {
		for j := range 3 {
			c += a.u[i] * f.TrendCovariance[i][j] * b.u[j]
		}
	}
	return c * f.Widening * f.Widening
}

// HeightCovariance is the covariance of the ground's heights at a and b.
func (f *Smooth) HeightCovariance(a, b orb.Point) float64 {
	x := f.ask(a, heightPart)
	if a == b {
		return math.Max(0, f.covariance(x, x))
	}
	return f.covariance(x, f.ask(b, heightPart))
}

// GradientCovariance is the covariance of the gradient's east and north parts.
func (f *Smooth) GradientCovariance(p orb.Point) [2][2]float64 {
	a := f.askTogether([]orb.Point{p, p}, []part{eastPart, northPart})
	return f.gradientCovariance(a[0], a[1])
}

func (f *Smooth) gradientCovariance(east, north asked) [2][2]float64 {
	en := f.covariance(east, north)
	return [2][2]float64{
		{math.Max(0, f.covariance(east, east)), en},
		{en, math.Max(0, f.covariance(north, north))},
	}
}

// Extrapolated is described at Surface.
func (f *Smooth) Extrapolated(p orb.Point) bool {
	cov, v := f.known(p)
	return f.vague(p, cov, v)
}

// vague is Extrapolated from the covariance of the gradient and the variance of
// the height there.
func (f *Smooth) vague(p orb.Point, cov [2][2]float64, v float64) bool {
	return f.survey.beyond(p, v) || !(widest(cov) <= vagueGradient)
}
