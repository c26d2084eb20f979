package plan

import (
	"errors"
	"io"

	"crossfall/siting"

	"github.com/paulmach/orb"
)

// lowered is a Drawing on which everything lies lower on the paper.
type lowered struct {
	on Drawing
	by float64 // mm
}

func (l lowered) all(pts []orb.Point) []orb.Point {
	out := make([]orb.Point, len(pts))
	for i, p := range pts {
		out[i] = orb.Point{p[0], p[1] + l.by}
	}
	return out
}

func (l lowered) Polygon(ring []orb.Point, s Style) { l.on.Polygon(l.all(ring), s) }
func (l lowered) Line(pts []orb.Point, s Style)     { l.on.Line(l.all(pts), s) }
func (l lowered) Text(at orb.Point, t string, s TextStyle) {
	l.on.Text(orb.Point{at[0], at[1] + l.by}, t, s)
}

// sectionHead is the room for a bed's name over its section, mm.
const sectionHead = 9.0

// SectionsFigure is the sections through all beds that are built, one under
// another; ErrNoSection where none is built.
func SectionsFigure(a *siting.Assessment, opt Options) (Figure, error) {
	var all []*sectioner
	height, said := sectionMargin, ""
	for _, b := range a.Beds {
		k, err := layOut(b, opt)
		if errors.Is(err, ErrNoSection) {
			continue
		}
		if err != nil {
			return Figure{}, err
		}
		all = append(all, k)
		height += sectionHead + k.height
		said += b.Name + ": " + k.said() + " "
	}
	if len(all) == 0 {
		return Figure{}, ErrNoSection
	}
	return Figure{sectionWide, height, "Sections through the beds", said, func(d Drawing) {
		y := sectionMargin
		for _, k := range all {
			d.Text(orb.Point{sectionMargin, y + 5}, k.b.Name, TextStyle{Size: 5, Bold: true, Anchor: Start, Ink: Black, Class: "section-bed"})
			on := *k
			on.d = lowered{d, y + sectionHead}
			on.draw()
			y += sectionHead + k.height
		}
	}}, nil
}

// SectionsSVG writes the sections through all beds that are built as one SVG
// document; ErrNoSection where none is built.
func SectionsSVG(w io.Writer, a *siting.Assessment, opt Options) error {
	f, err := SectionsFigure(a, opt)
	if err != nil {
		return err
	}
	return f.SVG(w, "sections")
}
