package gpx

import (
	"fmt"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
	"crossfall/geodata/internal/xmlscan"
)

// Options says what to take. The zero value takes waypoints only.
type Options struct {
	Tracks bool // take the points of tracks too. Default: counted, not taken
	Routes bool // take the points of routes too. Default: counted, not taken
}

// Sniff tells whether a file is GPX.
func Sniff(data []byte) bool { return xmlscan.Root(data) == "gpx" }

// Read reads a GPX file; name is what faults call it. With a problem among the
// faults there are no points.
func Read(data []byte, name string, opt Options) (geodata.RawPoints, geodata.Faults) {
	var fs textfile.Faults
	out := geodata.RawPoints{EPSG: 4326, Geographic: true}
	s, ok := xmlscan.New(name, data, &fs)
	if !ok {
		return fs.Finish(geodata.Pos{File: name}, out, "")
	}
	r := reader{Scanner: s, opt: opt, out: &out}
	r.all()
	r.leftOut()
	if r.heights > 0 {
		fs.Warn(s.File(), "gpx-heights-rough", "", roughHeights, "level the plot with a staff, a water tube or a line level")
	}
	want := "mark each spot as a waypoint and export the waypoints"
	return fs.Finish(s.File(), out, want)
}

// roughHeights says how good such heights are. Places: A. Al-Azizi and
// H. Shafri, International Journal of Navigation and Observation, 2017. Heights
// 1.5 to 2 times as rough as places: from memory, no source. Two heights 5 m
// rough, 20 m apart, give sqrt(2) * 5 / 20 = 0.35 of uncertainty in the fall.
const roughHeights = "heights from a phone or a hand-held receiver are rough: under open sky a phone's place is within 10 m about 95 times in 100 " +
	"(Al-Azizi and Shafri, 2017), and its height is commonly 1.5 to 2 times as rough. " +
	"If each height is off by about 5 m, two of them 20 m apart leave the fall uncertain by about 35 %, more than most plots fall"

// reader goes through one file.
type reader struct {
	*xmlscan.Scanner
	opt     Options
	out     *geodata.RawPoints
	point   *point         // that is open
	skipped map[string]int // points that were not asked for, by kind
	heights int
}

// point is a point while its element is open.
type point struct {
	geodata.RawPoint
	element *xmlscan.Element
	whole   bool // longitude and latitude could be read
	ele     string
	elePos  geodata.Pos
	eles    int // elements and attributes ele
}

// kinds are the elements that are points, and what they are called.
var kinds = []struct{ element, kind string }{
	{"wpt", "waypoint"}, {"trkpt", "track point"}, {"rtept", "route point"},
}

func kindOf(element string) string {
	for _, k := range kinds {
		if k.element == element {
			return k.kind
		}
	}
	return ""
}

// all goes through the elements.
func (r *reader) all() {
	r.skipped = map[string]int{}
	for {
		e, ends := r.Next()
		switch {
		case e == nil:
			return
		case !ends && e.Parent == nil && e.Name != "gpx":
			r.Faults.Problem(e.Pos, "not-gpx", "<"+e.Name+">", "the file is XML, but not GPX", "export the points as GPX 1.1")
			return
		case !ends && r.point == nil && kindOf(e.Name) != "":
			r.begin(e)
		case ends && r.point != nil:
			r.end(e)
		}
		if len(r.out.Points) > geodata.MostPoints {
			r.Faults.TooMany(e.Pos)
			return
		}
	}
}

func (r *reader) wanted(kind string) bool {
	return kind == "waypoint" || kind == "track point" && r.opt.Tracks || kind == "route point" && r.opt.Routes
}

// begin reads the attributes of a point.
func (r *reader) begin(e *xmlscan.Element) {
	kind := kindOf(e.Name)
	p := &point{element: e}
	p.Kind, p.Source = kind, e.Pos
	r.point = p
	if !r.wanted(kind) {
		r.skipped[kind]++
		return
	}
	var okX, okY bool
	p.X, okX = r.degrees(e, "lon", 180)
	p.Y, okY = r.degrees(e, "lat", 90)
	p.whole = okX && okY
	if text, _ := e.Attr("ele"); strings.TrimSpace(text) != "" {
		text = strings.TrimSpace(text)
		p.ele, p.elePos, p.eles = text, e.Pos, 1
		r.Faults.Warn(e.Pos, "height-as-attribute", text, "the height is an attribute, where GPX has an element <ele>: it was taken", "")
	}
}

// degrees reads one attribute of a place.
func (r *reader) degrees(e *xmlscan.Element, name string, most float64) (float64, bool) {
	text, given := e.Attr(name)
	if !given {
		r.Faults.Problem(e.Pos, "number-missing", "<"+e.Name+">", "the point has no "+name, "give lat and lon in degrees")
		return 0, false
	}
	v, ok := textfile.Number(text)
	switch {
	case !ok:
		r.Faults.NotNumber(e.Pos, text, name)
	case v < -most || v > most:
		r.Faults.Problem(e.Pos, "not-degrees", text, fmt.Sprintf("%s is not within -%g to %g degrees", name, most, most), "give lat and lon in degrees")
		ok = false
	}
	return v, ok
}

// end takes what belongs to the open point, and closes it.
func (r *reader) end(e *xmlscan.Element) {
	p := r.point
	switch {
	case e == p.element:
		r.close()
	case e.Parent != p.element || !r.wanted(p.Kind):
	case e.Name == "name":
		p.Name = e.Word()
	case e.Name == "ele" && e.Word() != "": // an empty element is no height
		if p.eles > 0 && e.Word() != p.ele {
			r.Faults.Problem(e.Pos, "height-twice", e.Word(), "the point has two different heights", "keep one of them")
		}
		p.ele, p.elePos = e.Word(), r.TextPos(e)
		p.eles++
	}
}

// close makes the point of what was gathered.
func (r *reader) close() {
	p := r.point
	r.point = nil
	if !r.wanted(p.Kind) {
		return
	}
	if p.ele != "" {
		if p.Height, p.HasHeight = textfile.Number(p.ele); !p.HasHeight {
			r.Faults.NotNumber(p.elePos, p.ele, "the height")
			return
		}
	}
	if !p.whole {
		return
	}
	if p.HasHeight {
		r.heights++
	}
	r.out.Points = append(r.out.Points, p.RawPoint)
}

// leftOut tells of points that were not asked for.
func (r *reader) leftOut() {
	for _, k := range kinds {
		if n := r.skipped[k.kind]; n > 0 {
			r.Faults.Note(r.File(), "gpx-points-not-taken", fmt.Sprintf("%s: not taken, since only waypoints are spots that someone chose", textfile.Count(n, k.kind)))
		}
	}
}
