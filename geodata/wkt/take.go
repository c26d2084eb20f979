package wkt

import (
	"math"

	"crossfall/geodata"

	"github.com/twpayne/go-geom"
)

// taker gives the places of one geometry to the reader in reading order.
type taker struct {
	*reader
	pos   []geodata.Pos // of each place; nil: all at whole
	whole geodata.Pos
	next  int // index in pos
}

// take adds the points of a geometry.
func (r *reader) take(g geom.T, pos []geodata.Pos, whole geodata.Pos) {
	t := taker{reader: r, pos: pos, whole: whole}
	t.geometry(g)
}

// geometry adds the points of a geometry; nesting was limited before.
func (t *taker) geometry(g geom.T) {
	if g == nil || g.Empty() {
		t.empty++
		return
	}
	switch g := g.(type) {
	case *geom.Point:
		t.run(g, g.FlatCoords(), "point")
	case *geom.LineString:
		t.run(g, g.FlatCoords(), "line")
	case *geom.MultiPoint:
		for i := range g.NumPoints() {
			t.geometry(g.Point(i))
		}
	case *geom.MultiLineString:
		for i := range g.NumLineStrings() {
			t.geometry(g.LineString(i))
		}
	case *geom.Polygon:
		for i := range g.NumLinearRings() {
			ring := g.LinearRing(i)
			t.run(ring, ring.FlatCoords(), "ring")
		}
	case *geom.MultiPolygon:
		for i := range g.NumPolygons() {
			t.geometry(g.Polygon(i))
		}
	case *geom.GeometryCollection:
		for i := range g.NumGeoms() {
			t.geometry(g.Geom(i))
		}
	}
}

// run adds the places of a line, a ring or a point.
func (t *taker) run(g geom.T, flat []float64, kind string) {
	stride, z, m := g.Stride(), g.Layout().ZIndex(), g.Layout().MIndex()
	n := len(flat) / stride
	for i := range n {
		at := flat[i*stride : (i+1)*stride]
		pos := t.place()
		if kind == "ring" && i == n-1 && n > 1 && at[0] == flat[0] && at[1] == flat[1] {
			return
		}
		if math.IsNaN(at[0]) && math.IsNaN(at[1]) { // the binary form of an empty point
			t.empty++
			continue
		}
		p := geodata.RawPoint{X: at[0], Y: at[1], Kind: kind, Source: pos}
		if z >= 0 {
			p.Height, p.HasHeight = at[z], true
		}
		if m >= 0 {
			t.measures++
		}
		t.add(p)
	}
}

// place is where the next place of the geometry stands.
func (t *taker) place() geodata.Pos {
	if t.next >= len(t.pos) {
		return t.whole
	}
	t.next++
	return t.pos[t.next-1]
}

// add keeps a point whose numbers are sound.
func (t *taker) add(p geodata.RawPoint) {
	for _, v := range []float64{p.X, p.Y, p.Height} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.fs.Problem(p.Source, "not-a-number", "", "a number of this place is not finite", "export the geometry again")
			return
		}
	}
	if t.out.Geographic && (p.X < -180 || p.X > 180 || p.Y < -90 || p.Y > 90) {
		t.fs.Problem(p.Source, "not-degrees", "", "this is no longitude and latitude in degrees, which the file's coordinate system says", "write longitude first, or name the right system")
		return
	}
	t.out.Points = append(t.out.Points, p)
}
