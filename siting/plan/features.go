package plan

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

var (
	boundaryStyle = Style{Stroke: Black, Width: .5, Class: "boundary"}
	hullStyle     = Style{Stroke: Black, Width: .35, Dash: []float64{3, 1.5}, Class: "boundary"}
	thinStyle     = Style{Stroke: Black, Width: .25, Class: "feature"}
	wallStyle     = Style{Stroke: Black, Width: 1.1, Class: "feature"}
	areaStyle     = Style{Stroke: Black, Width: .25, Fill: Pale, Class: "feature"}
	pathSides     = Style{Stroke: Grey, Width: .3, Dash: []float64{.4, .8}, Class: "path"}
	gateStyle     = Style{Stroke: Black, Width: 1.6, Class: "gate"}
	rootStyle     = Style{Stroke: Black, Width: .25, Dash: []float64{1.6, .7, .3, .7}, Class: "roots"}
	noGoStyle     = Style{Stroke: Black, Width: .3, Dash: []float64{1, 1}, Class: "no-go"}
	noGoHatch     = Style{Stroke: Grey, Width: .15, Class: "no-go-hatch"}
	nameText      = TextStyle{Size: 2.3, Class: "label"}
)

// boundary draws the plot's edge: solid where it was drawn, dashed where it is
// only the outline of the heights.
func (p *painter) boundary(f siting.Frame) {
	s, words := boundaryStyle, "boundary"
	if !f.BoundaryDrawn {
		s, words = hullStyle, "outline of the heights (no boundary drawn)"
	}
	ring := p.ground(f.Boundary)
	p.ring(fixtureLayer, ring, s)
	p.labels.markLine(append(ring, ring[0]))
	p.use(entry{rank: rankBoundary, text: words, sample: lineSample(s)})
}

// marks draws the fixed points to tape from; they come before other texts.
func (p *painter) marks(fs []siting.Feature) {
	for _, f := range fs {
		if f.Kind != string(geodata.MarkKind) {
			continue
		}
		for _, at := range p.ground(f.Points) {
			if !p.sheet.area.Contains(at) {
				continue
			}
			p.mark(markLayer, at)
			p.labels.mark(at, 2.6)
			p.beside(at, 1.9, f.Name, TextStyle{Size: 2.6, Bold: true, Class: "label"}, false)
			p.use(entry{rank: rankMark, text: "mark to tape from", sample: func(p *painter, at orb.Point) { p.mark(panelLayer, at) }})
		}
	}
}

func (p *painter) mark(on layer, at orb.Point) {
	p.add(on, []orb.Point{{at[0], at[1] - 1.7}, {at[0] + 1.5, at[1] + .9}, {at[0] - 1.5, at[1] + .9}}, true,
		Style{Stroke: Black, Width: .3, Fill: Paper, Class: "mark"})
	p.add(on, disc(at, .3), true, Style{Fill: Black, Class: "mark"})
}

// fixtures draws every feature but services and marks, each with its name.
func (p *painter) fixtures(fs []siting.Feature) {
	for _, f := range fs {
		pts := p.ground(f.Points)
		if len(pts) == 0 {
			continue
		}
		switch geodata.Kind(f.Kind) {
		case geodata.ObstacleKind:
			p.obstacle(f, pts)
		case geodata.TreeKind:
			p.tree(f, pts)
		case geodata.PathKind:
			p.path(f, pts)
		case geodata.GateKind:
			p.gate(f, pts)
		case geodata.HeapKind:
			p.heap(f, pts)
		case geodata.NoGoKind:
			p.noGo(f, pts)
		case geodata.BreakLineKind:
			p.ticked(pts, 3, 0, 1.2)
			p.named(f.Name, pts, f.Area)
			p.use(entry{rank: rankBreak, text: "break line of a bank", sample: tickSample(3, 0, 1.2)})
		}
	}
}

// obstacle draws hedge, fence and wall as lines of their own kind, anything
// else as a plain outline.
func (p *painter) obstacle(f siting.Feature, pts []orb.Point) {
	if f.Area {
		p.ring(fixtureLayer, pts, areaStyle)
		p.use(entry{rank: rankObstacle, text: "building or other obstacle", sample: boxSample(areaStyle)})
		p.named(f.Name, pts, true)
		return
	}
	switch f.What {
	case "hedge":
		p.ticked(pts, 1.6, -1, 1)
		p.use(entry{rank: rankObstacle, text: "hedge", sample: tickSample(1.6, -1, 1)})
	case "fence":
		p.ticked(pts, 5, -.8, .8)
		p.use(entry{rank: rankObstacle, text: "fence", sample: tickSample(5, -.8, .8)})
	case "wall":
		p.line(fixtureLayer, pts, wallStyle)
		p.use(entry{rank: rankObstacle, text: "wall", sample: lineSample(wallStyle)})
	default:
		p.line(fixtureLayer, pts, thinStyle)
		p.use(entry{rank: rankObstacle, text: "other obstacle", sample: lineSample(thinStyle)})
	}
	p.named(f.Name, pts, false)
}

// tree draws the stem and the circle of roots to keep out of.
func (p *painter) tree(f siting.Feature, pts []orb.Point) {
	for _, at := range pts {
		p.ring(fixtureLayer, disc(at, .9), Style{Fill: Black, Class: "tree"})
		p.labels.mark(at, 1.8)
		if f.RadiusM > 0 {
			p.ring(fixtureLayer, disc(at, p.sheet.length(f.RadiusM)), rootStyle)
			p.use(entry{rank: rankTree, text: "roots of a tree: no digging, no filling", sample: func(p *painter, at orb.Point) {
				p.add(panelLayer, disc(at, 1.8), true, rootStyle)
			}})
		}
		p.use(entry{rank: rankTree, text: "tree", sample: func(p *painter, at orb.Point) {
			p.add(panelLayer, disc(at, .9), true, Style{Fill: Black})
		}})
	}
	p.named(f.Name, pts, false)
}

func (p *painter) path(f siting.Feature, pts []orb.Point) {
	if f.Area {
		p.ring(areaLayer, pts, pathSides)
	} else {
		p.line(areaLayer, pts, pathSides)
	}
	p.named(f.Name, pts, f.Area)
	p.use(entry{rank: rankWay, text: "path", sample: lineSample(pathSides)})
}

// gate draws an opening: a short broad bar with a white middle.
func (p *painter) gate(f siting.Feature, pts []orb.Point) {
	if len(pts) == 1 {
		pts = []orb.Point{{pts[0][0] - 2, pts[0][1]}, {pts[0][0] + 2, pts[0][1]}}
	}
	p.gateBar(fixtureLayer, pts)
	p.named(f.Name, pts, false)
	p.use(entry{rank: rankWay, text: "gate", sample: func(p *painter, at orb.Point) {
		p.gateBar(panelLayer, []orb.Point{{at[0] - 3, at[1]}, {at[0] + 3, at[1]}})
	}})
}

func (p *painter) gateBar(on layer, pts []orb.Point) {
	p.line2(on, pts, gateStyle)
	p.line2(on, pts, Style{Stroke: Paper, Width: 1, Class: "gate"})
}

// line2 adds a line, cut at the drawing's frame unless it belongs to the panel.
func (p *painter) line2(on layer, pts []orb.Point, s Style) {
	if on == panelLayer {
		p.add(on, pts, false, s)
		return
	}
	p.line(on, pts, s)
}

func (p *painter) noGo(f siting.Feature, pts []orb.Point) {
	p.ring(areaLayer, pts, noGoStyle)
	p.hatching([][]orb.Point{pts}, -45, 2.6, noGoHatch)
	p.named(f.Name, pts, true)
	p.use(entry{rank: rankNoGo, text: "no-go area", sample: hatchSample(noGoStyle, noGoHatch, -45, 2.6)})
}

// ticked draws a line with short strokes across it every step mm, from one
// side to the other of the line.
func (p *painter) ticked(pts []orb.Point, step, from, to float64) {
	p.line(fixtureLayer, pts, thinStyle)
	w := newWalk(pts)
	if w.length() == 0 || len(pts) < 2 {
		return
	}
	p.labels.markLine(pts)
	for _, t := range ticks(w, step, from, to) {
		p.line(fixtureLayer, t, thinStyle)
	}
}

// ticks are the strokes across a line.
func ticks(w walk, step, from, to float64) [][]orb.Point {
	var out [][]orb.Point
	for i := 0; i < maxHatch && float64(i)*step+step/2 < w.length(); i++ {
		d := float64(i)*step + step/2
		at, u := w.at(d), unit(w.direction(d, .2))
		out = append(out, []orb.Point{{at[0] - u[1]*from, at[1] + u[0]*from}, {at[0] - u[1]*to, at[1] + u[0]*to}})
	}
	return out
}

// named writes a feature's name: inside an area where it fits, else along the
// line or beside it, else not at all.
func (p *painter) named(name string, pts []orb.Point, area bool) {
	if name == "" {
		return
	}
	w := textWidth(name, nameText.Size, false)
	var tries []box
	mid := orb.MultiPoint(pts).Bound().Center()
	if area {
		tries = append(tries, box{centre: mid, w: w, h: nameText.Size})
		bound := orb.MultiPoint(pts).Bound()
		gap := (bound.Top() - bound.Bottom()) / 2
		tries = append(tries, beside(mid, w, nameText.Size, gap+1)[2:4]...)
	} else {
		tries = append(tries, alongside(newWalk(pts), w, nameText.Size, p.sheet.area)...)
	}
	if b, ok := p.labels.place(append(tries, beside(mid, w, nameText.Size, 1.8)...), false); ok {
		p.label(b, name, nameText)
	}
}

// alongside are boxes for a text next to a line, on either side, from its
// middle outwards.
func alongside(w walk, width, height float64, area orb.Bound) []box {
	if len(w.pts) < 2 || w.length() < width {
		return nil
	}
	var out []box
	for _, f := range [...]float64{.5, .35, .65, .2, .8} {
		d := math.Min(math.Max(f*w.length(), width/2), w.length()-width/2)
		at, dir := w.at(d), unit(w.direction(d, width/2))
		for _, side := range [...]float64{1, -1} {
			off := side * (height/2 + 1.6)
			c := orb.Point{at[0] - dir[1]*off, at[1] + dir[0]*off}
			if area.Contains(c) {
				out = append(out, box{centre: c, w: width, h: height, turn: readable(dir)})
			}
		}
	}
	return out
}
