// Package plan draws an Assessment as a builder's plan: true to scale on A4 or
// A3, near-black on white with one accent for water, and every difference
// also told by line style, hatch or word, so that it prints in black and white.
//
// Ground coordinates are metres, x east and y north as the frame says, with +y
// up the page. Paper coordinates are millimetres from the top left corner, x
// to the right and y down.
package plan

import (
	"errors"
	"fmt"
	"io"

	"crossfall/geodata"
	"crossfall/siting"
)

// Options for drawing; the zero value works.
type Options struct {
	Units geodata.Units // "m" (default) or "ft", for every figure on the plan
	Paper string        // "A4" or "A3"; default: A4, or A3 where that shows more
}

// ErrNothingToDraw is returned for an assessment without a boundary.
var ErrNothingToDraw = errors.New("plan: the assessment holds no boundary to draw")

// Draw puts the plan on d. The sheet is the one that Lay gives for the same
// assessment and options.
func Draw(d Drawing, a *siting.Assessment, opt Options) error {
	sheet, err := Lay(a, opt)
	if err != nil {
		return err
	}
	p := newPainter(sheet, opt)
	p.boundary(a.Frame)
	p.spots(a.Ground.Heights)
	p.bedNames(a.Beds)
	p.marks(a.Features)
	p.services(a.Features)
	p.fixtures(a.Features)
	p.hollows(a.Ground.Hollows)
	p.runoff(a)
	p.paths(a.Water.Paths, pathStyle, rankPath, "where winter rain runs")
	p.paths(turnedPaths(a.Water.PathsWithBeds), turnedStyle, rankTurned, "where it runs with the beds built")
	p.drains(a.Water.Drains)
	p.contours(a.Ground.Contours)
	p.spotHeights(a.Ground.Heights)
	p.beds(a.Beds)
	p.frame()
	p.panel(a)
	p.flush(d)
	return nil
}

// SVG writes the plan as one SVG document. The same assessment and options
// give the same bytes.
func SVG(w io.Writer, a *siting.Assessment, opt Options) error {
	sheet, err := Lay(a, opt)
	if err != nil {
		return err
	}
	s := newSVG(sheet.Width, sheet.Height, title(a), description(a))
	if err := Draw(s, a, opt); err != nil {
		return err
	}
	if err := s.writeTo(w); err != nil {
		return fmt.Errorf("write the plan: %w", err)
	}
	return nil
}
