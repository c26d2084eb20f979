package siting

import (
	"context"
	"fmt"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/drainage"
	"crossfall/terrain/relief"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Place is ground of the plot that is likely to stay wet in winter, or where
// cold air is likely to lie on a still, clear night.
type Place struct {
	What string    `json:"what"` // "damp" or "cold air"
	Said string    `json:"said"`
	At   orb.Point `json:"at"`
	Area float64   `json:"area_m2"`
	Beds []string  `json:"beds"` // that lie in it

	nodes []int
}

// The two kinds of place.
const (
	DampPlace = "damp"
	ColdPlace = "cold air"
)

// coldBarriers are the obstacles that may be closed across a slope.
var coldBarriers = map[string]bool{"hedge": true, "fence": true, "wall": true}

// wetAndCold finds the damp places of the plot and those where cold air lies.
// On uneven ground of which not enough is known it finds none.
func (j judge) wetAndCold(ctx context.Context, grid *terrain.Grid) ([]Place, error) {
	out := []Place{}
	grid = aboveLowest(grid)
	raster, err := relief.RasterOf(grid, 0)
	if err != nil || j.fit.Uneven {
		return out, err
	}
	damp, err := drainage.DampPlaces(ctx, raster, drainage.DampOptions{Hollows: relief.HollowOptions{MinDepth: leastHollow(j.brief.Precision)}})
	if err != nil {
		return nil, err
	}
	for _, d := range damp {
		out = append(out, Place{What: DampPlace, Said: dampSaid(d), At: d.At, Area: d.Area, nodes: d.Nodes})
	}
	cold, err := relief.ColdAir(grid, j.barriersToAir(), relief.ColdAirOptions{})
	if err != nil {
		return nil, err
	}
	return append(out, coldPlaces(grid, cold)...), nil
}

func dampSaid(d drainage.Damp) string {
	if d.Why == drainage.HoldsWater {
		return fmt.Sprintf("%s, up to %.0f mm deep over %.1f m²", d.Why, d.Depth*1000, d.Area)
	}
	return fmt.Sprintf("%s, over %.1f m²: likely to stay wet after the rest has dried", d.Why, d.Area)
}

// barriersToAir are the drawn obstacles that may hold up cold air. One whose
// height was not said is left out.
func (j judge) barriersToAir() []relief.Barrier {
	var out []relief.Barrier
	for _, f := range j.plot.OfKind(geodata.ObstacleKind) {
		if !coldBarriers[f.What] || !(f.TopHeight > 0) {
			continue
		}
		switch s := f.Shape.(type) {
		case orb.LineString:
			out = append(out, relief.Barrier{Line: s, Height: f.TopHeight})
		case orb.Polygon:
			out = append(out, relief.Barrier{Line: orb.LineString(s[0]), Height: f.TopHeight})
		}
	}
	return out
}

// coldPlaces puts the three ways in which cold air lies into words.
func coldPlaces(grid *terrain.Grid, c *relief.ColdPlaces) []Place {
	var out []Place
	for _, h := range c.Hollows {
		out = append(out, Place{
			What: ColdPlace, Said: fmt.Sprintf("cold air lies in a hollow of %.1f m² on still, clear nights", h.Area),
			At: h.Deepest, Area: h.Area, nodes: h.Cells,
		})
	}
	for _, d := range c.Dammed {
		middle, _ := planar.CentroidArea(d.Outline)
		out = append(out, Place{
			What: ColdPlace, Said: fmt.Sprintf("a barrier across the slope holds up cold air over %.1f m²: leave a gap at its foot", d.Area),
			At: middle, Area: d.Area, nodes: d.Nodes,
		})
	}
	if n := len(c.LowGround); n > 0 {
		area := float64(n) * grid.Cell * grid.Cell
		i := c.LowGround[n/2]
		out = append(out, Place{
			What: ColdPlace, Said: fmt.Sprintf("low and nearly level ground of %.1f m², where cold air may lie", area),
			At: grid.Node(i%grid.Cols, i/grid.Cols), Area: area, nodes: c.LowGround,
		})
	}
	return out
}

// placeNotes tells at each bed what place it lies in, and at each place which
// beds do. A bed lies in a place that takes a quarter of it or more, a default
// of ours.
func placeNotes(places []Place, grid *terrain.Grid, beds []Bed, decided []decision) {
	for i := range places {
		places[i].Beds = []string{}
	}
	for b, d := range decided {
		beds[b].PlaceNotes = []string{}
		footprint := d.bed.Footprint()
		for i := range places {
			inside := 0
			for _, n := range places[i].nodes {
				if planar.PolygonContains(footprint, grid.Node(n%grid.Cols, n/grid.Cols)) {
					inside++
				}
			}
			if 4*float64(inside)*grid.Cell*grid.Cell >= d.bed.Length*d.bed.Width {
				places[i].Beds = append(places[i].Beds, d.bed.Name)
				beds[b].PlaceNotes = append(beds[b].PlaceNotes, places[i].What+": "+places[i].Said)
			}
		}
	}
}
