package plan

import (
	"errors"
	"fmt"
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

// SectionsSVG writes the sections through all beds that are built, one under
// another, as one SVG document; ErrNoSection where none is built.
func SectionsSVG(w io.Writer, a *siting.Assessment, opt Options) error {
	var all []*sectioner
	height, said := sectionMargin, ""
	for _, b := range a.Beds {
		k, err := layOut(b, opt)
		if errors.Is(err, ErrNoSection) {
			continue
		}
		if err != nil {
			return err
		}
		all = append(all, k)
		height += sectionHead + k.height
		said += b.Name + ": " + k.said() + " "
	}
	if len(all) == 0 {
		return ErrNoSection
	}
	s := newSVGNamed("sections", sectionWide, height, "Sections through the beds", said)
	y := sectionMargin
	for _, k := range all {
		s.Text(orb.Point{sectionMargin, y + 5}, k.b.Name, TextStyle{Size: 5, Bold: true, Anchor: Start, Ink: Black, Class: "section-bed"})
		k.d = lowered{s, y + sectionHead}
		k.draw()
		y += sectionHead + k.height
	}
	if err := s.writeTo(w); err != nil {
		return fmt.Errorf("write the sections: %w", err)
	}
	return nil
}
