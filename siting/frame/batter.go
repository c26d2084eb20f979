package frame

import (
	"math"

	"crossfall/geodata"
)

// Angles at which an open edge of compost stands, from level: drained in a dry
// season, and wet. Defaults of ours.
const (
	batterDry = 35 * math.Pi / 180
	batterWet = 30 * math.Pi / 180
)

// Batter is how far in plan an open edge of compost of depth d (m) runs from its
// foot to its top, on ground that falls by the ratio fall across it, for an edge
// that stands at an angle from level (radians): d / (tan angle - fall) on the
// downhill side and d / (tan angle + fall) on the uphill side. Geometry of a
// plane. Ground as steep as the edge holds none: the downhill run is +Inf.
func Batter(d, angle, fall float64) (downhill, uphill float64) {
	t := math.Tan(angle)
	if fall >= t {
		return math.Inf(1), d / (t + fall)
	}
	return d / (t - fall), d / (t + fall)
}

// Edges are the runs of an open bed's edges, m: the value for a dry season, the
// high end for a wet one.
type Edges struct{ Downhill, Uphill geodata.Estimate }

// openEdges are the edges of a bed without boards. Its fall is far less than an
// edge's own, by the limits of the class.
func (c *Case) openEdges() *Edges {
	dryDown, dryUp := Batter(c.Fill, batterDry, c.Across)
	wetDown, wetUp := Batter(c.Fill, batterWet, c.Across)
	return &Edges{
		Downhill: geodata.Estimate{Value: dryDown, Low: dryDown, High: math.Max(dryDown, wetDown)},
		Uphill:   geodata.Estimate{Value: dryUp, Low: dryUp, High: wetUp},
	}
}
