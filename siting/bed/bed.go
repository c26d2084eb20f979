// Package bed is the geometry of one bed on the ground: its corners, the fall
// of the ground across and along it, and the fill under a top of given slope.
// Framing, quantities, cautions and setting out all share it.
//
// A bed is a rectangle in plan. "Across" is along the short side, from the
// uphill long side to the downhill one; "along" is along the long side.
// Looking uphill, the left end comes first.
package bed

import (
	"math"

	"crossfall/geodata"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// Bed is where a bed lies. Lengths are plan metres.
type Bed struct {
	Name   string
	Centre orb.Point
	// LongSide is the bearing of the long side's line, radians from the +y
	// axis; a line has two, and the one under pi is kept.
	LongSide terrain.Bearing
	Length   float64
	Width    float64
	Pinned   bool        // drawn by hand and not to be moved
	Source   geodata.Pos // where it was drawn; zero when the search placed it
}

// New is a bed with its long side's bearing brought under pi.
func New(name string, centre orb.Point, longSide terrain.Bearing, length, width float64) Bed {
	b := longSide.Normal()
	if b >= math.Pi {
		b -= math.Pi
	}
	return Bed{Name: name, Centre: centre, LongSide: b, Length: length, Width: width}
}

// Axes are the unit vectors of a bed on falling ground.
type Axes struct {
	Up    orb.Point // square to the long side, to the uphill side
	Right orb.Point // along the long side, to the right when looking uphill
}

// Axes turns the bed's sides so that Up points to the uphill long side. On
// ground with no fall across the bed, Up is the normal nearer to the +y axis.
func (b Bed) Axes(g terrain.Gradient) Axes {
	e, n := b.LongSide.Unit()
	up := orb.Point{-n, e} // the normal anticlockwise of the long side
	rise := up[0]*g.East + up[1]*g.North
	if rise < 0 || (rise == 0 && (up[1] < 0 || (up[1] == 0 && up[0] < 0))) {
		up = orb.Point{-up[0], -up[1]}
	}
	return Axes{Up: up, Right: orb.Point{up[1], -up[0]}}
}

// Place is the plan position of a point of the bed: right metres from the
// centre to the right and up metres uphill.
func (b Bed) Place(a Axes, right, up float64) orb.Point {
	return orb.Point{
		b.Centre[0] + a.Right[0]*right + a.Up[0]*up,
		b.Centre[1] + a.Right[1]*right + a.Up[1]*up,
	}
}

// Corners are the four corners, clockwise from the uphill left.
func (b Bed) Corners(a Axes) [4]orb.Point {
	l, w := b.Length/2, b.Width/2
	return [4]orb.Point{b.Place(a, -l, w), b.Place(a, l, w), b.Place(a, l, -w), b.Place(a, -l, -w)}
}

// Outline is the bed as a closed polygon, clockwise corners as given.
func (b Bed) Outline(a Axes) orb.Polygon {
	c := b.Corners(a)
	return orb.Polygon{orb.Ring{c[0], c[1], c[2], c[3], c[0]}}
}

// Footprint is the bed's outline whatever way the ground falls.
func (b Bed) Footprint() orb.Polygon { return b.Outline(b.Axes(terrain.Gradient{})) }

// OffContour is the angle between the long side and the contour of ground
// with gradient g, radians from 0 to pi/2; 0 on ground with no fall.
func (b Bed) OffContour(g terrain.Gradient) float64 {
	fall := g.Fall()
	if fall == 0 {
		return 0
	}
	return math.Asin(math.Min(1, math.Abs(g.Along(b.LongSide))/fall))
}
