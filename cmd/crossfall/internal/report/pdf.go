package report

import (
	"fmt"
	"io"

	"crossfall/siting"
	"crossfall/siting/plan"

	"github.com/paulmach/orb"
)

// PDF writes the whole report as a PDF: the summary on the pages at the front,
// the plan at its scale on a sheet of its own, a page for each bed, then the
// water, and what all of it rests on. The same assessment and options give the
// same bytes.
func PDF(w io.Writer, a *siting.Assessment, opt Options) error {
	d, err := compose(a, opt)
	if err != nil {
		return fmt.Errorf("put the report together: %w", err)
	}
	return writePDF(w, d, opt)
}

func writePDF(w io.Writer, d document, opt Options) error {
	s, err := newSheets(d, opt)
	if err != nil {
		return err
	}
	s.newPage()
	s.title(d)
	for i, p := range d.Parts {
		if i > 0 && !p.Summary && d.Parts[i-1].Summary {
			s.plans(d)
			s.newPage()
		} else if p.Page {
			s.newPage()
		}
		s.part(p)
	}
	s.feet()
	if err := s.doc.Output(w); err != nil {
		return fmt.Errorf("write the report: %w", err)
	}
	return nil
}

// title is the name of the plot and what was read.
func (s *sheets) title(d document) {
	s.place(s.paragraph(d.Name, type1, true)...)
	if d.Date != "" {
		s.place(s.paragraph(d.Date, bodyType, false)...)
	}
	for _, t := range d.Frame {
		s.place(s.paragraph(t, smallType, false)...)
	}
}

// part sets a part of the report from where the page has come to.
func (s *sheets) part(p part) {
	var rows []row
	rows = append(rows, s.head(p.Title, type2, 4)...)
	mark := rows[0].draw
	rows[0].draw = func(x, y float64) {
		s.doc.Bookmark(p.Title, 0, y)
		mark(x, y)
	}
	for _, b := range p.Blocks {
		if len(b.Columns) > 0 {
			s.place(rows...)
			s.columns(b.Columns)
			rows = nil
			continue
		}
		rows = append(rows, s.block(b, textWide)...)
	}
	s.place(rows...)
}

// plans are the sheets of paper of their own.
func (s *sheets) plans(d document) {
	for _, p := range d.Parts {
		for _, b := range p.Blocks {
			if b.Figure == nil || !b.Figure.Sheet {
				continue
			}
			plan.AddPDFPage(s.doc, b.Figure.Width, b.Figure.Height)
			s.doc.Bookmark(p.Title+", on a sheet of its own", 0, 0)
			b.Figure.Draw(plan.OnPDF(s.doc, orb.Point{}))
		}
	}
}
