package drainage

import (
	"math"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// Field is ground whose gradient is known at points. ok is false where it has
// nothing to say.
type Field interface {
	GradientAt(p orb.Point) (g terrain.Gradient, ok bool)
}

// vector is a direction of length 1, east and north.
type vector struct{ east, north float64 }

func (v vector) dot(w vector) float64 { return v.east*w.east + v.north*w.north }

// from is the point reached from p by walking d metres on v.
func (v vector) from(p orb.Point, d float64) orb.Point {
	return orb.Point{p[0] + d*v.east, p[1] + d*v.north}
}

// steepest is the direction of steepest descent (sense -1) or ascent (+1) at a
// point, and the fall there. ok is false off the known ground and on ground
// that is exactly level.
func steepest(f Field, p orb.Point, sense float64) (v vector, fall float64, ok bool) {
	g, ok := f.GradientAt(p)
	if !ok {
		return vector{}, 0, false
	}
	return along(g, sense)
}

// along is the direction of steepest descent or ascent of a gradient, and its
// fall. ok is false where it is exactly level.
func along(g terrain.Gradient, sense float64) (v vector, fall float64, ok bool) {
	fall = g.Fall()
	if !(fall > 0) || math.IsInf(fall, 0) {
		return vector{}, 0, false
	}
	return vector{sense * g.East / fall, sense * g.North / fall}, fall, true
}
