package plan

import (
	"fmt"
	"io"

	"github.com/paulmach/orb"
)

// Figure is a finished drawing of a known size, ready for any Drawing.
type Figure struct {
	Width, Height float64 // of the paper, mm
	Title         string  // what it is
	Description   string  // what it shows, for those who cannot see it
	draw          func(d Drawing)
}

// Draw puts the figure on d with its top left corner at the paper's.
func (f Figure) Draw(d Drawing) { f.draw(d) }

// foot says in the margin at the foot what could not be written.
func (f Figure) foot(d Drawing, letters *Letters) {
	if said := letters.Said(); said != "" {
		d.Text(orb.Point{margin, f.Height - margin/2}, said, TextStyle{Size: 2.3, Anchor: Start, Class: "panel"})
	}
}

// SVG writes the figure as one SVG document. The name tells its ids from those
// of other drawings on one page.
func (f Figure) SVG(w io.Writer, name string) error {
	s := newSVG(name, f.Width, f.Height, f.Title, f.Description)
	f.draw(s)
	if err := s.writeTo(w); err != nil {
		return fmt.Errorf("write the drawing: %w", err)
	}
	return nil
}
