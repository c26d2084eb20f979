package siting

import (
	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/drainage"
	"crossfall/terrain/relief"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// ground to follow water over: the plot's own fit inside the boundary, and the
// hillside around it where one was given.
type around struct {
	inside   drainage.Field
	boundary orb.Polygon
	hill     *relief.SlopeGrid
}

// GradientAt is the gradient of the plot's fit inside the boundary and of the
// hillside outside.
func (a around) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	if planar.PolygonContains(a.boundary, p) {
		return a.inside.GradientAt(p)
	}
	return a.hill.GradientAt(p)
}

// withHillside is the field and the extent over which water is followed uphill
// from a bed. Without a hillside it ends at the plot's boundary.
func withHillside(p *geodata.Plot, inside drainage.Field) (drainage.Field, orb.Polygon) {
	if p.Hillside == nil {
		return inside, p.Boundary
	}
	h := p.Hillside
	grid := &terrain.Grid{Origin: h.Origin, Cell: h.Cell, Cols: h.Cols, Rows: h.Rows, Z: h.Z}
	// Evans's nine-point slopes are the least upset by the noise of a laser
	// survey (relief.Evans).
	hill, err := relief.Slopes(grid, relief.SlopeOptions{Method: relief.Evans, Edges: true})
	if err != nil {
		return inside, p.Boundary
	}
	return around{inside: inside, boundary: p.Boundary, hill: hill}, h.Bound().ToPolygon()
}
