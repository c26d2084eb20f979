package dxf

import (
	"slices"
	"strconv"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
)

// reader goes through one drawing.
type reader struct {
	pairs
	opt  Options
	unit unitCode
	// drawn are the places in the drawing's unit, in reading order.
	drawn []spot
	seen  map[place]bool

	polyline   *polyline // that is open: its vertices follow
	again      int       // places drawn again
	inserts    int       // insertions of blocks
	turned     int       // polylines drawn in a plane that is turned
	otherLayer int       // entities on layers that were not asked for
	notRead    map[string]int
}

// place is what makes two drawn places the same.
type place struct{ x, y, z float64 }

// spot is one drawn place.
type spot struct {
	place
	kind, layer string
	line        int
}

// all goes through the sections. Only the header and the entities count.
func (r *reader) all() {
	r.notRead = map[string]int{}
	p, ok := r.next()
	if ok && (p.code != 0 || p.value != "SECTION" && p.value != "EOF") {
		r.bad = true
		r.fs.Problem(r.at(p.line), "not-dxf", p.value, "the file does not begin with a section, as DXF does", advice)
		return
	}
	for ok {
		switch {
		case p.code == 0 && p.value == "EOF":
			return
		case p.code == 0 && p.value == "SECTION":
			p, ok = r.section()
		default:
			p, ok = r.next()
		}
	}
	if !r.bad && r.fs.Problems() == 0 {
		r.fs.Warn(r.at(r.line), "file-cut-short", "", "the drawing has no end mark (EOF): its end may be missing", "export or copy the file again")
	}
}

// section reads one section and gives the group that follows it.
func (r *reader) section() (pair, bool) {
	name, ok := r.next()
	if !ok || name.code != 2 {
		return name, ok
	}
	p, ok := r.next()
	switch name.value {
	case "HEADER":
		p, ok = r.header(p, ok)
	case "ENTITIES":
		p, ok = r.entities(p, ok)
		if !ok && !r.bad {
			r.bad = true
			r.fs.Problem(r.at(r.line), "file-cut-short", "", "the file ends within its list of entities", "export or copy the file again")
		}
	default:
		for ok && !ends(p) {
			p, ok = r.next()
		}
	}
	return p, ok
}

// ends tells whether a group ends a section.
func ends(p pair) bool {
	return p.code == 0 && slices.Contains([]string{"ENDSEC", "SECTION", "EOF"}, p.value)
}

// entities reads the section of entities: each begins with a group 0 and goes
// on to the next.
func (r *reader) entities(p pair, ok bool) (pair, bool) {
	for ok && !ends(p) {
		if p.code != 0 {
			p, ok = r.next()
			continue
		}
		e := entity{kind: p.value, line: p.line}
		for p, ok = r.next(); ok && p.code != 0; p, ok = r.next() {
			e.take(p)
		}
		if ok { // else it may be cut
			r.entity(e)
		}
		if len(r.drawn) > geodata.MostPoints {
			r.bad = true
			r.fs.TooMany(r.at(e.line))
			return pair{}, false
		}
	}
	return p, ok
}

// add keeps a place, unless it was drawn before with the same height.
func (r *reader) add(e entity, kind string, x, y, z float64) {
	at := place{x, y, z}
	if r.seen[at] {
		r.again++
		return
	}
	r.seen[at] = true
	r.drawn = append(r.drawn, spot{at, kind, e.layer, e.line})
}

// number reads a number of an entity.
func (r *reader) number(g group) (float64, bool) {
	v, ok := textfile.Number(g.value)
	if !ok {
		r.fs.Problem(r.at(g.line), "not-a-number", g.value, "group "+strconv.Itoa(g.code)+" is not a number", textfile.Advice(g.value))
	}
	return v, ok
}

// inMetres gives the places in metres.
func (r *reader) inMetres() []geodata.RawPoint {
	u := float64(r.drawingUnit())
	flat := map[string]bool{}
	for _, name := range r.flatLayers() {
		flat[name] = true
	}
	out := make([]geodata.RawPoint, 0, len(r.drawn))
	for _, s := range r.drawn {
		p := geodata.RawPoint{X: s.x * u, Y: s.y * u, Kind: s.kind, Source: r.at(s.line)}
		if !flat[s.layer] {
			p.Height, p.HasHeight = s.z*u, true
		}
		out = append(out, p)
	}
	return out
}
