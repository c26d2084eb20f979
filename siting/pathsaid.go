package siting

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/terrain/drainage"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// gateNear is how far from a gate or a path water may cross the edge and still
// be said to come in or leave by it; a default of ours.
const gateNear = 1.5 // m

// pathSaid tells a path in words: where the water comes in, what turns it,
// which beds it crosses, where it gathers and leaves.
func (j judge) pathSaid(c course, crossed []string) string {
	first, last := c.Points[0], c.Points[len(c.Points)-1]
	said := fmt.Sprintf("from the %s (%s)", j.edgeSaid(first), placeSaid(first))
	if len(c.turnedBy) > 0 {
		said += ", turned aside by the boards of " + strings.Join(c.turnedBy, ", then ")
	}
	if len(crossed) > 0 {
		said += " through the place of " + strings.Join(crossed, ", then ")
	}
	pond := j.pondAt(last)
	switch {
	case c.End == drainage.LeavesPlot:
		said += fmt.Sprintf(", leaves by the %s (%s)", j.edgeSaid(last), placeSaid(last))
	case pond != "":
		said += fmt.Sprintf(", gathers in %s (%s)", pond, placeSaid(last))
	case c.End == drainage.ReachesHollow:
		said += fmt.Sprintf(", stands in a dip (%s)", placeSaid(last))
	case c.End == drainage.EntersRegion:
		said += fmt.Sprintf(", stands against %s (%s)", c.against, placeSaid(last))
	default:
		said += fmt.Sprintf(", followed as far as %s: %s", placeSaid(last), c.End)
	}
	return said
}

// edgeSaid is the side of the plot that a point of its edge lies on, and the
// gate or path there.
func (j judge) edgeSaid(q orb.Point) string {
	side := sideOf(q, j.plot.Frame, j.plot.Boundary)
	for _, kind := range []geodata.Kind{geodata.GateKind, geodata.PathKind} {
		for _, f := range j.plot.OfKind(kind) {
			if distanceTo(f.Shape, q) <= gateNear {
				return side + " by " + named(f)
			}
		}
	}
	return side
}

// named is a fixture's name, or "the" and its kind.
func named(f geodata.Fixture) string {
	if f.Name != "" {
		return f.Name
	}
	return "the " + string(f.Kind)
}

// distanceTo is how far a point lies from a drawn shape, 0 inside an area.
func distanceTo(shape orb.Geometry, q orb.Point) float64 {
	switch s := shape.(type) {
	case orb.Point:
		return planar.Distance(s, q)
	case orb.LineString:
		return planar.DistanceFrom(s, q)
	case orb.Polygon:
		if planar.PolygonContains(s, q) {
			return 0
		}
		return planar.DistanceFrom(s, q)
	}
	return math.Inf(1)
}

// pondAt names the hollow whose water a point stands under, or "".
func (j judge) pondAt(q orb.Point) string {
	for _, h := range j.ponds {
		if outline, ok := h.Shape.(orb.Polygon); ok && planar.PolygonContains(outline, q) {
			return h.Name
		}
	}
	return ""
}
