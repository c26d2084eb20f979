package dxf

import (
	"strconv"
)

// group is one group of an entity.
type group = pair

// entity is one entity as its groups tell it.
type entity struct {
	kind   string
	line   int
	layer  string
	groups []group // those with a meaning here
}

// mostGroups is how many groups of one entity are kept; a corner of a polyline
// takes two. A default of ours.
const mostGroups = 4_000_000

// take keeps the groups that hold a place, an elevation, flags or a direction.
func (e *entity) take(p pair) {
	switch {
	case p.code == 8:
		e.layer = p.value
	case p.code >= 10 && p.code <= 39 || p.code == 70 || p.code >= 210 && p.code <= 230:
		if len(e.groups) < mostGroups {
			e.groups = append(e.groups, p)
		}
	}
}

// first finds the first group of a code.
func (e *entity) first(code int) (group, bool) {
	for _, g := range e.groups {
		if g.code == code {
			return g, true
		}
	}
	return group{}, false
}

// flags are the bits of group 70, 0 when it is left out.
func (e *entity) flags() int {
	g, _ := e.first(70)
	n, err := strconv.Atoi(g.value)
	if err != nil {
		return 0
	}
	return n
}

// Bits of group 70 (DXF reference, entities POLYLINE and VERTEX).
const (
	polyline3D   = 8
	polygonMesh  = 16
	polyfaceMesh = 64

	vertexOfFrame = 16  // control point of a curve: not on the line
	vertexMesh    = 64  // a corner of a mesh
	vertexFace    = 128 // with vertexMesh a corner, alone only a list of corners
)

// entity takes the places of one entity.
func (r *reader) entity(e entity) {
	if e.kind != "VERTEX" && e.kind != "SEQEND" {
		r.polyline = nil
	}
	if len(r.opt.Layers) > 0 && !r.asked(e.layer) && e.kind != "VERTEX" {
		r.otherLayer++
		return
	}
	switch e.kind {
	case "POINT":
		r.corner(e, "point", 10)
	case "LINE":
		r.corner(e, "line", 10)
		r.corner(e, "line", 11)
	case "3DFACE":
		for code := 10; code <= 13; code++ {
			r.corner(e, "face", code)
		}
	case "LWPOLYLINE":
		r.lightPolyline(e)
	case "POLYLINE":
		r.beginPolyline(e)
	case "VERTEX":
		r.vertex(e)
	case "SEQEND":
		r.polyline = nil
	case "INSERT":
		r.inserts++
	default:
		r.notRead[e.kind]++
	}
}

// corner takes the place whose x has a code, its y 10 more and its z 20 more.
// A z that is left out is 0.
func (r *reader) corner(e entity, kind string, code int) {
	gx, okX := e.first(code)
	gy, okY := e.first(code + 10)
	if !okX || !okY {
		if code == 13 { // a face of three corners
			return
		}
		r.fs.Problem(r.at(e.line), "number-missing", e.kind, "the "+kind+" has no x or no y", "export the drawing again")
		return
	}
	x, okX := r.number(gx)
	y, okY := r.number(gy)
	z, okZ := 0.0, true
	if gz, given := e.first(code + 20); given {
		z, okZ = r.number(gz)
	}
	if okX && okY && okZ {
		r.add(e, kind, x, y, z)
	}
}

// lightPolyline takes the corners of an LWPOLYLINE: pairs of groups 10 and 20,
// all at the elevation of group 38.
func (r *reader) lightPolyline(e entity) {
	if r.isTurned(e) {
		r.turned++
		return
	}
	z, ok := 0.0, true
	if g, given := e.first(38); given {
		z, ok = r.number(g)
	}
	x, haveX, lone := 0.0, false, false
	for _, g := range e.groups {
		switch {
		case g.code == 10:
			lone = lone || haveX
			x, haveX = r.number(g)
		case g.code == 20 && haveX:
			haveX = false
			if y, okY := r.number(g); okY && ok {
				r.add(e, "polyline", x, y, z)
			}
		}
	}
	if lone || haveX {
		r.fs.Problem(r.at(e.line), "number-missing", e.kind, "a corner of the polyline has no y", "export the drawing again")
	}
}

// polyline is what the corners of a POLYLINE need of it.
type polyline struct {
	layer     string
	elevation group // of a flat one; its code is 0 when there is none
}

// beginPolyline opens a POLYLINE. A flat one has its elevation in its own group
// 30, a spatial one or a mesh in those of its corners.
func (r *reader) beginPolyline(e entity) {
	p := &polyline{layer: e.layer}
	if e.flags()&(polyline3D|polygonMesh|polyfaceMesh) == 0 {
		if r.isTurned(e) {
			r.turned++
			return
		}
		if g, given := e.first(30); given {
			if z, ok := r.number(g); ok && z != 0 {
				p.elevation = g
			}
		}
	}
	r.polyline = p
}

// vertex takes a corner of the open POLYLINE.
func (r *reader) vertex(e entity) {
	flags := e.flags()
	if r.polyline == nil || flags&vertexOfFrame != 0 || flags&vertexFace != 0 && flags&vertexMesh == 0 {
		return
	}
	if e.layer == "" {
		e.layer = r.polyline.layer
	}
	if r.polyline.elevation.code != 0 {
		e.groups = replaced(e.groups, r.polyline.elevation)
	}
	r.corner(e, "polyline", 10)
}

// replaced puts a group in the place of those with its code.
func replaced(groups []group, with group) []group {
	out := []group{with}
	for _, g := range groups {
		if g.code != with.code {
			out = append(out, g)
		}
	}
	return out
}

// isTurned tells whether an entity lies in a plane that is not level: its
// extrusion is not (0, 0, 1). Its numbers are then not places of the drawing.
func (r *reader) isTurned(e entity) bool {
	for _, axis := range []struct {
		code int
		want float64
	}{{210, 0}, {220, 0}, {230, 1}} {
		g, given := e.first(axis.code)
		if !given {
			continue
		}
		if v, ok := r.number(g); ok && v != axis.want {
			return true
		}
	}
	return false
}
