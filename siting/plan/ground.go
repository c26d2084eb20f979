package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
	"github.com/paulmach/orb/planar"
)

var (
	contourStyle = Style{Stroke: Grey, Width: .2, Class: "contour"}
	hollowHatch  = Style{Stroke: Accent, Width: .18, Class: "hollow-hatch"}
	hollowStyle  = Style{Stroke: Accent, Width: .3, Dash: []float64{.8, .8}, Class: "hollow"}
	pathStyle    = Style{Stroke: Accent, Width: .5, Class: "water-path"}
	turnedStyle  = Style{Stroke: Accent, Width: .4, Dash: []float64{2.4, 1}, Class: "water-turned"}
	waterFill    = Style{Fill: Accent, Class: "arrow"}
	spotStyle    = Style{Fill: Black, Class: "spot"}
	smallText    = TextStyle{Size: 2.3, Class: "label"}
	waterText    = TextStyle{Size: 2.3, Ink: Accent, Class: "label"}
)

const (
	spotRadius = .45 // mm
	// manySpots is the number of heights above which those that lie closer
	// than spotGrid on paper are left out: a height grid would blacken the sheet.
	manySpots = 400
	spotGrid  = 6.0 // mm
)

// contours draws the contours, each broken behind its height where there is
// room for the figure.
func (p *painter) contours(cs []siting.Contour) {
	for _, c := range cs {
		pts := p.ground(c.Points)
		if c.Closed && len(pts) > 2 {
			pts = append(pts, pts[0])
		}
		for _, part := range clip.LineString(p.sheet.area, orb.LineString(pts)) {
			p.contour(part, p.units.Height(c.Level))
		}
	}
}

func (p *painter) contour(pts []orb.Point, height string) {
	if len(pts) < 2 {
		return
	}
	p.use(entry{rank: rankContour, text: "contour with its height", sample: lineSample(contourStyle)})
	w := newWalk(pts)
	s := TextStyle{Size: 2.2, Ink: Black, Class: "label"}
	room := textWidth(height, s.Size, false) + 1.2
	at, b, ok := p.onLine(w, room, s.Size)
	if !ok {
		p.add(contourLayer, pts, false, contourStyle)
		return
	}
	p.label(b, height, s)
	p.add(contourLayer, w.part(0, at-room/2), false, contourStyle)
	p.add(contourLayer, w.part(at+room/2, w.length()), false, contourStyle)
}

// onLine finds room for a text of the given width on a line, from its middle
// outwards; not on a line under twice as long, nor where the line bends away
// from under the text.
func (p *painter) onLine(w walk, width, height float64) (at float64, b box, ok bool) {
	if w.length() < 2*width {
		return 0, box{}, false
	}
	for _, f := range [...]float64{.5, .42, .58, .34, .66, .26, .74, .18, .82} {
		at = f * w.length()
		if at < width/2 || at > w.length()-width/2 {
			continue
		}
		dir := w.direction(at, width/2)
		if math.Hypot(dir[0], dir[1]) < .97*width {
			continue
		}
		mid := w.at(at)
		if b, ok = p.labels.place([]box{{centre: mid, w: width, h: height, turn: readable(dir)}}, true); ok {
			return at, b, true
		}
	}
	return 0, box{}, false
}

// apart is how far contours are apart in height: from a metre or a foot on in
// metres or feet, finer in millimetres or inches.
func (p *painter) apart(interval float64) string {
	whole := 1.0
	if p.units == geodata.FeetAndInch {
		whole = float64(geodata.Foot)
	}
	if interval < whole-1e-9 {
		return p.units.Small(interval)
	}
	return p.units.Length(interval)
}

// spots draws every spot height's dot; dots come before any text.
func (p *painter) spots(hs []siting.Height) {
	shown := p.shown(hs)
	for _, h := range shown {
		at := p.sheet.onPaper(h.At)
		p.add(markLayer, disc(at, spotRadius), true, spotStyle)
		p.labels.mark(at, 1.3)
	}
	if len(shown) == 0 {
		return
	}
	words := "spot height"
	if len(shown) < len(hs) {
		words = "spot height (some that lie close are left out)"
	}
	p.use(entry{rank: rankSpot, text: words, sample: func(p *painter, at orb.Point) {
		p.add(panelLayer, disc(at, spotRadius), true, spotStyle)
	}})
}

// spotHeights writes the heights beside their dots where there is room.
func (p *painter) spotHeights(hs []siting.Height) {
	for _, h := range p.shown(hs) {
		p.beside(p.sheet.onPaper(h.At), .9, p.units.Height(h.Height), smallText, true)
	}
}

// shown are the heights on the sheet, thinned to one in each square of
// spotGrid where they are many.
func (p *painter) shown(hs []siting.Height) []siting.Height {
	var out []siting.Height
	taken := map[[2]int]bool{}
	for _, h := range hs {
		if !finite(h.At) {
			continue
		}
		at := p.sheet.onPaper(h.At)
		if !p.sheet.area.Contains(at) {
			continue
		}
		cell := [2]int{int(at[0] / spotGrid), int(at[1] / spotGrid)}
		if len(hs) > manySpots && taken[cell] {
			continue
		}
		taken[cell] = true
		out = append(out, h)
	}
	return out
}

// hollows draws each hollow hatched, with its depth.
func (p *painter) hollows(hs []siting.Hollow) {
	for _, h := range hs {
		ring := p.ground(h.Outline)
		if len(ring) < 3 {
			continue
		}
		p.ring(areaLayer, ring, hollowStyle)
		p.hatching([][]orb.Point{ring}, 0, 1.4, hollowHatch)
		p.use(entry{rank: rankHollow, text: "hollow: water stands here", sample: hatchSample(hollowStyle, hollowHatch, 0, 1.4)})
		t := "hollow, " + p.units.Small(h.Depth/1000) + " deep"
		bound := orb.MultiPoint(ring).Bound()
		at, gap := bound.Center(), (bound.Top()-bound.Bottom())/2
		w := textWidth(t, waterText.Size, false)
		tries := append(beside(at, w, waterText.Size, gap+.8)[2:4], beside(at, w, waterText.Size, 0)...)
		if b, ok := p.labels.place(tries, false); ok {
			p.label(b, t, waterText)
		}
	}
}

// turnedPaths are those that a frame turns; the others run as they did.
func turnedPaths(ps []siting.Path) []siting.Path {
	var out []siting.Path
	for _, path := range ps {
		if len(path.TurnedBy) > 0 {
			out = append(out, path)
		}
	}
	return out
}

// paths draws where water runs, as lines with arrows.
func (p *painter) paths(ps []siting.Path, style Style, rank rank, words string) {
	for _, path := range ps {
		for _, part := range clip.LineString(p.sheet.area, orb.LineString(p.ground(path.Points))) {
			w := newWalk(part)
			if w.length() < 2 {
				continue
			}
			p.add(waterLayer, part, false, weighed(style, path))
			p.labels.markLine(part)
			for _, d := range append(w.every(14, 28), w.length()) {
				p.add(waterLayer, arrowHead(w.at(d), w.direction(d-.5, .5), 2.4), true, waterFill)
			}
			p.use(entry{rank: rank, text: weighedSaid(words, path), sample: arrowSample(style)})
		}
	}
}

// runoff draws one broad arrow the way water leaves the plot, and nothing
// where the survey cannot tell.
func (p *painter) runoff(a *siting.Assessment) {
	r := a.Ground.RunoffBearing
	if r.Value == nil || math.IsNaN(*r.Value) {
		return
	}
	s, c := math.Sincos((*r.Value - a.Frame.AxisBearing) * math.Pi / 180)
	dir := orb.Point{s, -c} // paper: y down
	words := fmt.Sprintf("water leaves at %.0f°", *r.Value)
	const long = 24.0
	var tries []box
	for _, at := range p.openGround(a.Frame.Boundary) {
		tries = append(tries, box{centre: at, w: long + 3, h: 8, turn: readable(dir)})
	}
	b, ok := p.labels.place(tries, true)
	if !ok {
		return
	}
	across := b.axes()[1] // the text stands above the arrow
	mid := orb.Point{b.centre[0] + 2*across[0], b.centre[1] + 2*across[1]}
	tail := orb.Point{mid[0] - dir[0]*long/2, mid[1] - dir[1]*long/2}
	tip := orb.Point{mid[0] + dir[0]*long/2, mid[1] + dir[1]*long/2}
	p.add(waterLayer, []orb.Point{tail, {tip[0] - 4*dir[0], tip[1] - 4*dir[1]}}, false, Style{Stroke: Accent, Width: 1.3, Class: "runoff"})
	p.add(waterLayer, arrowHead(tip, dir, 6), true, waterFill)
	p.label(box{centre: orb.Point{b.centre[0] - 1.8*across[0], b.centre[1] - 1.8*across[1]}, turn: b.turn}, words, waterText)
	p.use(entry{rank: rankRunoff, text: "way the water leaves, from " + a.Frame.North, sample: arrowSample(Style{Stroke: Accent, Width: 1.3})})
}

// openGround are places on a grid: those inside the boundary, nearest to its
// middle first, then those outside it.
func (p *painter) openGround(boundary []orb.Point) []orb.Point {
	ring := orb.Ring(p.ground(boundary))
	if len(ring) < 3 {
		return nil
	}
	const step = 4.0
	area, c := p.sheet.area, ring.Bound().Center()
	var inside, outside []orb.Point
	for y := area.Bottom(); y <= area.Top(); y += step {
		for x := area.Left(); x <= area.Right(); x += step {
			if q := (orb.Point{x, y}); planar.RingContains(ring, q) {
				inside = append(inside, q)
			} else {
				outside = append(outside, q)
			}
		}
	}
	byDistance := func(a, b orb.Point) int { return cmp.Compare(distance(a, c), distance(b, c)) }
	slices.SortStableFunc(inside, byDistance)
	slices.SortStableFunc(outside, byDistance)
	return append(inside, outside...)
}
