package export

import (
	"errors"
	"fmt"

	"crossfall/siting"

	"github.com/paulmach/orb"
)

// ways appends the way by which compost gets to each bed.
func (c *collection) ways(beds []siting.Bed) (all error) {
	for i, b := range beds {
		if b.Access == nil {
			continue
		}
		var p properties
		p.add("kind", "way for compost")
		p.add("bed", b.Name)
		p.add("by", b.Access.By)
		p.add("from", b.Access.From)
		p.number("length_m", b.Access.Length, 1)
		p.band("climb_m", &b.Access.Climb, 2)
		p.band("steepest_rise_percent", &b.Access.SteepestRise, 1)
		p.add("said", b.Access.Said)
		all = errors.Join(all, c.line(fmt.Sprintf("way-%d", i+1), inPlan(b.Access.Route), p))
	}
	return all
}

// inPlan are the places of corners without their heights.
func inPlan(corners []siting.Corner) []orb.Point {
	out := make([]orb.Point, len(corners))
	for i, q := range corners {
		out[i] = orb.Point{q[0], q[1]}
	}
	return out
}
