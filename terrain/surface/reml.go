package surface

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// readings are heights as a smooth surface takes them.
type readings struct {
	at    []orb.Point // metres from the mean position
	z     []float64   // metres from their mean
	noise []float64   // variance of each reading, m2
}

// reml evaluates the restricted likelihood of one set of readings again and
// again in the same memory.
type reml struct {
	readings
	n    int
	dist []float64 // n by n, upper half: distances
	bend []float64 // derivative of the kernel by ln range, same shape
	work []float64 // covariance, its factor, its inverse
	cols []float64 // n by 4: the trend's three columns and the heights
	room []float64 // n by n, for the inverse of few readings
}

func newREML(r readings) *reml {
	n := len(r.at)
	m := &reml{
		readings: r, n: n,
		dist: make([]float64, n*n), bend: make([]float64, n*n), work: make([]float64, n*n),
		cols: make([]float64, 4*n),
	}
	for i := range n {
		for j := i + 1; j < n; j++ {
			m.dist[i*n+j] = planar.Distance(r.at[i], r.at[j])
		}
	}
	return m
}

// fill writes the covariance of the readings and factorises it in place.
func (m *reml) fill(h Hyper, jitter float64) (blas64.Triangular, bool) {
	n := m.n
	for i := range n {
		m.work[i*n+i] = h.Variance + h.NoiseFactor*m.noise[i] + jitter
		for j := i + 1; j < n; j++ {
			m.work[i*n+j], m.bend[i*n+j] = h.kernel(m.dist[i*n+j])
		}
	}
	return lapack64.Potrf(blas64.Symmetric{Uplo: blas.Upper, N: n, Stride: n, Data: m.work})
}

// factorise is fill, tried again with a trace more on the diagonal should
// rounding have made the covariance indefinite.
func (m *reml) factorise(h Hyper) (blas64.Triangular, bool) {
	t, ok := m.fill(h, 0)
	if !ok {
		t, ok = m.fill(h, 1e-10*h.Variance)
	}
	return t, ok
}

// trend is the generalised least-squares fit of the slope under the process.
type trend struct {
	beta  [3]float64
	inv   [3][3]float64 // A^-1, A = F'K^-1F
	root  [3][3]float64 // upper triangle with A^-1 = root root'
	logA  float64       // ln |A|
	zPz   float64
	whole bool // false when A could not be factorised
}

// fitTrend solves for the slope from whitened columns L^-1 [F z], n by 4.
func fitTrend(cols []float64) trend {
	var a [4][4]float64
	for i := 0; i < len(cols); i += 4 {
		row := cols[i : i+4]
		for j := range 4 {
			for k := j; k < 4; k++ {
				a[j][k] += row[j] * row[k]
			}
		}
	}
	var t trend
	if t.root, t.logA, t.whole = inverseRoot(a); !t.whole {
		return t
	}
	for i := range 3 {
		for j := range 3 {
			t.inv[i][j] = dot(t.root[i][:], t.root[j][:])
		}
	}
	t.zPz = a[3][3]
	for i := range 3 {
		for j := range 3 {
			t.beta[i] += t.inv[i][j] * a[j][3]
		}
		t.zPz -= t.beta[i] * a[i][3]
	}
	return t
}

// inverseRoot is the upper triangle R^-1 of a positive definite A = R'R, given
// by the upper half of its first three rows, and ln |A|. It is written out for
// three rows because the search for hyperparameters asks it so often.
func inverseRoot(a [4][4]float64) (ri [3][3]float64, logDet float64, ok bool) {
	var r [3][3]float64
	for j := range 3 {
		for k := j; k < 3; k++ {
			sum := a[j][k]
			for m := range j {
				sum -= r[m][j] * r[m][k]
			}
			if k > j {
				r[j][k] = sum / r[j][j]
				continue
			}
			if !(sum > 0) {
				return ri, 0, false
			}
			r[j][j] = math.Sqrt(sum)
			logDet += math.Log(sum)
		}
	}
	for j := range 3 {
		ri[j][j] = 1 / r[j][j]
		for i := j - 1; i >= 0; i-- {
			for k := i + 1; k <= j; k++ {
				ri[i][j] -= r[i][k] * ri[k][j] / r[i][i]
			}
		}
	}
	return ri, logDet, true
}

// columns writes [F z], F the rows (1, east, north).
func (m *reml) columns() blas64.General {
	for i, p := range m.at {
		copy(m.cols[4*i:], []float64{1, p[0], p[1], m.z[i]})
	}
	return blas64.General{Rows: m.n, Cols: 4, Stride: 4, Data: m.cols}
}

// value is the restricted log-likelihood
// -1/2 [ln|K| + ln|A| + z'Pz + (n-3) ln 2pi], P = K^-1 - K^-1 F A^-1 F'K^-1
// (Patterson and Thompson 1971, Biometrika 58, 545-554, from memory, without
// their constant ln|F'F|) and, when gradient is true, its derivatives by ln
// Range, ln Variance and ln NoiseFactor: for a parameter t,
// 1/2 [(Pz)'K_t(Pz) - tr(P K_t)]. ok is false when K cannot be factorised.
func (m *reml) value(h Hyper, gradient bool) (l float64, d [3]float64, ok bool) {
	t, ok := m.factorise(h)
	if !ok {
		return math.Inf(-1), d, false
	}
	logK := logDet(t)
	cols := m.columns()
	m.solve(blas.Trans, t, cols)
	tr := fitTrend(cols.Data)
	if !tr.whole {
		return math.Inf(-1), d, false
	}
	l = -0.5 * (logK + tr.logA + tr.zPz + float64(m.n-3)*math.Log(2*math.Pi))
	if gradient {
		m.solve(blas.NoTrans, t, cols) // K^-1 [F z]
		if !m.invert(t) {
			return math.Inf(-1), d, false
		}
		d = m.slopes(h, tr)
	}
	return l, d, true
}

// solve is U'x = b or Ux = b in place.
func (m *reml) solve(how blas.Transpose, t blas64.Triangular, b blas64.General) {
	switch {
	case m.n > smallMatrix:
		blas64.Trsm(blas.Left, how, 1, t, b)
	case how == blas.Trans:
		forward(t, b.Data)
	default:
		backward(t, b.Data)
	}
}

// invert writes K^-1 over its factor.
func (m *reml) invert(t blas64.Triangular) bool {
	if m.n > smallMatrix {
		_, ok := lapack64.Potri(t)
		return ok
	}
	if m.room == nil {
		m.room = make([]float64, m.n*m.n)
	}
	return inverse(t, m.room)
}

// slopes are the derivatives of value; work holds K^-1, cols K^-1 [F z]. The
// one by ln Variance follows from the other two diagonals, since
// (Pz)'K(Pz) = z'Pz and tr(PK) = n - 3.
func (m *reml) slopes(h Hyper, tr trend) (d [3]float64) {
	n := m.n
	// Each row becomes what P is made of: P_ij = K^-1_ij - side_i . side_j, and
	// its last entry (Pz)_i.
	for i := range n {
		row := m.cols[4*i : 4*i+4]
		f0, f1, f2 := row[0], row[1], row[2]
		row[3] -= f0*tr.beta[0] + f1*tr.beta[1] + f2*tr.beta[2]
		for k := range 3 {
			row[k] = f0*tr.root[0][k] + f1*tr.root[1][k] + f2*tr.root[2][k]
		}
	}
	var byRange, byNoise float64
	for i := range n {
		a := m.cols[4*i : 4*i+4]
		own := m.work[i*n+i] - a[0]*a[0] - a[1]*a[1] - a[2]*a[2]
		byNoise += (a[3]*a[3] - own) * h.NoiseFactor * m.noise[i]
		inv, bend := m.work[i*n:(i+1)*n], m.bend[i*n:(i+1)*n]
		for j := i + 1; j < n; j++ {
			b := m.cols[4*j : 4*j+4]
			byRange += (a[3]*b[3] - inv[j] + a[0]*b[0] + a[1]*b[1] + a[2]*b[2]) * bend[j]
		}
	}
	return [3]float64{byRange, (tr.zPz - float64(n-3) - byNoise) / 2, byNoise / 2}
}

// logDet is ln |K| from its factor.
func logDet(t blas64.Triangular) float64 {
	sum := 0.0
	for i := range t.N {
		sum += math.Log(t.Data[i*t.Stride+i])
	}
	return 2 * sum
}
