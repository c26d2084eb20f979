package setout

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// Spot is a place where a cane can be set. One that stays can be found again:
// a gate post, a corner of the boundary or of a shed.
type Spot struct {
	Name  string // such as "gate post"
	Where string // such as "against the left post of the field gate"
	At    orb.Point
}

// places is how many places on the boundary, and inside the plot along its
// longer side, a cane is tried at.
const places = 40

// alongBoundary are places on the drawn boundary, told by their distance from
// one of its corners.
func alongBoundary(site Site) []Spot {
	var out []Spot
	around := 0.0
	for i := 1; i < len(site.Boundary); i++ {
		around += distance(site.Boundary[i-1], site.Boundary[i])
	}
	if len(site.CornerNames)+1 != len(site.Boundary) || around == 0 {
		return nil
	}
	step := math.Max(1, math.Ceil(around/places))
	for i := 1; i < len(site.Boundary); i++ {
		a, b := site.Boundary[i-1], site.Boundary[i]
		names := site.CornerNames
		from, to := names[i-1], names[i%len(names)]
		for x := step; x < distance(a, b)-step/2; x += step {
			p := lineOf(a, b).at(x, 0)
			out = append(out, Spot{"cane", fmt.Sprintf("on the boundary, %.0f m from its %s towards its %s", x, from, to), p})
		}
	}
	return site.allowed(out)
}

// inside are places on open ground inside the boundary, a few metres apart.
func (site Site) inside() []Spot {
	var out []Spot
	b := site.Boundary.Bound()
	step := math.Max(1, math.Ceil(math.Max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])/places*2))
	for x := math.Ceil(b.Min[0]); x < b.Max[0]; x += step {
		for y := math.Ceil(b.Min[1]); y < b.Max[1]; y += step {
			out = append(out, Spot{Name: "cane", At: orb.Point{x, y}})
		}
	}
	return site.allowed(out)
}

// allowed are the spots where a cane may be pushed in: clear of beds, services
// and what stands there.
func (site Site) allowed(spots []Spot) []Spot {
	if site.Allowed == nil {
		return spots
	}
	var out []Spot
	for _, s := range spots {
		if site.Allowed(s.At) {
			out = append(out, s)
		}
	}
	return out
}
