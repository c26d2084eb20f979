package kml

import (
	"slices"

	"crossfall/geodata"
	"crossfall/geodata/internal/xmlscan"
)

// shapes are the elements that hold coordinates, or hand their altitude mode
// down to those that do, and the kind of their points.
var shapes = map[string]string{
	"Point": "point", "LineString": "line", "LinearRing": "ring", "Polygon": "area",
	"MultiGeometry": "group", "Track": "track", "MultiTrack": "tracks",
}

// shape is a shape while its element is open, and after it while its corners
// wait for the placemark's end.
type shape struct {
	element *xmlscan.Element
	kind    string
	within  *shape
	mode    string // altitude mode; empty: not said here
	modePos geodata.Pos
}

// corner is one place of a shape: longitude, latitude and perhaps altitude.
type corner struct {
	numbers []float64
	pos     geodata.Pos
	of      *shape
}

// altitudeMode is the shape's own or that of the nearest shape around it that
// says one, and where it stands.
func (s *shape) altitudeMode() (string, geodata.Pos) {
	for ; s != nil; s = s.within {
		if s.mode != "" {
			return s.mode, s.modePos
		}
	}
	return "clampToGround", geodata.Pos{}
}

// height is the altitude of a corner as a height of the ground, if it is one.
func (r *reader) height(c corner) (float64, bool) {
	z := c.numbers[2]
	mode, pos := c.of.altitudeMode()
	switch mode {
	case "absolute":
		return z, true
	case "relativeToGround", "relativeToSeaFloor", "clampToSeaFloor":
		if r.aboveGround++; r.aboveGround == 1 {
			r.firstAbove = c.pos
		}
		return 0, false
	case "clampToGround":
	default:
		if !slices.Contains(r.modeless, mode) && len(r.modeless) < 20 {
			r.modeless = append(r.modeless, mode)
			r.Faults.Warn(pos, "kml-altitude-mode-unknown", mode, "this altitude mode is not known: taken as laid on the ground", "write absolute for heights above the sea")
		}
	}
	if z == 0 {
		return 0, false
	}
	if r.onGround++; r.onGround == 1 {
		r.firstOnGround = c.pos
	}
	return z, true
}
