package drainage_test

import (
	"math"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// ground is a field from its two derivatives.
type ground func(x, y float64) (east, north float64)

func (g ground) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	e, n := g(p[0], p[1])
	return terrain.Gradient{East: e, North: n}, true
}

// within is a field that knows nothing outside a box.
type within struct {
	ground
	box orb.Bound
}

func (w within) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	if !w.box.Contains(p) {
		return terrain.Gradient{}, false
	}
	return w.ground.GradientAt(p)
}

// plane is ground that faces a compass bearing (degrees) and falls so steeply.
func plane(facing, fall float64) ground {
	s, c := math.Sincos(facing * math.Pi / 180)
	return func(_, _ float64) (float64, float64) { return -fall * s, -fall * c }
}

func rectangle(x0, y0, x1, y1 float64) orb.Polygon {
	return orb.Polygon{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}}
}

// paraboloid is z = .005 x^2 + .01 y^2.
var paraboloid = ground(func(x, y float64) (float64, float64) { return .01 * x, .02 * y })
