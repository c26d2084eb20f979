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
	"io"

	"crossfall/geodata"
	"crossfall/siting"
)

// Options for drawing; the zero value works.
type Options struct {
	Units geodata.Units // "m" (default) or "ft", for every figure on the plan
	Paper string        // "A4" or "A3"; default: A4, or A3 where that shows more
	DPI   float64       // dots an inch of a picture, 30 to 600; default 150
	// Date is that of the input and Version that of the program, for the title;
	// printed as given, and left out where they are empty.
	Date, Version string
}

// ErrNothingToDraw is returned for an assessment without a boundary.
var ErrNothingToDraw = errors.New("plan: the assessment holds no boundary to draw")

// PlotFigure is the plan on the sheet that Lay gives for the same assessment and
// options.
func PlotFigure(a *siting.Assessment, opt Options) (Figure, error) {
	sheet, err := Lay(a, opt)
	if err != nil {
		return Figure{}, err
	}
	f := Figure{Width: sheet.Width, Height: sheet.Height, Title: title(a), Description: description(a)}
	f.draw = func(d Drawing) { paint(d, sheet, a, opt) }
	return f, nil
}

func paint(d Drawing, sheet Sheet, a *siting.Assessment, opt Options) {
	p := newPainter(sheet, opt)
	p.site(a)
	p.panel(a)
	p.flush(d)
}

// site lays out everything but the panel, the most important first, for later
// texts find less room.
func (p *painter) site(a *siting.Assessment) {
	p.boundary(a.Frame)
	p.spots(a.Ground.Heights)
	p.bedNames(a.Beds)
	p.marks(a.Features)
	p.services(a.Features)
	p.fixtures(a.Features)
	p.barrow(a.Beds)
	p.hollows(a.Ground.Hollows)
	p.toCome(a.ToCome)
	p.runoff(a)
	p.paths(a.Water.Paths, pathStyle, rankPath, "where winter rain runs")
	p.paths(turnedPaths(a.Water.PathsWithBeds), turnedStyle, rankTurned, "where it runs with the beds built")
	p.drains(a.Water.Drains)
	p.contours(a.Ground.Contours)
	p.spotHeights(a.Ground.Heights)
	p.beds(a.Beds)
	p.frame()
}

// SVG writes the plan as one SVG document. The same assessment and options
// give the same bytes.
func SVG(w io.Writer, a *siting.Assessment, opt Options) error {
	f, err := PlotFigure(a, opt)
	if err != nil {
		return err
	}
	return f.SVG(w, "plan")
}

// PDF writes the plan as a document of one page, true to scale when printed at
// full size. The same assessment and options give the same bytes.
func PDF(w io.Writer, a *siting.Assessment, opt Options) error {
	f, err := PlotFigure(a, opt)
	if err != nil {
		return err
	}
	return f.PDF(w)
}

// PNG writes the plan as a picture of opt.DPI dots an inch. The same assessment
// and options give the same bytes.
func PNG(w io.Writer, a *siting.Assessment, opt Options) error {
	f, err := PlotFigure(a, opt)
	if err != nil {
		return err
	}
	return f.PNG(w, opt.DPI)
}
