package export

import (
	"errors"
	"fmt"
	"io"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/plan"

	"github.com/paulmach/orb"
)

// GeoJSON writes everything of an assessment that has a place: boundary, beds and
// their pegs, ways for compost, ground for what is to come, contours, hollows, ways of water, drains, what was drawn and the
// ground to keep free around services, and heights. Every feature has a kind; those
// that were drawn have the kind that plot.geojson calls them by. Lengths are metres
// or millimetres, as the names of the properties say.
func GeoJSON(w io.Writer, a *siting.Assessment) error {
	c := newCollection(a.Name, a.Frame)
	err := errors.Join(
		c.area("boundary", [][]orb.Point{a.Frame.Boundary}, boundaryProperties{"boundary", rounded(a.Frame.Area, 2), a.Frame.BoundaryDrawn}),
		c.beds(a.Beds),
		c.ways(a.Beds),
		c.toCome(a.ToCome),
		c.drawn(a.Features),
		c.water(a),
		c.ground(a.Ground),
	)
	if err != nil {
		return err
	}
	return c.write(w)
}

type boundaryProperties struct {
	Kind  string  `json:"kind"`
	Area  float64 `json:"area_m2"`
	Drawn bool    `json:"drawn"` // false: the hull of the heights
}

// drawnProperties are those of what was drawn; see siting.Feature.
type drawnProperties struct {
	Kind      string  `json:"kind"`
	Name      string  `json:"name"`
	What      string  `json:"what,omitempty"`
	Carries   string  `json:"carries,omitempty"`
	Overhead  bool    `json:"overhead,omitempty"`
	Height    float64 `json:"height_m,omitempty"`
	Clearance float64 `json:"clearance_m,omitempty"`
	Roots     float64 `json:"root_radius_m,omitempty"`
}

// clearanceProperties are those of the ground to be kept free around a service.
type clearanceProperties struct {
	Kind      string  `json:"kind"`
	Of        string  `json:"of"`
	Carries   string  `json:"carries"`
	Clearance float64 `json:"clearance_m"`
}

// drawn appends what was drawn, each service followed by its clearance.
func (c *collection) drawn(features []siting.Feature) error {
	for i, f := range features {
		id := fmt.Sprintf("drawn-%d", i+1)
		p := drawnProperties{f.Kind, f.Name, f.What, f.Carries, f.Overhead, f.HeightM, rounded(f.ClearanceM, 3), rounded(f.RadiusM, 3)}
		if err := c.shape(id, f.Points, f.Area, p); err != nil {
			return err
		}
		if f.Kind != string(geodata.ServiceKind) {
			continue
		}
		if rings := plan.Clearance(f); len(rings) > 0 {
			if err := c.area(id+"-clearance", rings, clearanceProperties{"clearance", f.Name, f.Carries, rounded(f.ClearanceM, 3)}); err != nil {
				return err
			}
		}
	}
	return nil
}
