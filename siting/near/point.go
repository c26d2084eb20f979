package near

import (
	"math"

	"github.com/paulmach/orb"
)

// EdgeDistance is the plan distance, m, of a point from the nearest edge of the
// shape, inside an area as outside it; +Inf for a shape that holds nothing.
func (s Shape) EdgeDistance(p orb.Point) float64 {
	square := math.Inf(1)
	for _, l := range s.lines {
		if d := apart(p, l.nearest(p)); d < square {
			square = d
		}
	}
	return math.Sqrt(square)
}
