package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/relief"
	"crossfall/terrain/surface"
)

// contour draws the contours, at heights that are round in the units of those who
// read them.
func (g *Ground) contour(r reliefOf, fit *surface.Fit, precision float64, units geodata.Units) {
	interval := relief.Interval
	g.ContourUnits = geodata.Metric
	if units == geodata.FeetAndInch {
		interval, g.ContourUnits = relief.IntervalInFeet, units
	}
	if !(r.high > r.low) {
		return
	}
	g.ContourInterval = interval(r.low, r.high, precision)
	for _, c := range contoursOf(r.grid, fit, relief.Levels(r.low, r.high, g.ContourInterval)) {
		g.Contours = append(g.Contours, Contour{Level: c.Level, Points: c.Line, Closed: c.Closed})
	}
}

// contoursOf draws contours at some levels, those of each part between break
// lines for itself: none straddles a wall, as none does on the ground.
func contoursOf(grid *terrain.Grid, fit *surface.Fit, levels []float64) []relief.Contour {
	if fit.Pieces == nil {
		return relief.Contours(grid, levels)
	}
	part := make([]int, len(grid.Z)) // of each node
	for i := range part {
		part[i] = fit.Pieces.PartAt(grid.Node(i%grid.Cols, i/grid.Cols))
	}
	var out []relief.Contour
	for k := range fit.Pieces.Parts {
		own := terrain.NewGrid(grid.Origin, grid.Cell, grid.Cols, grid.Rows)
		for i, z := range grid.Z {
			if part[i] == k && !math.IsNaN(z) {
				own.Z[i] = z
			}
		}
		out = append(out, relief.Contours(own, levels)...)
	}
	return out
}
