package terrain

import (
	"math"

	"github.com/paulmach/orb"
)

// Gradient is the rise of the ground per metre east and per metre north.
type Gradient struct{ East, North float64 }

// Fall is the steepest gradient: the tangent of the slope angle, 0 or more.
func (g Gradient) Fall() float64 { return math.Hypot(g.East, g.North) }

// Downhill is the bearing of steepest descent, the way water leaves. It has no
// meaning where Fall is 0.
func (g Gradient) Downhill() Bearing { return BearingOf(-g.East, -g.North) }

// Along is the rise per metre walked on a bearing; negative when it falls.
func (g Gradient) Along(b Bearing) float64 {
	e, n := b.Unit()
	return g.East*e + g.North*n
}

// Bearing is radians clockwise from the +y axis, 0 or more and under 2 pi.
type Bearing float64

// BearingOf is the bearing of a direction given by its east and north parts.
func BearingOf(east, north float64) Bearing {
	return Bearing(math.Atan2(east, north)).Normal()
}

// FromDegrees is the bearing of so many degrees clockwise from the +y axis.
func FromDegrees(d float64) Bearing { return Bearing(d * math.Pi / 180).Normal() }

// Normal brings a bearing into 0 to 2 pi.
func (b Bearing) Normal() Bearing {
	m := math.Mod(float64(b), 2*math.Pi)
	if m < 0 {
		m += 2 * math.Pi
	}
	if m >= 2*math.Pi {
		m = 0
	}
	return Bearing(m)
}

// Degrees is the bearing in degrees, 0 or more and under 360.
func (b Bearing) Degrees() float64 { return float64(b) * 180 / math.Pi }

// Unit is the direction's east and north parts, of length 1.
func (b Bearing) Unit() (east, north float64) {
	return math.Sin(float64(b)), math.Cos(float64(b))
}

// Step is the point a distance (metres) away on this bearing.
func (b Bearing) Step(from orb.Point, distance float64) orb.Point {
	e, n := b.Unit()
	return orb.Point{from[0] + e*distance, from[1] + n*distance}
}

// Heights is anything that knows the height of the ground at a point. ok is
// false where it has nothing to say.
type Heights interface {
	HeightAt(p orb.Point) (z float64, ok bool)
}
