package report

import (
	"fmt"
	"math"

	"crossfall/siting/plan"

	"codeberg.org/go-pdf/fpdf"
)

// textWide is the width of the text, mm: it fits the drawings and leaves a margin
// of 16 mm on A4 and 19 mm on Letter.
const textWide = 178.0

const (
	marginTop  = 10.0 // mm
	marginFoot = 12.5 // with the page number
)

// pageSizes are the sizes of paper by name, mm (ISO 216; ANSI/ASME Y14.1).
var pageSizes = map[string][2]float64{"": {210, 297}, "A4": {210, 297}, "Letter": {215.9, 279.4}}

// row is what no end of a page splits.
type row struct {
	tall float64 // mm, with the space under it
	stay bool    // on one page with the next
	head []row   // what comes over it on a new page
	draw func(x, y float64)
}

// sheets are the pages of text of a PDF, filled from the top down.
type sheets struct {
	doc        *fpdf.Fpdf
	measure    *measure
	wide, tall float64 // of a page, mm
	left, y    float64 // of the text, and where the next row goes
	type0      float64 // size of the type of the part, mm
	numbered   []int   // pages of text, for their feet
	foot       string
	letters    plan.Letters
}

func newSheets(d document, opt Options) (*sheets, error) {
	size, ok := pageSizes[opt.Page]
	if !ok {
		return nil, fmt.Errorf("a page is A4 or Letter, not %q", opt.Page)
	}
	s := &sheets{doc: plan.NewPDF(d.Name, d.Said), measure: newMeasure(), wide: size[0], tall: size[1], left: (size[0] - textWide) / 2}
	s.foot = d.Name
	if opt.Version != "" {
		s.foot += ", crossfall " + opt.Version
	}
	return s, nil
}

func (s *sheets) newPage() {
	plan.AddPDFPage(s.doc, s.wide, s.tall)
	s.numbered = append(s.numbered, s.doc.PageNo())
	s.y = marginTop
}

// room is what is left of the page, mm.
func (s *sheets) room() float64 { return s.tall - marginFoot - s.y }

// place sets rows under one another, on a new page where one, or those that stay
// with it, would not fit.
func (s *sheets) place(rows ...row) {
	for i := 0; i < len(rows); {
		n, tall := 1, rows[i].tall
		for i+n < len(rows) && rows[i+n-1].stay {
			tall += rows[i+n].tall
			n++
		}
		if tall > s.room() && s.y > marginTop {
			s.newPage()
			s.place(rows[i].head...)
		}
		for _, r := range rows[i : i+n] {
			r.draw(s.left, s.y)
			s.y += r.tall
		}
		i += n
	}
}

// columnGap is between blocks side by side, mm.
const columnGap = 6.0

// shares are the parts of the width that the first of two columns is tried in.
var shares = [...]float64{.62, .58, .55, .52, .49, .46}

// beside are two columns as rows, in the widths that take least of the page, and
// where each begins.
func (s *sheets) beside(cs [2]column) (rows [2][]row, from [2]float64) {
	least := math.Inf(1)
	for _, share := range shares {
		first := (textWide - columnGap) * share
		left, right := s.column(cs[0], first), s.column(cs[1], textWide-columnGap-first)
		if tall := max(sum(left), sum(right)); tall < least-roundOff {
			least, rows, from = tall, [2][]row{left, right}, [2]float64{s.left, s.left + first + columnGap}
		}
	}
	return rows, from
}

// column is one column as rows.
func (s *sheets) column(c column, wide float64) []row {
	rows := s.head(c.Heading, type3, 1.5)
	for _, b := range c.Blocks {
		rows = append(rows, s.block(b, wide)...)
	}
	return rows
}

// columns sets columns side by side, each going on where it left off on the next
// page.
func (s *sheets) columns(cs [2]column) {
	left, from := s.beside(cs)
	for first := true; ; first = false {
		top, deepest, more := s.y, s.y, false
		for i := range left {
			y := top
			for len(left[i]) > 0 && (y+left[i][0].tall <= s.tall-marginFoot || (!first && y == marginTop)) {
				left[i][0].draw(from[i], y)
				y += left[i][0].tall
				left[i] = left[i][1:]
			}
			deepest = max(deepest, y)
			more = more || len(left[i]) > 0
		}
		s.y = deepest
		if !more {
			return
		}
		s.newPage()
	}
}

// feet writes the foot of every page of text, with its number of all pages.
func (s *sheets) feet() {
	all := s.doc.PageCount()
	for _, n := range s.numbered {
		s.doc.SetPage(n)
		y := s.tall - 8
		s.write(s.left, y, s.foot, smallType, false, plan.Grey)
		number := fmt.Sprintf("page %d of %d", n, all)
		s.write(s.left+textWide-s.measure.width(number, smallType, false), y, number, smallType, false, plan.Grey)
	}
	s.doc.SetPage(all)
}
