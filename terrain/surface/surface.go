package surface

import (
	"errors"
	"math"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// DefaultSigma is the standard deviation in metres taken for a height that
// names none: a line level or laser on rough ground, with the ground under the
// staff. A default of ours.
const DefaultSigma = 0.012

// ErrTooFewHeights is returned where there are too few heights for the surface
// that was asked for.
var ErrTooFewHeights = errors.New("too few heights")

// ErrHeightsInLine is returned where the heights stand at one place, in one
// line, or (for a curved surface) on one curve such as a circle, so that the
// ground to either side is not known.
var ErrHeightsInLine = errors.New("the heights stand in one line")

// Surface is a fitted ground.
type Surface interface {
	// HeightAt is the height of the ground, metres; ok is false only for a
	// point that is not finite. Far from the heights see Extrapolated.
	terrain.Heights
	// GradientAt is the gradient of the ground; ok as for HeightAt.
	GradientAt(p orb.Point) (terrain.Gradient, bool)
	// GradientCovariance is the covariance of the gradient's east and north parts.
	GradientCovariance(p orb.Point) [2][2]float64
	// HeightCovariance is the covariance in square metres of the ground's
	// heights at two points, without the noise of a reading; for a == b it is
	// the variance.
	HeightCovariance(a, b orb.Point) float64
	// Extrapolated says that the heights do not tell the ground at p: it lies
	// outside their hull by more than half their median spacing, or the
	// standard deviation of its height is over three times that of a reading
	// and over 50 mm, or, on a smooth surface, a standard error of its gradient
	// is over 2 points of percent. The limits are defaults of ours.
	Extrapolated(p orb.Point) bool
}

// Kind names a kind of fitted ground.
type Kind string

// The kinds of ground, simplest first.
const (
	PlaneKind  Kind = "plane"
	CurvedKind Kind = "curved"
	SmoothKind Kind = "smooth"
)

// Options say how to fit. The zero value lets the heights choose.
type Options struct {
	Force Kind    // fit this kind whatever the tests say; default "": the simplest that fits
	Sigma float64 // standard deviation of a height that names none, m; default DefaultSigma, taken as at least 1 mm
	hyper *Hyper  // of a smooth surface, where they were found together with others
}

// Fit is a fitted ground with what was found while fitting it.
type Fit struct {
	Surface
	Kind Kind
	Why  string // one line for a grower
	// Uneven says that not enough is known of uneven ground: no gradient at a
	// place may be trusted, only the general fall with its band.
	Uneven bool
	// Quantile turns a standard error into half a two-sided 95 % interval.
	Quantile  float64
	Residuals []Residual // one for each height, in the order given
	Suspects  []Suspect  // heights that look mis-booked, likeliest first; none was left out of the fit
	Tests     []Test     // the models tried, in order
	Sigma     float64    // median standard deviation of a height as used, m
	// SpreadOfResiduals is the standard deviation of the heights about the
	// surface, m: the root of the sum of squares over the heights less the
	// parameters used up; 0 where none are left over.
	SpreadOfResiduals float64
	Plane             *Plane   // the general fall, whatever the kind
	Smooth            *Smooth  // the smooth surface; nil for other kinds
	Pieces            *Pieces  // the parts along break lines; nil for other kinds
	Notes             []string // findings in words
}

// Plane is the least-squares plane through all heights: the general fall.
type Plane struct {
	Gradient terrain.Gradient
	// Covariance is of (east, north). It rests on the stated reading errors
	// where the plane passes its test, and on the scatter of the heights about
	// the plane where it does not.
	Covariance [2][2]float64
	Quantile   float64 // for a two-sided 95 % interval: normal, or Student's t on n - 3
	Passes     bool    // true when the heights lie on the plane within their errors, or when 3 leave no test
}

// Residual is what the surface leaves of one height.
type Residual struct {
	Name     string
	Residual float64 // height less surface, m
	// Leverage is the part of an error in this height that the surface follows,
	// 0 to 1; over 0.9 the other heights cannot check this one.
	Leverage float64
	// Studentised is the externally studentised residual on a plane or curved
	// surface (Cook and Weisberg 1982, Residuals and Influence in Regression,
	// chapter 2) and the leave-one-out residual over its standard deviation on
	// a smooth one. It is 0 where the others cannot check the height. Where
	// heights were merged into blocks, Leverage is 0 and Studentised is the
	// residual over the reading's standard deviation.
	Studentised float64
}

// Suspect is a height that looks mis-booked.
type Suspect struct {
	Name   string
	Index  int // in the heights given
	Reason string
	Off    float64 // m above what the other heights say
	Slips  []Slip  // likely ones that would explain it; empty where none would
	sigma  float64 // standard error of Off, m
}

// Test is a chi-squared test of one model against the stated reading errors:
// Statistic is the sum of squared residuals over their variances, Limit the
// 99 % point for DegreesOfFreedom.
type Test struct {
	Model            Kind
	Statistic        float64
	DegreesOfFreedom int
	Limit            float64
	Passes           bool
}

// Drop is the fall of the ground from a to b in metres, positive when b is the
// lower, with its standard error from the joint covariance of both heights.
func Drop(s Surface, a, b orb.Point) (fall, sigma float64) {
	za, _ := s.HeightAt(a)
	zb, _ := s.HeightAt(b)
	v := s.HeightCovariance(a, a) + s.HeightCovariance(b, b) - 2*s.HeightCovariance(a, b)
	return za - zb, math.Sqrt(math.Max(0, v))
}

// finite says that a point has finite coordinates.
func finite(p orb.Point) bool {
	return !math.IsNaN(p[0]-p[0]) && !math.IsNaN(p[1]-p[1])
}
