package bed

import (
	"math"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
)

// Ground is what a fitted surface says under one bed.
type Ground struct {
	Axes    Axes
	Corners [4]orb.Point // clockwise from the uphill left
	Heights [4]float64   // of the ground at the corners, m
	// Gradient is the mean gradient over the footprint: height differences
	// between the middles of opposite sides over their distance, which on a
	// plane or a quadratic is exact. Covariance is its own, from the joint
	// covariance of those four heights.
	Gradient   terrain.Gradient
	Covariance [2][2]float64
	// Slope is the steepest fall, Across and Along its parts over the short
	// and the long side, all ratios of 0 or more with 95 % intervals.
	Slope, Across, Along geodata.Estimate
	// FallAcross and FallAlong are the same parts as height differences, m.
	FallAcross, FallAlong geodata.Estimate
	// LowEndRight is true when the right end, looking uphill, is the lower; false
	// where the ends are level but for rounding.
	LowEndRight bool
	// Determined is false when the fall is under three standard errors.
	Determined bool
	// Extrapolated is true when a corner or the centre lies where the heights
	// are too far off, or too few, to say.
	Extrapolated bool
}

// noFall is a fall that comes of rounding alone.
const noFall = 1e-9

// Under reads the surface under a bed; quantile turns a standard error into
// half a 95 % interval.
func Under(s surface.Surface, quantile float64, b Bed) Ground {
	centre, _ := s.GradientAt(b.Centre)
	a := b.Axes(centre)
	across, along, cov := meanGradient(s, b, a)
	if across < 0 { // the mean over the footprint falls the other way from the centre
		a = Axes{Up: neg(a.Up), Right: neg(a.Right)}
		across, along = -across, -along
	}
	g := Ground{Axes: a, Corners: b.Corners(a), LowEndRight: along < -noFall}
	for i, c := range g.Corners {
		g.Heights[i], _ = s.HeightAt(c)
		g.Extrapolated = g.Extrapolated || s.Extrapolated(c)
	}
	g.Extrapolated = g.Extrapolated || s.Extrapolated(b.Centre)
	g.Gradient, g.Covariance = toEastNorth(a, across, along, cov)
	g.Across = folded(across, math.Sqrt(cov[0][0]), quantile)
	g.Along = folded(along, math.Sqrt(cov[1][1]), quantile)
	g.FallAcross = g.Across.Times(b.Width)
	g.FallAlong = g.Along.Times(b.Length)
	g.Slope.Value, g.Slope.Low, g.Slope.High = surface.FallInterval(g.Gradient, g.Covariance, quantile)
	g.Determined = surface.Determined(g.Gradient, g.Covariance)
	return g
}

// meanGradient is the rise per metre uphill and to the right, averaged over
// the footprint, with its covariance in that order.
func meanGradient(s surface.Surface, b Bed, a Axes) (across, along float64, cov [2][2]float64) {
	up, down := b.Place(a, 0, b.Width/2), b.Place(a, 0, -b.Width/2)
	right, left := b.Place(a, b.Length/2, 0), b.Place(a, -b.Length/2, 0)
	rise := func(from, to orb.Point) float64 {
		f, _ := s.HeightAt(from)
		t, _ := s.HeightAt(to)
		return t - f
	}
	joint := func(p, q, r, t orb.Point) float64 { // of (p - q) with (r - t)
		return s.HeightCovariance(p, r) - s.HeightCovariance(p, t) -
			s.HeightCovariance(q, r) + s.HeightCovariance(q, t)
	}
	w, l := b.Width, b.Length
	cov[0][0] = math.Max(0, joint(up, down, up, down)) / (w * w)
	cov[1][1] = math.Max(0, joint(right, left, right, left)) / (l * l)
	cov[0][1] = joint(up, down, right, left) / (w * l)
	cov[1][0] = cov[0][1]
	return rise(down, up) / w, rise(left, right) / l, cov
}

// toEastNorth turns a gradient given uphill and to the right into east and north.
func toEastNorth(a Axes, across, along float64, cov [2][2]float64) (terrain.Gradient, [2][2]float64) {
	r := [2][2]float64{{a.Up[0], a.Right[0]}, {a.Up[1], a.Right[1]}}
	g := terrain.Gradient{
		East:  r[0][0]*across + r[0][1]*along,
		North: r[1][0]*across + r[1][1]*along,
	}
	var out [2][2]float64
	for i := range 2 {
		for j := range 2 {
			for k := range 2 {
				for m := range 2 {
					out[i][j] += r[i][k] * cov[k][m] * r[j][m]
				}
			}
		}
	}
	return g, out
}

// folded is the size of a signed gradient with its interval, not under 0.
func folded(v, se, quantile float64) geodata.Estimate {
	half := quantile * se
	v = math.Abs(v)
	return geodata.Estimate{Value: v, Low: math.Max(0, v-half), High: v + half}
}

func neg(p orb.Point) orb.Point { return orb.Point{-p[0], -p[1]} }

// AtLeast is the same ground with the upper limits of its falls raised to a
// slope of least, shared between them as the fall itself is, where they are
// under it; for ground that the heights do not tell.
func (g Ground) AtLeast(least float64) Ground {
	g.Slope.High = math.Max(g.Slope.High, least)
	g.Across.High = math.Max(g.Across.High, least*g.share(g.Across.Value))
	g.Along.High = math.Max(g.Along.High, least*g.share(g.Along.Value))
	return g
}

// share is the part of the slope that one of its components has.
func (g Ground) share(component float64) float64 {
	if g.Slope.Value == 0 {
		return 1
	}
	return math.Min(1, component/g.Slope.Value)
}
