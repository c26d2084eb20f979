// Package near measures plan distances between drawn shapes: points, lines and
// areas in local metres. Cautions and the layout of beds share it, so that a
// bed which the layout calls clear is clear for the cautions too.
//
// An area includes its edge and its inside but not its holes, by the even-odd
// rule, which also gives a meaning to a ring that crosses itself.
package near

import (
	"math"

	"github.com/paulmach/orb"
)

// Shape is a drawn shape made ready for measuring. Its zero value holds
// nothing and is measurable from nowhere.
type Shape struct {
	// Bound encloses the shape.
	Bound orb.Bound

	lines []line       // every edge; a lone point is an edge without length
	areas [][]orb.Ring // rings of each polygon, for the even-odd rule
	heads []orb.Point  // one point of each separate part
	bad   bool         // a coordinate is not a finite number
}

type line struct{ from, to orb.Point }

// Of makes a shape ready. Open rings are closed; an orb.Bound is its rectangle.
func Of(g orb.Geometry) Shape {
	var s Shape
	s.Bound = orb.Bound{
		Min: orb.Point{math.Inf(1), math.Inf(1)},
		Max: orb.Point{math.Inf(-1), math.Inf(-1)},
	}
	s.add(g)
	return s
}

func (s *Shape) add(g orb.Geometry) {
	switch g := g.(type) {
	case orb.Point:
		s.path([]orb.Point{g})
	case orb.MultiPoint:
		for _, p := range g {
			s.path([]orb.Point{p})
		}
	case orb.LineString:
		s.path(g)
	case orb.MultiLineString:
		for _, l := range g {
			s.path(l)
		}
	case orb.Ring:
		s.area(orb.Polygon{g})
	case orb.Polygon:
		s.area(g)
	case orb.MultiPolygon:
		for _, p := range g {
			s.area(p)
		}
	case orb.Bound:
		s.area(g.ToPolygon())
	case orb.Collection:
		for _, part := range g {
			s.add(part)
		}
	}
}

// path adds an open line of one point or more.
func (s *Shape) path(points []orb.Point) {
	if len(points) == 0 {
		return
	}
	s.heads = append(s.heads, points[0])
	for i, p := range points {
		if !finite(p) {
			s.bad = true
		}
		s.Bound = s.Bound.Extend(p)
		switch {
		case i > 0:
			s.lines = append(s.lines, line{points[i-1], p})
		case len(points) == 1:
			s.lines = append(s.lines, line{p, p})
		}
	}
}

// area adds a polygon: its rings as closed paths, and its inside.
func (s *Shape) area(p orb.Polygon) {
	rings := make([]orb.Ring, 0, len(p))
	for _, r := range p {
		if len(r) == 0 {
			continue
		}
		if r[0] != r[len(r)-1] {
			r = append(append(orb.Ring{}, r...), r[0])
		}
		s.path(r)
		rings = append(rings, r)
	}
	if len(rings) > 0 {
		s.areas = append(s.areas, rings)
	}
}

// Measurable is false for a shape that holds nothing, or a coordinate that is
// not a finite number: no distance from it can be told.
func (s Shape) Measurable() bool { return len(s.lines) > 0 && !s.bad }

// Covers is true when p lies inside one of the shape's areas. On the very
// edge either answer may come back.
func (s Shape) Covers(p orb.Point) bool {
	for _, rings := range s.areas {
		inside := false
		for _, r := range rings {
			for i := 1; i < len(r); i++ {
				if crossesEastOf(p, r[i-1], r[i]) {
					inside = !inside
				}
			}
		}
		if inside {
			return true
		}
	}
	return false
}

// crossesEastOf tells whether the edge a-b meets the ray from p to the east.
func crossesEastOf(p, a, b orb.Point) bool {
	if (a[1] > p[1]) == (b[1] > p[1]) {
		return false
	}
	return p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1])
}

func finite(p orb.Point) bool {
	return !math.IsNaN(p[0]-p[0]) && !math.IsNaN(p[1]-p[1])
}
