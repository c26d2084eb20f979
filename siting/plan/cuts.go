package plan

import (
	"errors"
	"fmt"

	"crossfall/siting/takeoff"

	"github.com/paulmach/orb"
)

// ErrNoCuts is returned for boards without a cut list.
var ErrNoCuts = errors.New("plan: the boards have no cut list to draw")

// Sizes of a diagram of cuts, mm; defaults of ours.
const (
	cutLeft  = 9.0 // for the number of the board
	cutTall  = 6.0 // of a board
	cutStep  = 8.0 // from one board to the next
	cutsHead = 7.0
)

var (
	pieceStyle = Style{Stroke: Black, Width: .35, Fill: Paper, Class: "piece"}
	wasteStyle = Style{Stroke: Black, Width: .2, Class: "waste"}
	wasteHatch = Style{Stroke: Grey, Width: .15, Class: "waste-hatch"}
)

// CutFigure is how the boards of one section and length are cut, each as a bar
// true to scale along its length, its waste hatched.
func CutFigure(b takeoff.BoardLine, opt Options) (Figure, error) {
	if len(b.Cuts) == 0 || b.Length <= 0 {
		return Figure{}, ErrNoCuts
	}
	ratio := sectionScales[len(sectionScales)-1]
	for _, s := range sectionScales {
		if b.Length/float64(s) <= chartWide-cutLeft-1 {
			ratio = s
			break
		}
	}
	height := cutsHead + cutStep*float64(len(b.Cuts)) + 1
	size := fmt.Sprintf("%s by %s, %s long", opt.Units.Small(b.Height/1000), opt.Units.Small(b.Thickness/1000), opt.Units.Length(b.Length/1000))
	what := fmt.Sprintf("How %s of %s %s cut", count(len(b.Cuts), "board"), size, map[bool]string{true: "is", false: "are"}[len(b.Cuts) == 1])
	said := fmt.Sprintf("%s left over in all.", opt.Units.Length(b.Waste/1000))
	return Figure{chartWide, height, what, said, func(d Drawing) {
		d.Text(orb.Point{0, 2.6}, fmt.Sprintf("%s; lengths 1:%d", what, ratio), chartTitle)
		for i, c := range b.Cuts {
			y := cutsHead + cutStep*float64(i) + cutTall/2
			d.Text(orb.Point{cutLeft - 2, y}, fmt.Sprint(i+1), anchored(chartText, End))
			cutBoard(d, c, y, ratio, opt)
		}
	}}, nil
}

// cutBoard draws one board from its left end.
func cutBoard(d Drawing, c takeoff.Cut, y float64, ratio int, opt Options) {
	x := cutLeft
	for _, p := range c.Pieces {
		wide := p.Length / float64(ratio)
		mid := orb.Point{x + wide/2, y}
		d.Polygon(rectangle(mid, wide, cutTall), pieceStyle)
		length := opt.Units.Small(p.Length / 1000)
		fits(d, mid, wide-1, length+" "+p.For, length)
		x += wide
	}
	if c.Waste <= 0 {
		return
	}
	wide := c.Waste / float64(ratio)
	mid := orb.Point{x + wide/2, y}
	ring := rectangle(mid, wide, cutTall)
	for _, l := range hatch([][]orb.Point{ring}, 45, 1.4) {
		d.Line(l[:], wasteHatch)
	}
	d.Polygon(ring, wasteStyle)
	length := opt.Units.Small(c.Waste / 1000)
	fits(d, mid, wide-1, "waste "+length, length)
}

// fits writes the first text that has room, on one line or on two.
func fits(d Drawing, mid orb.Point, room float64, tries ...string) {
	s := chartText
	s.Size, s.Halo = 2.2, true
	for _, t := range tries {
		lines := wrap(t, s.Size, false, room)
		wide := 0.0
		for _, l := range lines {
			wide = max(wide, textWidth(l, s.Size, false))
		}
		if len(lines) > 2 || wide > room {
			continue
		}
		for i, l := range lines {
			d.Text(orb.Point{mid[0], mid[1] + 2.5*(float64(i)-float64(len(lines)-1)/2)}, l, s)
		}
		return
	}
}
