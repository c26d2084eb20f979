package plotfolder

import (
	"slices"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// systems is how the coordinates of the files lie to the frame of the plot.
type systems struct {
	degrees bool                // some came as longitude and latitude
	local   geodata.LocalMetres // of those
	moved   bool                // the shapes in the other system than the heights were moved on to them
	motion  motion
}

// joinSystems turns all degrees into metres and moves the shapes of the other
// system into the frame of the heights. It is false when they cannot be joined.
func joinSystems(s *survey, shapes []drawn, c *collector) (y systems, ok bool) {
	degrees := placesInDegrees(*s, shapes)
	if len(degrees) == 0 {
		return y, true
	}
	y.degrees, y.local = true, geodata.LocalMetres{Origin: geodata.CentreOf(degrees)}
	before := named(s.spots, shapes, s.lonLat)
	project(y.local, s, shapes)
	moving := func(d drawn) bool { return d.lonLat != s.lonLat }
	if !slices.ContainsFunc(shapes, moving) {
		return y, true
	}
	if y.motion, ok = joinByMarks(before, s, shapes, c); !ok {
		return y, false
	}
	y.moved = true
	for i := range shapes {
		if moving(shapes[i]) {
			shapes[i].move(y.motion)
		}
	}
	return y, true
}

// fromPlot turns a place in the frame of the plot into the coordinates of a file
// in degrees, or in metres, with heights in degrees or not.
func (y systems) fromPlot(p orb.Point, lonLat, heightsLonLat bool) orb.Point {
	if y.moved && lonLat != heightsLonLat {
		p = y.motion.back(p)
	}
	if lonLat {
		p = y.local.Back(p)
	}
	return p
}

// placesInDegrees lists every place that came as longitude and latitude: of
// the boundary when it did, else of all.
func placesInDegrees(s survey, shapes []drawn) (out []orb.Point) {
	for _, d := range shapes {
		if d.lonLat && d.Kind == geodata.BoundaryKind {
			out = append(out, pointsOf(d.parts)...)
		}
	}
	if len(out) > 0 {
		return out
	}
	if s.lonLat {
		for _, spot := range s.spots {
			out = append(out, spot.At)
		}
	}
	for _, d := range shapes {
		if d.lonLat {
			out = append(out, pointsOf(d.parts)...)
		}
	}
	return out
}

// project turns all longitudes and latitudes into metres.
func project(local geodata.LocalMetres, s *survey, shapes []drawn) {
	if s.lonLat {
		for i := range s.spots {
			s.spots[i].At = local.From(s.spots[i].At)
		}
	}
	for i := range shapes {
		if shapes[i].lonLat {
			shapes[i].each(local.From)
		}
	}
}
