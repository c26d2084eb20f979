package surface

import (
	"math"

	"crossfall/terrain"
)

// determinedAt is the number of standard errors under which a fall is not told
// from level ground; a default of ours.
const determinedAt = 3

// FallInterval is the fall |g| with its two-sided interval, all ratios; cov is
// of (east, north) and q turns a standard error into half the interval. The
// standard error is that of |g| by the delta method, sqrt(e'Ce) with e = g/|g|.
// Where |g| is under three of its standard errors that is too small, so the
// largest standard error in any direction takes its place. Low is not under 0.
func FallInterval(g terrain.Gradient, cov [2][2]float64, q float64) (value, low, high float64) {
	value = g.Fall()
	se := fallError(g, cov)
	if !(value >= determinedAt*se) || value == 0 {
		se = math.Max(se, widest(cov))
	}
	return value, math.Max(0, value-q*se), value + q*se
}

// Determined says whether the fall is at least three standard errors, so that
// it is told from level ground and its bearing means something.
func Determined(g terrain.Gradient, cov [2][2]float64) bool {
	return g.Fall() > 0 && g.Fall() >= determinedAt*fallError(g, cov)
}

// fallError is the delta-method standard error of |g|; 0 where g is 0.
func fallError(g terrain.Gradient, cov [2][2]float64) float64 {
	f := g.Fall()
	if f == 0 {
		return 0
	}
	e, n := g.East/f, g.North/f
	return math.Sqrt(math.Max(0, e*e*cov[0][0]+2*e*n*cov[0][1]+n*n*cov[1][1]))
}

// widest is the largest standard error of a gradient in any direction: the
// root of the larger eigenvalue of its covariance.
func widest(cov [2][2]float64) float64 {
	mean, half := (cov[0][0]+cov[1][1])/2, (cov[0][0]-cov[1][1])/2
	return math.Sqrt(math.Max(0, mean+math.Hypot(half, cov[0][1])))
}

// BearingInterval is the set of runoff bearings that the gradient's covariance
// allows, from low clockwise to high: those of the gradients inside the ellipse
// (x-g)'C^-1(x-g) <= q^2, which is the set of Fieller (1954, J. Roy. Stat. Soc.
// B 16, 175-185, from memory) on the downhill side. ok is false when level
// ground is inside the ellipse: then every bearing is acceptable and the
// direction is not determined.
//
// The two tangents from level ground to the ellipse are
// g sqrt(1 - q^2 det C / a) +- (q / sqrt a) J adj(C) g with a = g'adj(C)g and J
// the quarter turn, which needs no inverse of C.
func BearingInterval(g terrain.Gradient, cov [2][2]float64, q float64) (low, high terrain.Bearing, ok bool) {
	adj := [2]float64{ // adj(C) g
		cov[1][1]*g.East - cov[0][1]*g.North,
		cov[0][0]*g.North - cov[1][0]*g.East,
	}
	a := g.East*adj[0] + g.North*adj[1]
	det := cov[0][0]*cov[1][1] - cov[0][1]*cov[1][0]
	if !(a > 0) { // no error, or error along the gradient only
		if g.Fall() > 0 && g.Fall() > q*fallError(g, cov) {
			return g.Downhill(), g.Downhill(), true
		}
		return 0, 0, false
	}
	sin2 := q * q * math.Max(0, det) / a
	if !(sin2 < 1) {
		return 0, 0, false
	}
	along, side := math.Sqrt(1-sin2), q/math.Sqrt(a)
	// J turns a quarter anticlockwise: (x, y) -> (-y, x).
	left := terrain.Gradient{East: g.East*along - side*adj[1], North: g.North*along + side*adj[0]}
	right := terrain.Gradient{East: g.East*along + side*adj[1], North: g.North*along - side*adj[0]}
	return left.Downhill(), right.Downhill(), true
}
