package surface

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"crossfall/terrain"
)

// The sums that stand for the expectation over what readings may bring.
const (
	reachOfSum = 5  // standard deviations
	nodesAlone = 61 // along the wide axis where there is no other
	nodesQuick = 31 // the same, to draw up a shortlist
	nodesOfTwo = 25 // along the wide axis where there is another
	nodesThin  = 5  // Gauss-Hermite nodes along the thin one
	// thinMove is the part of the wide axis under which the thin one counts as 0.
	thinMove = 1e-3
)

// hermiteX and hermiteW are nodes and weights for a standard normal.
var hermiteX, hermiteW = hermite(nodesThin)

func hermite(n int) (x, w []float64) {
	x, w = make([]float64, n), make([]float64, n)
	quad.Hermite{}.FixedLocations(x, w, math.Inf(-1), math.Inf(1))
	for i := range x {
		x[i] *= math.Sqrt2
		w[i] /= math.Sqrt(math.Pi)
	}
	return x, w
}

// square is the covariance of two figures; of one, in its first corner.
type square = [2][2]float64

// belief is what is known of a figure that a decision hangs on: the fall along
// one direction, or the gradient.
type belief struct {
	mean  [2]float64
	cov   square
	moved square // covariance of what readings not yet made will move the mean by
	alone bool   // one figure, the fall itself
}

// exceeds is the probability that the fall is over a limit, for a mean moved
// by so much.
func (b belief) exceeds(limit, east, north float64) float64 {
	if b.alone {
		return normalExceeds(b.mean[0]+east, math.Sqrt(math.Max(0, b.cov[0][0])), limit)
	}
	return FallExceeds(terrain.Gradient{East: b.mean[0] + east, North: b.mean[1] + north}, b.cov, limit)
}

// after is the belief with one more reading planned, h its covariance with the
// figure over the standard deviation of what will be read. Whatever is read,
// the covariance falls by h h', and the mean will move by h times a standard
// normal (conditioning of a normal; Bect and others 2012, Statistics and
// Computing 22, 773-793, from memory, plan readings by it).
func (b belief) after(h [2]float64) belief {
	for i := range 2 {
		for j := range 2 {
			b.cov[i][j] -= h[i] * h[j]
			b.moved[i][j] += h[i] * h[j]
		}
	}
	return b
}

// along is the belief of the gradient's part along a direction, a quick
// stand-in for the fall where the mean points that way.
func (b belief) along(e, n float64) belief {
	form := func(m square) square {
		return square{{e*e*m[0][0] + e*n*(m[0][1]+m[1][0]) + n*n*m[1][1]}}
	}
	return belief{mean: [2]float64{e*b.mean[0] + n*b.mean[1]}, cov: form(b.cov), moved: form(b.moved), alone: true}
}

// expect is the mean of f(p), p the probability of a fall over the limit, over
// what the planned readings may bring; n is the nodes where they move it along
// one axis only.
func (b belief) expect(limit float64, n int, f func(p float64) float64) float64 {
	a := axesOf(b.moved)
	if b.alone {
		a = axes{wide: math.Sqrt(math.Max(0, b.moved[0][0])), east: 1}
	}
	if a.wide == 0 {
		return f(b.exceeds(limit, 0, 0))
	}
	thinX, thinW := []float64{0}, []float64{1}
	if a.thin > thinMove*a.wide {
		n, thinX, thinW = nodesOfTwo, hermiteX, hermiteW
	}
	sum, weights := 0.0, 0.0
	for i := range n {
		xi := reachOfSum * (2*float64(i)/float64(n-1) - 1)
		w := math.Exp(-xi * xi / 2)
		weights += w
		for j, eta := range thinX {
			x, y := a.wide*xi, a.thin*eta
			sum += w * thinW[j] * f(b.exceeds(limit, a.east*x-a.north*y, a.north*x+a.east*y))
		}
	}
	return sum / weights
}

// wrong is the chance of deciding wrongly on the likelier side.
func wrong(p float64) float64 { return math.Min(p, 1-p) }

// risk is the expected chance of deciding wrongly once the planned readings are
// made.
func (b belief) risk(limit float64) float64 { return b.expect(limit, nodesAlone, wrong) }

// quickRisk is risk by the mean gradient's own direction.
func (b belief) quickRisk(limit float64) float64 {
	if !b.alone {
		e, n := 1.0, 0.0
		if f := math.Hypot(b.mean[0], b.mean[1]); f > 0 {
			e, n = b.mean[0]/f, b.mean[1]/f
		}
		b = b.along(e, n)
	}
	return b.expect(limit, nodesQuick, wrong)
}
