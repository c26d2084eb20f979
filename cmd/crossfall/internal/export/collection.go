package export

import (
	"encoding/json"
	"io"
	"strings"

	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/twpayne/go-geom"
	"github.com/twpayne/go-geom/encoding/geojson"
)

// collection is a GeoJSON feature collection. With the plot's place known it is one
// of RFC 7946: longitude and latitude on WGS84. Otherwise its coordinates are
// metres, which RFC 7946 does not know, and it says so twice: for people in
// coordinate_frame, and for programs by the member crs of the GeoJSON of 2008.
type collection struct {
	Type     string       `json:"type"`
	Name     string       `json:"name"`
	CRS      *localSystem `json:"crs,omitempty"`
	Frame    string       `json:"coordinate_frame"`
	Heights  string       `json:"heights"`
	Features []feature    `json:"features"`
	to       func(orb.Point) orb.Point
}

// feature is one GeoJSON feature.
type feature struct {
	Type       string            `json:"type"`
	ID         string            `json:"id"`
	Geometry   *geojson.Geometry `json:"geometry"`
	Properties any               `json:"properties"`
}

// localSystem is a member crs that names a system of metres of the plot's own, as
// well-known text of ISO 19162, which GDAL and what is built on it read.
type localSystem struct {
	Type       string `json:"type"`
	Properties struct {
		Name string `json:"name"`
	} `json:"properties"`
}

const localWKT = `ENGCRS["metres of the plot",EDATUM["corner of the plot"],CS[Cartesian,2],AXIS["x",east],AXIS["y",north],LENGTHUNIT["metre",1]]`

// newCollection begins a collection of features of a plot.
func newCollection(name string, f siting.Frame) *collection {
	c := &collection{
		Type: "FeatureCollection", Name: name, Features: []feature{},
		Heights: "metres above the survey's own datum, not above the ellipsoid",
		Frame:   "longitude and latitude in degrees on WGS84, as RFC 7946 says",
	}
	if on, ok := placed(f); ok {
		c.to = on.lonLat
		if on.said != "" {
			c.Frame += "; " + on.said
		}
		return c
	}
	c.CRS = &localSystem{Type: "name"}
	c.CRS.Properties.Name = localWKT
	c.Frame = "metres east and north of the plot's own corner, +y to " + f.North + ": not longitude and latitude"
	c.to = func(p orb.Point) orb.Point { return p }
	return c
}

// decimals are those of one coordinate.
func (c *collection) decimals() int {
	if c.CRS == nil {
		return degreeDecimals
	}
	return metreDecimals
}

// coord is a place in the collection's own coordinates.
func (c *collection) coord(p orb.Point) geom.Coord {
	q := c.to(p)
	return geom.Coord{rounded(q[0], c.decimals()), rounded(q[1], c.decimals())}
}

// add appends a feature of a shape of go-geom.
func (c *collection) add(id string, shape geom.T, properties any) error {
	g, err := geojson.Encode(shape)
	if err != nil {
		return err
	}
	c.Features = append(c.Features, feature{"Feature", id, g, properties})
	return nil
}

// point appends a point.
func (c *collection) point(id string, at orb.Point, properties any) error {
	shape, err := geom.NewPoint(geom.XY).SetCoords(c.coord(at))
	if err != nil {
		return err
	}
	return c.add(id, shape, properties)
}

// write ends the collection, one feature a line.
func (c *collection) write(w io.Writer) error {
	lines := make([]string, len(c.Features))
	for i, f := range c.Features {
		line, err := compact(f)
		if err != nil {
			return err
		}
		lines[i] = line
	}
	head := *c
	head.Features = []feature{}
	begin, err := compact(head)
	if err != nil {
		return err
	}
	begin = strings.TrimSuffix(begin, "]}")
	if len(lines) > 0 {
		begin, lines[len(lines)-1] = begin+"\n", lines[len(lines)-1]+"\n"
	}
	_, err = io.WriteString(w, begin+strings.Join(lines, ",\n")+"]}\n")
	return err
}

// compact is a value as JSON on one line.
func compact(v any) (string, error) {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return strings.TrimSuffix(b.String(), "\n"), err
}
