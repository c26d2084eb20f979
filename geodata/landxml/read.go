package landxml

import (
	"fmt"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
	"crossfall/geodata/internal/xmlscan"
)

// Options says how to read. The zero value works on a file with one surface
// that names its unit.
type Options struct {
	// Unit is the unit of a file that names none. Default: such a file is
	// refused.
	Unit geodata.Unit
	// Surface is the name of the surface to take. Default: the only one; a file
	// with several is refused, since one of them may be the ground as it shall
	// be, not as it is.
	Surface string
}

// Sniff tells whether a file is LandXML.
func Sniff(data []byte) bool { return xmlscan.Root(data) == "LandXML" }

// Read reads a LandXML file; name is what faults call it. With a problem among
// the faults there are no points. A surface point at the place and height of a
// survey point is that point again and is left out, as are survey points that
// only refer to another one.
func Read(data []byte, name string, opt Options) (geodata.RawPoints, geodata.Faults) {
	var fs textfile.Faults
	out := geodata.RawPoints{}
	s, ok := xmlscan.New(name, data, &fs)
	if !ok {
		return fs.Finish(geodata.Pos{File: name}, out, "")
	}
	r := reader{Scanner: s, opt: opt, named: map[string]int{}}
	r.all()
	if fs.Problems() == 0 {
		r.resolve()
		u := r.unit()
		out.EPSG = r.epsg
		out.Points = r.points(float64(u))
	}
	return fs.Finish(s.File(), out, "export the survey points (CgPoints) or the surface with its points")
}

// reader goes through one file.
type reader struct {
	*xmlscan.Scanner
	opt      Options
	units    []unitOf
	epsg     int
	survey   []geodata.RawPoint // CgPoints, in the file's unit
	named    map[string]int     // how many survey points have a name
	refs     []reference
	surfaces []*surface
	surface  *surface // that is open
	notRead  int      // lists of places in source data
	total    int
}

// reference is a survey point that refers to another one.
type reference struct {
	to  string
	pos geodata.Pos
}

// all goes through the elements.
func (r *reader) all() {
	for {
		e, ends := r.Next()
		switch {
		case e == nil:
			return
		case !ends && e.Parent == nil && e.Name != "LandXML":
			r.Faults.Problem(e.Pos, "not-landxml", "<"+e.Name+">", "the file is XML, but not LandXML", "export the points as LandXML 1.2")
			return
		case !ends && e.Name == "Surface":
			r.begin(e)
		case ends:
			r.end(e)
		}
		if r.total > geodata.MostPoints {
			r.Faults.TooMany(e.Pos)
			return
		}
	}
}

// end takes what an element says.
func (r *reader) end(e *xmlscan.Element) {
	switch e.Name {
	case "Metric", "Imperial":
		r.takeUnit(e)
	case "CoordinateSystem":
		r.takeSystem(e)
	case "CgPoint":
		r.takeSurvey(e)
	case "P":
		if r.surface != nil && e.Parent != nil && e.Parent.Name == "Pnts" {
			r.takeSurfacePoint(e)
		}
	case "F":
		if r.surface != nil && e.Parent != nil && e.Parent.Name == "Faces" {
			r.takeFace(e)
		}
	case "PntList3D", "PntList2D":
		r.notRead++
	case "Surface":
		r.surface = nil
	}
}

// takeSystem notes the coordinate system that the file names.
func (r *reader) takeSystem(e *xmlscan.Element) {
	text, given := e.Attr("epsgCode")
	if !given || strings.TrimSpace(text) == "" {
		return
	}
	digits := text[strings.LastIndexByte(text, ':')+1:]
	code, err := strconv.Atoi(strings.TrimSpace(digits))
	if err != nil || code < 0 {
		r.Faults.Warn(e.Pos, "system-unknown", text, "this is no code of a coordinate system: it was left out of account", "")
		return
	}
	r.epsg = code
}

// takeSurvey reads a survey point.
func (r *reader) takeSurvey(e *xmlscan.Element) {
	name, _ := e.Attr("name")
	if to, given := e.Attr("pntRef"); given && e.Word() == "" {
		r.refs = append(r.refs, reference{to, e.Pos})
		r.total++
		return
	}
	p, ok := r.place(e, "survey point", name)
	if !ok {
		return
	}
	r.named[name]++
	r.survey = append(r.survey, p)
}

// place reads northing, easting and perhaps elevation.
func (r *reader) place(e *xmlscan.Element, kind, name string) (geodata.RawPoint, bool) {
	p := geodata.RawPoint{Name: name, Kind: kind, Source: e.Pos}
	fields := strings.Fields(e.Text)
	if len(fields) != 2 && len(fields) != 3 {
		r.Faults.Problem(r.TextPos(e), "point-numbers", e.Text, fmt.Sprintf("the %s has %s, not northing, easting and elevation", kind, textfile.Count(len(fields), "word")),
			"write two or three numbers with blanks between")
		return p, false
	}
	var numbers [3]float64
	for i, f := range fields {
		v, ok := textfile.Number(f)
		if !ok {
			r.Faults.NotNumber(r.TextPos(e), f, []string{"the northing", "the easting", "the elevation"}[i])
			return p, false
		}
		numbers[i] = v
	}
	p.Y, p.X, p.Height = numbers[0], numbers[1], numbers[2]
	p.HasHeight = len(fields) == 3
	r.total++
	return p, true
}

// resolve checks that references lead to one survey point each. They add no
// point: a point that is listed twice was measured once.
func (r *reader) resolve() {
	for _, ref := range r.refs {
		switch r.named[ref.to] {
		case 1:
		case 0:
			r.Faults.Problem(ref.pos, "reference-unknown", ref.to, "no survey point with coordinates has this name", "export the file with all its points")
		default:
			r.Faults.Problem(ref.pos, "reference-unclear", ref.to, "more than one survey point has this name", "give each point its own name")
		}
	}
	if r.notRead > 0 {
		r.Faults.Note(r.File(), "landxml-part-not-read", textfile.Count(r.notRead, "list")+" of places in break lines, boundaries or source data: not read")
	}
}
