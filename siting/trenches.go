package siting

import (
	"fmt"

	"crossfall/terrain"
	"crossfall/terrain/relief"

	"github.com/paulmach/orb"
)

// trenches are those that would drain the hollows of the plot, each along the way
// of least cutting, within what a spade and a day will do. A hollow out of reach
// has none, and none are told on uneven ground of which not enough is known.
func (j judge) trenches(grid *terrain.Grid, decided []decision) []Drain {
	out := []Drain{}
	raster, err := relief.RasterOf(grid, 0)
	if err != nil || j.fit.Uneven {
		return out
	}
	_, cuts, err := relief.Breach(raster, relief.BreachOptions{}, false)
	if err != nil {
		return out
	}
	for _, c := range cuts {
		pond := j.pondAt(c.Line[0])
		if pond == "" {
			continue // a dip too shallow to be told from the errors of the survey
		}
		if why := j.digStop("the trench", c.Line, 0, decided); why != "" {
			out = append(out, Drain{Kind: DrainTrench, Points: []orb.Point{}, Why: why, Notes: []string{}})
			continue
		}
		first, last := c.Line[0], c.Line[len(c.Line)-1]
		out = append(out, Drain{
			Kind: DrainTrench, Points: c.Line, Depth: c.Depth * 1000, Length: c.Length,
			Said:  fmt.Sprintf("%s: %s; from %s to %s, where it must come out on your own land, never on to a neighbour", pond, c.Text(), placeSaid(first), placeSaid(last)),
			Notes: []string{"level along it before digging: the survey knows the sill only roughly"},
		})
	}
	return out
}
