package plan

import (
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
)

// layer is where a shape lies among the others; later layers cover earlier.
type layer int

const (
	areaLayer layer = iota
	contourLayer
	fixtureLayer
	waterLayer
	bedLayer
	markLayer
	panelLayer
	layerCount
)

type shape struct {
	pts    []orb.Point
	closed bool
	style  Style
}

type text struct {
	at    orb.Point
	text  string
	style TextStyle
}

// painter gathers the plan's shapes by layer while texts look for room in
// order of importance, then puts everything on a Drawing, texts last.
type painter struct {
	sheet  Sheet
	units  geodata.Units
	made   string // when and with what
	labels labels
	layers [layerCount][]shape
	texts  []text
	legend []entry
	listed []siting.Bed // beds whose figures did not fit beside them
}

func newPainter(s Sheet, opt Options) *painter {
	return &painter{sheet: s, units: opt.Units, made: opt.made(), labels: labels{area: s.area}}
}

// made says of when the input is and which program drew it; empty where neither
// is given.
func (o Options) made() string {
	var parts []string
	if o.Date != "" {
		parts = append(parts, "Input of "+o.Date+".")
	}
	if o.Version != "" {
		parts = append(parts, "Drawn by crossfall "+o.Version+".")
	}
	return strings.Join(parts, " ")
}

// flush draws what was gathered.
func (p *painter) flush(d Drawing) {
	for _, l := range p.layers {
		for _, s := range l {
			if s.closed {
				d.Polygon(s.pts, s.style)
			} else {
				d.Line(s.pts, s.style)
			}
		}
	}
	for _, t := range p.texts {
		d.Text(t.at, t.text, t.style)
	}
}

// ground turns points of the ground into points on paper, leaving out any
// that are not finite.
func (p *painter) ground(pts []orb.Point) []orb.Point {
	out := make([]orb.Point, 0, len(pts))
	for _, q := range pts {
		if finite(q) {
			out = append(out, p.sheet.onPaper(q))
		}
	}
	return out
}

// line adds an open line on paper, cut at the drawing's frame.
func (p *painter) line(l layer, pts []orb.Point, s Style) {
	for _, part := range clip.LineString(p.sheet.area, orb.LineString(pts)) {
		p.add(l, part, false, s)
	}
}

// ring adds a closed ring on paper, cut at the drawing's frame.
func (p *painter) ring(l layer, pts []orb.Point, s Style) {
	if len(pts) < 3 {
		return
	}
	closed := append(orb.Ring{}, pts...)
	if closed[0] != closed[len(closed)-1] {
		closed = append(closed, closed[0])
	}
	if cut := clip.Ring(p.sheet.area, closed); len(cut) > 3 {
		p.add(l, cut[:len(cut)-1], true, s)
	}
}

// add adds a shape as it is, for the panel and for symbols.
func (p *painter) add(l layer, pts []orb.Point, closed bool, s Style) {
	if len(pts) > 1 {
		p.layers[l] = append(p.layers[l], shape{pts, closed, s})
	}
}

// write adds a text where it is, without asking for room.
func (p *painter) write(at orb.Point, t string, s TextStyle) {
	if s.Ink == "" {
		s.Ink = Black
	}
	p.texts = append(p.texts, text{at, t, s})
}

// label writes a text into the box that was found for it.
func (p *painter) label(b box, t string, s TextStyle) {
	s.Turn, s.Halo, s.Anchor = b.turn, true, Middle
	p.write(b.centre, t, s)
}

// beside puts a short text next to a point on paper where there is room.
func (p *painter) beside(at orb.Point, gap float64, t string, s TextStyle, strict bool) {
	b, ok := p.labels.place(beside(at, textWidth(t, s.Size, s.Bold), s.Size, gap), strict)
	if ok {
		p.label(b, t, s)
	}
}

// disc is a circle drawn as a polygon fine enough for paper.
func disc(at orb.Point, r float64) []orb.Point {
	n := 12 + int(4*math.Sqrt(r))
	pts := make([]orb.Point, n)
	for i := range pts {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		pts[i] = orb.Point{at[0] + r*c, at[1] + r*s}
	}
	return pts
}

// arrowHead is a slim triangle with its tip at tip, pointing along dir.
func arrowHead(tip, dir orb.Point, size float64) []orb.Point {
	d := unit(dir)
	back := orb.Point{tip[0] - d[0]*size, tip[1] - d[1]*size}
	side := size * .36
	return []orb.Point{tip, {back[0] - d[1]*side, back[1] + d[0]*side}, {back[0] + d[1]*side, back[1] - d[0]*side}}
}

func unit(v orb.Point) orb.Point {
	n := math.Hypot(v[0], v[1])
	if n == 0 {
		return orb.Point{0, -1}
	}
	return orb.Point{v[0] / n, v[1] / n}
}

// readable is the turn of a text along a direction, degrees, so that it is
// never upside down.
func readable(dir orb.Point) float64 {
	t := math.Atan2(dir[1], dir[0]) * 180 / math.Pi
	if t > 90 {
		t -= 180
	}
	if t <= -90 {
		t += 180
	}
	return t
}
