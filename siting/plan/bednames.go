package plan

import (
	"math"

	"crossfall/siting"
	"crossfall/siting/frame"

	"github.com/paulmach/orb"
)

// bedNames finds room for every bed's name, size and class of edge, and keeps
// other texts off pegs and edges.
func (p *painter) bedNames(bs []siting.Bed) {
	for _, b := range bs {
		if c, ok := p.outline(b); ok {
			p.keepClear(b, c)
		}
	}
	for _, b := range bs {
		if c, ok := p.outline(b); ok && !p.nameInside(b, c) {
			p.listed = append(p.listed, b)
		}
	}
}

// keepClear keeps texts off a bed's edges, triangles and pegs.
func (p *painter) keepClear(b siting.Bed, c []orb.Point) {
	p.labels.markLine(append(c[:4:4], c[0]))
	p.labels.mark(between(c[0], c[1], .25), 5)
	switch b.LowEnd {
	case "right":
		p.labels.mark(between(c[1], c[2], .5), 5)
	case "left":
		p.labels.mark(between(c[0], c[3], .5), 5)
	}
	if b.Pegs != nil && b.Build != nil {
		for _, q := range p.ground(b.Pegs.Positions) {
			p.labels.mark(q, pegSize)
		}
	}
}

// said are the lines that a bed carries.
func (p *painter) said(b siting.Bed) []string {
	return []string{b.Name, p.units.Length(b.Length) + " × " + p.units.Length(b.Width), shortEdge(b)}
}

// shortEdge is the bed's class in few words, with what must not be missed.
func shortEdge(b siting.Bed) string {
	t := lookOf(b.Edge).short
	if b.Build == nil && b.Edge != frame.DoNotBuild {
		return t + ", stopped: see cautions"
	}
	if !b.EdgeFirm {
		return t + " (not firm)"
	}
	return t
}

// nameInside writes as many of the bed's lines as fit inside it, trying the
// larger type first; a bed too small for its name has it beside. It returns
// false unless every line found room.
func (p *painter) nameInside(b siting.Bed, c []orb.Point) bool {
	lines := p.said(b)
	long := orb.Point{c[1][0] - c[0][0], c[1][1] - c[0][1]}
	room := [2]float64{math.Hypot(long[0], long[1]) - 2.4, math.Hypot(c[3][0]-c[0][0], c[3][1]-c[0][1]) - 1.6}
	turn := readable(long)
	if room[1] > room[0] {
		room[0], room[1] = room[1], room[0]
		turn = readable(orb.Point{-long[1], long[0]})
	}
	for n := len(lines); n > 0; n-- {
		for _, size := range [...]float64{3.2, 2.6, 2.2} {
			block := newBlock(lines[:n], size)
			if block.w <= room[0] && block.h <= room[1] && p.placeBlock(block, between(c[0], c[2], .5), turn, room[0]) {
				return n == len(lines)
			}
		}
	}
	p.beside(between(c[1], c[2], .5), 3.2, b.Name, TextStyle{Size: 2.4, Bold: true, Class: "label bed-name"}, false)
	return false
}

// block is lines of text set together, the first in bold.
type block struct {
	lines      []string
	size, w, h float64
}

const leading = 1.25 // distance between lines, in sizes of type

func newBlock(lines []string, size float64) block {
	b := block{lines: lines, size: size, h: size * (leading*float64(len(lines)-1) + 1)}
	for i, l := range lines {
		b.w = math.Max(b.w, textWidth(l, b.sizeOf(i), i == 0))
	}
	return b
}

// sizeOf is the size of line i: the name stands out, the rest is smaller.
func (b block) sizeOf(i int) float64 {
	if i == 0 {
		return b.size
	}
	return math.Max(2.1, b.size*.8)
}

// placeBlock sets a block at a place along the bed where it covers the least.
func (p *painter) placeBlock(b block, mid orb.Point, turn, room float64) bool {
	var tries []box
	for _, f := range [...]float64{0, -.25, .25, -.5, .5} {
		t := box{centre: mid, w: b.w, h: b.h, turn: turn}
		a := t.axes()[0]
		slack := f * (room - b.w)
		t.centre = orb.Point{mid[0] + a[0]*slack, mid[1] + a[1]*slack}
		tries = append(tries, t)
	}
	at, ok := p.labels.place(tries, false)
	if !ok {
		return false
	}
	down := at.axes()[1]
	for i, l := range b.lines {
		y := b.size * leading * (float64(i) - float64(len(b.lines)-1)/2)
		s := TextStyle{Size: b.sizeOf(i), Bold: i == 0, Class: "label bed-text"}
		p.label(box{centre: orb.Point{at.centre[0] + down[0]*y, at.centre[1] + down[1]*y}, turn: at.turn}, l, s)
	}
	return true
}
