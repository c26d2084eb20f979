package export

import (
	"fmt"
	"io"

	"crossfall/siting"
)

// pointProperties are what a point feature tells of its point.
type pointProperties struct {
	Kind   string   `json:"kind"`
	Name   string   `json:"name"`
	Height *float64 `json:"height_m"`
	Note   string   `json:"note,omitempty"`
}

// PointsGeoJSON writes points as GeoJSON: longitude and latitude where the plot's
// place is known, else metres, which the file says. Heights stand in the property
// height_m, not as a third coordinate, which would have to count from the
// ellipsoid.
func PointsGeoJSON(w io.Writer, name string, f siting.Frame, points []Point) error {
	c := newCollection(name, f)
	for i, p := range points {
		if err := c.point(fmt.Sprintf("point-%d", i+1), p.At, p.properties()); err != nil {
			return err
		}
	}
	return c.write(w)
}

func (p Point) properties() pointProperties {
	q := pointProperties{Kind: p.Kind, Name: p.Name, Note: p.Note}
	if p.hasHeight() {
		z := rounded(p.Height, 3)
		q.Height = &z
	}
	return q
}
