package relief

import (
	"math"

	"crossfall/terrain"
)

// Method is a way of taking derivatives from a node and its eight neighbours.
type Method uint8

// The methods. Evans, a least-squares quadratic through the nine heights, is
// the default because it is the least upset by errors in the heights.
const (
	// Evans is Evans 1972, "General geomorphometry, derivatives of altitude,
	// and descriptive statistics" (from memory).
	Evans Method = iota
	// Horn is Horn 1981, Proceedings of the IEEE 69(1), the one in common
	// use in mapping software (from memory).
	Horn
	// ZevenbergenThorne is Zevenbergen & Thorne 1987, Earth Surface
	// Processes and Landforms 12 (from memory): the closest of the three on
	// clean heights and the worst on noisy ones.
	ZevenbergenThorne
)

// weights are those of the outer and of the middle line of the three.
func (m Method) weights() (side, middle float64) {
	switch m {
	case Horn:
		return 1, 2
	case ZevenbergenThorne:
		return 0, 1
	}
	return 1, 1
}

// Window is the heights of a node and its eight neighbours in metres, row by
// row with the northern row first; number 4 is the node itself.
type Window [9]float64

// Gradient is the gradient at the middle of the window, for nodes cell metres
// apart.
func (w Window) Gradient(m Method, cell float64) terrain.Gradient {
	side, middle := m.weights()
	span := 2 * cell * (2*side + middle)
	return terrain.Gradient{
		East:  (side*(w[2]-w[0]) + middle*(w[5]-w[3]) + side*(w[8]-w[6])) / span,
		North: (side*(w[0]-w[6]) + middle*(w[1]-w[7]) + side*(w[2]-w[8])) / span,
	}
}

// Second is the second derivatives of the height, 1/m.
type Second struct{ EastEast, EastNorth, NorthNorth float64 }

// Second is the second derivatives at the middle of the window. Horn's paper
// has none, so Horn gives those of Evans.
func (w Window) Second(m Method, cell float64) Second {
	area := cell * cell
	s := Second{EastNorth: (w[2] + w[6] - w[0] - w[8]) / (4 * area)}
	if m == ZevenbergenThorne {
		s.EastEast = (w[3] + w[5] - 2*w[4]) / area
		s.NorthNorth = (w[1] + w[7] - 2*w[4]) / area
		return s
	}
	s.EastEast = (w[0] + w[3] + w[6] + w[2] + w[5] + w[8] - 2*(w[1]+w[4]+w[7])) / (3 * area)
	s.NorthNorth = (w[0] + w[1] + w[2] + w[6] + w[7] + w[8] - 2*(w[3]+w[4]+w[5])) / (3 * area)
	return s
}

// Curvature is how the ground bends, 1/m; positive is convex.
type Curvature struct {
	Profile    float64 // down the slope: positive ground steepens, water speeds up
	Tangential float64 // across the slope: positive ground spreads water
	Plan       float64 // of the contour line
}

// Curvature is the bend of ground with gradient g. ok is false on level
// ground, where there is no down the slope. Formulas after Evans 1972 and
// Mitasova & Hofierka 1993 (from memory).
func (s Second) Curvature(g terrain.Gradient) (c Curvature, ok bool) {
	p, q := g.East, g.North
	fall2 := p*p + q*q
	if !(fall2 > 0) {
		return Curvature{}, false
	}
	secant := math.Sqrt(1 + fall2)
	down := p*p*s.EastEast + 2*p*q*s.EastNorth + q*q*s.NorthNorth
	across := q*q*s.EastEast - 2*p*q*s.EastNorth + p*p*s.NorthNorth
	c.Profile = -down / (fall2 * secant * secant * secant)
	c.Tangential = -across / (fall2 * secant)
	c.Plan = -across / (fall2 * math.Sqrt(fall2))
	return c, true
}
