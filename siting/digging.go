package siting

import (
	"fmt"
	"math"

	"crossfall/siting/caution"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// digStop says why a line of a width (m) or a place must not be dug, or "": it comes
// too near a service, foul ground or a tree, or it runs through a bed.
func (j judge) digStop(what string, shape orb.Geometry, width float64, decided []decision) string {
	cut := shape
	if line, ok := shape.(orb.LineString); ok && len(line) == 2 && width > 0 {
		cut = strip(line[0], line[1], width)
	}
	work := []caution.Work{{Bed: what, Outline: spotAt(shape), Cuts: []orb.Geometry{cut}, OnlyDug: true}}
	found := caution.Services(j.plot, work)
	found = append(found, caution.FoulGround(j.plot, work)...)
	found = append(found, caution.Trees(j.plot, work)...)
	for _, c := range found {
		if c.Severity == caution.Stop {
			return c.Text
		}
	}
	for _, d := range decided {
		if passes(shape, d.bed.Footprint()) {
			return fmt.Sprintf("%s would run through the place of %s: move the bed, or do without", what, d.bed.Name)
		}
	}
	return ""
}

// strip is the ground within half a width of a straight line.
func strip(a, b orb.Point, width float64) orb.Polygon {
	long := math.Max(planar.Distance(a, b), 1e-9)
	x, y := (b[0]-a[0])/long*width/2, (b[1]-a[1])/long*width/2
	return orb.Polygon{{
		{a[0] - y, a[1] + x}, {b[0] - y, b[1] + x}, {b[0] + y, b[1] - x}, {a[0] + y, a[1] - x}, {a[0] - y, a[1] + x},
	}}
}

// spotAt is a square of a centimetre at the first point of a shape: the outline of
// a work that is only dug.
func spotAt(shape orb.Geometry) orb.Polygon {
	return shape.Bound().Center().Bound().Pad(0.005).ToPolygon()
}

// passes tells whether a line or a point enters an area.
func passes(shape orb.Geometry, area orb.Polygon) bool {
	line, ok := shape.(orb.LineString)
	if !ok {
		at, isPoint := shape.(orb.Point)
		return isPoint && planar.PolygonContains(area, at)
	}
	for i, q := range line {
		if planar.PolygonContains(area, q) {
			return true
		}
		for k := 1; i > 0 && k < len(area[0]); k++ {
			if cross(line[i-1], q, area[0][k-1], area[0][k]) {
				return true
			}
		}
	}
	return false
}
