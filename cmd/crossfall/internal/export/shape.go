package export

import (
	"slices"

	"github.com/paulmach/orb"
	"github.com/twpayne/go-geom"
)

// line appends a line, which must have two places.
func (c *collection) line(id string, points []orb.Point, properties any) error {
	if len(points) < 2 {
		return nil
	}
	shape, err := geom.NewLineString(geom.XY).SetCoords(c.coords(points))
	if err != nil {
		return err
	}
	return c.add(id, shape, properties)
}

// area appends a polygon of an outer ring and rings within it. Rings need not
// repeat their first place; the outer one is turned counterclockwise and the others
// clockwise, as RFC 7946 asks. Nothing bounds an area with fewer than three places.
func (c *collection) area(id string, rings [][]orb.Point, properties any) error {
	if len(rings) == 0 || len(rings[0]) < 3 {
		return nil
	}
	shape, err := geom.NewPolygon(geom.XY).SetCoords(c.rings(rings))
	if err != nil {
		return err
	}
	return c.add(id, shape, properties)
}

// areas appends several polygons as one feature; see area.
func (c *collection) areas(id string, polygons [][][]orb.Point, properties any) error {
	if len(polygons) == 0 {
		return nil
	}
	all := make([][][]geom.Coord, len(polygons))
	for i, rings := range polygons {
		all[i] = c.rings(rings)
	}
	shape, err := geom.NewMultiPolygon(geom.XY).SetCoords(all)
	if err != nil {
		return err
	}
	return c.add(id, shape, properties)
}

// rings are the rings of a polygon, closed and turned.
func (c *collection) rings(rings [][]orb.Point) (all [][]geom.Coord) {
	for i, r := range rings {
		if len(r) < 3 {
			continue
		}
		ring := slices.Clone(orb.Ring(r))
		if !ring.Closed() {
			ring = append(ring, ring[0])
		}
		if want := map[bool]orb.Orientation{true: orb.CCW, false: orb.CW}[i == 0]; ring.Orientation() != want {
			slices.Reverse(ring)
		}
		all = append(all, c.coords(ring))
	}
	return all
}

// shape appends a point, a line or an area, whichever some places make.
func (c *collection) shape(id string, points []orb.Point, isArea bool, properties any) error {
	switch {
	case len(points) == 0:
		return nil
	case len(points) == 1:
		return c.point(id, points[0], properties)
	case isArea && len(points) > 2:
		return c.area(id, [][]orb.Point{points}, properties)
	}
	return c.line(id, points, properties)
}

func (c *collection) coords(points []orb.Point) []geom.Coord {
	out := make([]geom.Coord, len(points))
	for i, p := range points {
		out[i] = c.coord(p)
	}
	return out
}
