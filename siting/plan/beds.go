package plan

import (
	"fmt"
	"math"

	"crossfall/siting"
	"crossfall/siting/frame"

	"github.com/paulmach/orb"
)

// edgeLook is how a class of edge is drawn and called on the plan.
type edgeLook struct {
	class  frame.Class
	short  string
	style  Style
	double bool // a second line inside: the sunken edge
	steps  bool // cross lines between the levels
	cross  bool // crossed through
}

var (
	inner    = Style{Stroke: Black, Width: .2, Class: "sunken-edge"}
	pegStyle = Style{Stroke: Black, Width: .35, Class: "peg"}
	bayStyle = Style{Stroke: Black, Width: .3, Class: "step"}
)

const (
	doubleGap = .9 // mm between the two lines of a sunken edge
	pegSize   = 1.9
)

var edgeLooks = [...]edgeLook{
	{class: frame.OpenEdged, short: "open", style: Style{Stroke: Black, Width: .4, Dash: []float64{2.4, 1.2}}},
	{class: frame.Boarded, short: "boarded", style: Style{Stroke: Black, Width: .65}},
	{class: frame.SunkenEdges, short: "boarded, sunken", style: Style{Stroke: Black, Width: .65}, double: true},
	{class: frame.Stepped, short: "stepped", style: Style{Stroke: Black, Width: .65}, steps: true},
	{class: frame.DoNotBuild, short: "do not build", style: Style{Stroke: Black, Width: .4, Dash: []float64{.5, .9}}, cross: true},
}

// lookOf is the look of a class; one that is not in the table is a plain
// outline called by its own words.
func lookOf(c frame.Class) edgeLook {
	for _, l := range edgeLooks {
		if l.class == c {
			return l
		}
	}
	return edgeLook{class: c, short: fmt.Sprint(c), style: Style{Stroke: Black, Width: .4}}
}

// outline is the bed's corners on paper, clockwise from the uphill left; ok is
// false for a bed without a place.
func (p *painter) outline(b siting.Bed) (c []orb.Point, ok bool) {
	for _, k := range b.Corners {
		c = append(c, orb.Point{k[0], k[1]})
	}
	c = p.ground(c)
	return c, len(c) == 4
}

// beds draws outlines, steps, pegs and the marks of uphill side and low end.
func (p *painter) beds(bs []siting.Bed) {
	for _, b := range bs {
		c, ok := p.outline(b)
		if !ok {
			continue
		}
		l := lookOf(b.Edge)
		p.edge(bedLayer, c, l)
		words := fmt.Sprint(b.Edge)
		p.use(entry{rank: rankBed, text: "bed, " + words, sample: func(p *painter, at orb.Point) {
			r := rectangle(at, 9, 3)
			p.edge(panelLayer, r, l)
			if l.steps {
				p.add(panelLayer, []orb.Point{between(r[0], r[1], .5), between(r[3], r[2], .5)}, false, bayStyle)
			}
		}})
		p.bays(b, c)
		p.bedMarks(b, c)
		p.pegs(b)
	}
}

// edge draws an outline in the look of its class.
func (p *painter) edge(on layer, c []orb.Point, l edgeLook) {
	s := l.style.finer(math.Min(1, math.Max(.4, distance(c[0], c[3])/5)))
	s.Class = "bed"
	p.add(on, c, true, s)
	if l.double {
		p.add(on, inset(c, doubleGap), true, inner)
	}
	if l.cross {
		p.add(on, []orb.Point{c[0], c[2]}, false, Style{Stroke: Black, Width: .2, Class: "crossed"})
		p.add(on, []orb.Point{c[1], c[3]}, false, Style{Stroke: Black, Width: .2, Class: "crossed"})
	}
}

// inset draws a rectangle's corners in by d along both sides.
func inset(c []orb.Point, d float64) []orb.Point {
	out := make([]orb.Point, 4)
	for i := range c {
		next, prev := c[(i+1)%4], c[(i+3)%4]
		u := unit(orb.Point{next[0] - c[i][0], next[1] - c[i][1]})
		v := unit(orb.Point{prev[0] - c[i][0], prev[1] - c[i][1]})
		out[i] = orb.Point{c[i][0] + d*(u[0]+v[0]), c[i][1] + d*(u[1]+v[1])}
	}
	return out
}

// bays draws the cross boards between the steps of a stepped bed.
func (p *painter) bays(b siting.Bed, c []orb.Point) {
	if b.Build == nil {
		return
	}
	for i := 1; i < b.Build.BaysAlong; i++ {
		t := float64(i) / float64(b.Build.BaysAlong)
		p.add(bedLayer, []orb.Point{between(c[0], c[1], t), between(c[3], c[2], t)}, false, bayStyle)
	}
	for i := 1; i < b.Build.BaysAcross; i++ {
		t := float64(i) / float64(b.Build.BaysAcross)
		p.add(bedLayer, []orb.Point{between(c[0], c[3], t), between(c[1], c[2], t)}, false, bayStyle)
	}
	if b.Build.BaysAlong > 1 || b.Build.BaysAcross > 1 {
		p.use(entry{rank: rankStep, text: "step between two levels", sample: lineSample(bayStyle)})
	}
}

// bedMarks draws a filled triangle at the uphill side and an open one at the
// low end, outside the bed.
func (p *painter) bedMarks(b siting.Bed, c []orb.Point) {
	up := unit(orb.Point{c[0][0] - c[3][0], c[0][1] - c[3][1]})
	p.add(markLayer, triangle(between(c[0], c[1], .25), up), true, Style{Fill: Black, Class: "uphill"})
	p.use(entry{rank: rankUphill, text: "uphill side of a bed", sample: func(p *painter, at orb.Point) {
		p.add(panelLayer, triangle(orb.Point{at[0], at[1] + 1.6}, orb.Point{0, -1}), true, Style{Fill: Black})
	}})
	end := between(c[1], c[2], .5)
	out := unit(orb.Point{c[1][0] - c[0][0], c[1][1] - c[0][1]})
	switch b.LowEnd {
	case "right":
	case "left":
		end, out = between(c[0], c[3], .5), orb.Point{-out[0], -out[1]}
	default:
		return
	}
	open := Style{Stroke: Black, Fill: Paper, Width: .25, Class: "low-end"}
	p.add(markLayer, triangle(end, out), true, open)
	p.use(entry{rank: rankLow, text: "low end of a bed", sample: func(p *painter, at orb.Point) {
		p.add(panelLayer, triangle(orb.Point{at[0] - 1.6, at[1]}, orb.Point{1, 0}), true, open)
	}})
}

// triangle stands just off a side, over a point of it, and points away from
// the bed.
func triangle(foot, away orb.Point) []orb.Point {
	const gap, tall, half = .9, 1.8, 1.1 // mm
	base := orb.Point{foot[0] + gap*away[0], foot[1] + gap*away[1]}
	return []orb.Point{
		{base[0] + tall*away[0], base[1] + tall*away[1]},
		{base[0] - half*away[1], base[1] + half*away[0]},
		{base[0] + half*away[1], base[1] - half*away[0]},
	}
}

// pegs draws each peg as an upright cross.
func (p *painter) pegs(b siting.Bed) {
	if b.Pegs == nil || b.Build == nil {
		return
	}
	for _, q := range p.ground(b.Pegs.Positions) {
		p.peg(markLayer, q)
	}
	if len(b.Pegs.Positions) > 0 {
		p.use(entry{rank: rankPeg, text: "peg", sample: func(p *painter, at orb.Point) { p.peg(panelLayer, at) }})
	}
}

func (p *painter) peg(on layer, at orb.Point) {
	const h = pegSize / 2
	p.add(on, []orb.Point{{at[0] - h, at[1]}, {at[0] + h, at[1]}}, false, pegStyle)
	p.add(on, []orb.Point{{at[0], at[1] - h}, {at[0], at[1] + h}}, false, pegStyle)
}

func distance(a, b orb.Point) float64 { return math.Hypot(b[0]-a[0], b[1]-a[1]) }

func between(a, b orb.Point, t float64) orb.Point {
	return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
}

func rectangle(at orb.Point, w, h float64) []orb.Point {
	return []orb.Point{{at[0] - w/2, at[1] - h/2}, {at[0] + w/2, at[1] - h/2}, {at[0] + w/2, at[1] + h/2}, {at[0] - w/2, at[1] + h/2}}
}
