package landxml

import (
	"fmt"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
	"crossfall/geodata/internal/xmlscan"
)

// surface is one surface of the file.
type surface struct {
	name     string
	pos      geodata.Pos
	proposed bool               // so the file says
	points   []geodata.RawPoint // in the file's unit
	ids      map[string]bool    // of points
	// shown and hidden are the points of faces that are seen and of those that
	// are not, by id.
	shown, hidden map[string]bool
}

// begin opens a surface.
func (r *reader) begin(e *xmlscan.Element) {
	name, _ := e.Attr("name")
	r.surface = &surface{name: name, pos: e.Pos, ids: map[string]bool{}, shown: map[string]bool{}, hidden: map[string]bool{}}
	state, _ := e.Attr("state")
	r.surface.proposed = state == "proposed"
	r.surfaces = append(r.surfaces, r.surface)
}

// takeSurfacePoint reads a point of a surface.
func (r *reader) takeSurfacePoint(e *xmlscan.Element) {
	id, _ := e.Attr("id")
	p, ok := r.place(e, "surface point", id)
	if !ok {
		return
	}
	switch {
	case !p.HasHeight:
		r.Faults.Problem(r.TextPos(e), "number-missing", e.Text, "the surface point has no elevation", "write northing, easting and elevation")
		return
	case id != "" && r.surface.ids[id]:
		r.Faults.Problem(e.Pos, "point-twice", id, "two points of the surface have the same id", "export the surface anew")
		return
	}
	r.surface.ids[id] = true
	r.surface.points = append(r.surface.points, p)
}

// takeFace notes which points a face uses. Faces with i="1" are hidden: they
// fill the surface out beyond its own boundary.
func (r *reader) takeFace(e *xmlscan.Element) {
	of := r.surface.shown
	if i, _ := e.Attr("i"); strings.TrimSpace(i) == "1" {
		of = r.surface.hidden
	}
	for _, id := range strings.Fields(e.Text) {
		of[id] = true
	}
}

// stray counts the points of faces that the surface does not have, and gives
// the first of their ids.
func (s *surface) stray() (n int, first string) {
	for _, used := range []map[string]bool{s.shown, s.hidden} {
		for id := range used { // a count and a least id do not hang on the order
			if s.ids[id] {
				continue
			}
			if n++; first == "" || id < first {
				first = id
			}
		}
	}
	return n, first
}

// chosen is the surface to take; nil when the file has none.
func (r *reader) chosen() *surface {
	var names []string
	for _, s := range r.surfaces {
		if r.opt.Surface != "" && s.name == r.opt.Surface {
			return s
		}
		names = append(names, fmt.Sprintf("%q", s.name))
	}
	switch {
	case r.opt.Surface != "" && len(names) == 0:
		r.Faults.Problem(r.File(), "surface-unknown", r.opt.Surface, "the file has no surface", "leave the name of the surface out")
		return nil
	case r.opt.Surface != "":
		r.Faults.Problem(r.File(), "surface-unknown", r.opt.Surface, "the file has no surface of this name", "its surfaces are "+strings.Join(names, ", "))
		return nil
	case len(r.surfaces) > 1:
		r.Faults.Problem(r.surfaces[1].pos, "surfaces-several", strings.Join(names, ", "), "the file has more than one surface, and one of them may be a design",
			"export the ground as it is alone, or name its surface")
		return nil
	case len(r.surfaces) == 0:
		return nil
	}
	return r.surfaces[0]
}

// points are the survey points, and the points of the surface that its seen
// faces use, in metres.
func (r *reader) points(metres float64) []geodata.RawPoint {
	s := r.chosen()
	out := r.survey
	if s != nil {
		out = append(out, r.ground(s)...)
	}
	for i := range out {
		out[i].X, out[i].Y, out[i].Height = out[i].X*metres, out[i].Y*metres, out[i].Height*metres
	}
	return out
}

// ground lists the points of a surface that are part of the ground and are not
// survey points already.
func (r *reader) ground(s *surface) (out []geodata.RawPoint) {
	type place struct{ x, y, z float64 }
	measured := map[place]bool{}
	for _, p := range r.survey {
		if p.HasHeight {
			measured[place{p.X, p.Y, p.Height}] = true
		}
	}
	if s.proposed {
		r.Faults.Warn(s.pos, "landxml-surface-proposed", s.name, "the file calls this surface proposed: it is the ground as it shall be, not as it is", "take the existing ground")
	}
	unseen, again := 0, 0
	for _, p := range s.points {
		switch {
		case s.hidden[p.Name] && !s.shown[p.Name]:
			unseen++
		case measured[place{p.X, p.Y, p.Height}]:
			again++
		default:
			out = append(out, p)
		}
	}
	if unseen > 0 {
		r.Faults.Note(s.pos, "landxml-points-hidden", textfile.Count(unseen, "surface point")+" only in hidden faces, beyond the surface's own boundary: not taken")
	}
	if again > 0 {
		r.Faults.Note(s.pos, "landxml-points-again", textfile.Count(again, "surface point")+" at the place and height of a survey point: taken once")
	}
	if n, id := s.stray(); n > 0 {
		r.Faults.Warn(s.pos, "landxml-face-stray", id, "faces use "+textfile.Count(n, "point")+" that the surface does not have: part of it may be missing", "export the surface anew")
	}
	return out
}
