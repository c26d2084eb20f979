package setout

import (
	"math"

	"github.com/paulmach/orb"
)

// The standard deviation of one taped distance: ReadingError for setting the
// tape on the mark and reading it, and with it in quadrature StretchError for
// each metre of tape (common practice, no source).
const (
	ReadingError = 5.0 // mm
	StretchError = 0.5 // mm per metre
)

// TapeError is the standard deviation of one taped distance of some metres, mm.
func TapeError(metres float64) float64 { return math.Hypot(ReadingError, StretchError*metres) }

// Covariance is that of a point's east and north, mm².
type Covariance [2][2]float64

// Fixed is the covariance of a point p fixed by tapes from a and b whose
// standard deviations are given in mm: J⁻¹ diag(s²) J⁻ᵀ, the rows of J the
// unit vectors along the tapes (first-order propagation for two distances;
// plane surveying). The two tapes must not lie in one line, and p not on a mark.
func Fixed(a, b, p orb.Point, sigmaA, sigmaB float64) Covariance {
	ua, ub := unit(a, p), unit(b, p)
	det := ua[0]*ub[1] - ua[1]*ub[0]
	inverse := [2][2]float64{{ub[1] / det, -ua[1] / det}, {-ub[0] / det, ua[0] / det}}
	var c Covariance
	for i := range 2 {
		for j := range 2 {
			c[i][j] = inverse[i][0]*inverse[j][0]*sigmaA*sigmaA + inverse[i][1]*inverse[j][1]*sigmaB*sigmaB
		}
	}
	return c
}

// along is the variance in the direction of a unit vector, mm².
func (c Covariance) along(u orb.Point) float64 {
	return u[0]*u[0]*c[0][0] + 2*u[0]*u[1]*c[0][1] + u[1]*u[1]*c[1][1]
}

// total is the root of both variances together, mm: the standard deviation of
// the position.
func (c Covariance) total() float64 { return math.Sqrt(c[0][0] + c[1][1]) }

// Ellipse is where a point set out lies about its true place: half axes of one
// standard deviation, and those that hold it 95 times in 100, mm.
type Ellipse struct {
	Major   float64 `json:"major_mm"`
	Minor   float64 `json:"minor_mm"`
	Axis    float64 `json:"axis_degrees_anticlockwise_from_east"` // of the long axis, 0 to 180
	Major95 float64 `json:"major_95_percent_mm"`
	Minor95 float64 `json:"minor_95_percent_mm"`
}

// within95 is the root of 5.991, which chi-squared with two degrees of freedom
// exceeds 5 times in 100: -2 ln 0.05.
var within95 = math.Sqrt(-2 * math.Log(.05))

// Ellipse is that of the covariance: the roots of its eigenvalues.
func (c Covariance) Ellipse() Ellipse {
	mean, half := (c[0][0]+c[1][1])/2, math.Hypot((c[0][0]-c[1][1])/2, c[0][1])
	e := Ellipse{Major: math.Sqrt(mean + half), Minor: math.Sqrt(math.Max(0, mean-half))}
	if half > 1e-9*mean {
		e.Axis = math.Mod(math.Atan2(2*c[0][1], c[0][0]-c[1][1])*90/math.Pi+180, 180)
	}
	e.Major95, e.Minor95 = within95*e.Major, within95*e.Minor
	return e
}

// unit is the direction from one point to another.
func unit(from, to orb.Point) orb.Point {
	d := distance(from, to)
	return orb.Point{(to[0] - from[0]) / d, (to[1] - from[1]) / d}
}

func distance(a, b orb.Point) float64 { return math.Hypot(b[0]-a[0], b[1]-a[1]) }

func finite(p orb.Point) bool {
	return !math.IsNaN(p[0]+p[1]) && !math.IsInf(p[0], 0) && !math.IsInf(p[1], 0)
}
