package report

import (
	"fmt"
	"io"
	"slices"

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

// writePDF sets the document, and once more where it must begin by saying that not
// all of it could be written.
func writePDF(w io.Writer, d document, opt Options) error {
	s, err := newSheets(d, opt)
	if err != nil {
		return err
	}
	s.document(d)
	if said := s.letters.Said(); said != "" {
		d.Frame = append(slices.Clone(d.Frame), said+" The report as a page for the browser shows them all.")
		if s, err = newSheets(d, opt); err != nil {
			return err
		}
		s.document(d)
	}
	if err := s.doc.Output(w); err != nil {
		return fmt.Errorf("write the report: %w", err)
	}
	return nil
}

// document sets all parts of a document.
func (s *sheets) document(d document) {
	s.newPage()
	s.title(d)
	for i, p := range d.Parts {
		if i > 0 && !p.Summary && d.Parts[i-1].Summary {
			s.plans(d)
			s.newPage()
		} else if p.Page {
			s.newPage()
		}
		s.size(d.Parts, i)
		s.part(p)
	}
	s.feet()
}

// size chooses the type of the part: that of dense ones so that they, with those
// that follow them on the page, keep to it.
func (s *sheets) size(parts []part, i int) {
	if !parts[i].Dense {
		s.type0 = bodyType
		return
	}
	if i > 0 && parts[i-1].Dense && !parts[i].Page {
		return // chosen with the one before
	}
	to := i + 1
	for to < len(parts) && parts[to].Dense && !parts[to].Page {
		to++
	}
	s.sized(parts[i:to])
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
	rows = append(rows, s.partHead(p)...)
	for _, b := range p.Blocks {
		if b.Columns != nil {
			s.place(rows...)
			s.columns(*b.Columns)
			rows = nil
			continue
		}
		rows = append(rows, s.block(b, textWide)...)
	}
	s.place(rows...)
}

// partHead is the heading of a part, which the reader's list of parts leads to.
func (s *sheets) partHead(p part) []row {
	above := 4.0
	if p.Page {
		above = 1.6 // its rule is the top of the page
	}
	rows := s.head(p.Title, type2, above)
	draw := rows[0].draw
	rows[0].draw = func(x, y float64) {
		s.doc.Bookmark(plan.PDFText(p.Title), 0, y)
		draw(x, y)
	}
	return rows
}

// dense are the sizes of type, mm, that parts which keep to a page are tried in. In
// the least a small letter without a stroke upwards is still 1.2 mm high, which is
// what the European Union asks of the labels of food (Regulation 1169/2011, from
// memory).
var dense = [...]float64{2.8, smallType, 2.5, 2.4, 2.3}

// sized takes the greatest size of type in which parts keep to a page together,
// and else the least.
func (s *sheets) sized(parts []part) {
	for _, s.type0 = range dense {
		tall := 0.0
		for _, p := range parts {
			tall += s.height(p)
		}
		if tall <= s.tall-marginTop-marginFoot {
			return
		}
	}
}

// height is how much of a page a part takes, mm.
func (s *sheets) height(p part) float64 {
	tall := sum(s.partHead(p))
	for _, b := range p.Blocks {
		if b.Columns == nil {
			tall += sum(s.block(b, textWide))
			continue
		}
		rows, _ := s.beside(*b.Columns)
		tall += max(sum(rows[0]), sum(rows[1]))
	}
	return tall
}

func sum(rows []row) float64 {
	tall := 0.0
	for _, r := range rows {
		tall += r.tall
	}
	return tall
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
			b.Figure.Draw(plan.OnPDF(s.doc, orb.Point{}, &s.letters))
		}
	}
}
