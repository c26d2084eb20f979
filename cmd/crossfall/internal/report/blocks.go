package report

import (
	"fmt"
	"math"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting/plan"
)

// block is a block as rows of a width.
func (s *sheets) block(b block, wide float64) []row {
	switch {
	case b.Heading != "":
		return s.head(b.Heading, type3, 2.5)
	case b.Text != "":
		return s.paragraphIn(b.Text, s.type0, wide)
	case len(b.Lead) > 0:
		return s.lead(b.Lead, wide)
	case len(b.Items) > 0:
		return s.items(b.Items, wide)
	case len(b.List) > 0:
		return s.list(b.List, func(int) string { return "•" }, wide)
	case len(b.Steps) > 0:
		return s.list(b.Steps, func(i int) string { return fmt.Sprintf("%d.", i+1) }, wide)
	case b.Table != nil && len(b.Table.Rows) > 0:
		return s.table(*b.Table, wide)
	case b.Caution != nil:
		return s.caution(*b.Caution, wide)
	case b.Figure != nil:
		return s.figure(*b.Figure)
	case len(b.Row) > 0:
		return s.figures(b.Row)
	}
	return nil
}

// head is a heading, which stays with what follows it.
func (s *sheets) head(t string, size, above float64) []row {
	lines := s.measure.lines(t, size, true, textWide)
	tall := above + float64(len(lines))*size*leading
	under := 1.0
	if size == type2 {
		under = 2.2
	}
	return []row{{tall: tall + under, stay: true, draw: func(x, y float64) {
		if size == type2 {
			s.rule(x, y+above-1.6, textWide, .6, plan.Black)
		}
		s.set(x, y+above, lines, size, true, plan.Black)
	}}}
}

func (s *sheets) paragraph(t string, size float64, bold bool) []row {
	lines := s.measure.lines(t, size, bold, textWide)
	ink := plan.Black
	if size == smallType {
		ink = plan.Grey
	}
	return []row{{tall: float64(len(lines))*size*leading + 1.2, draw: func(x, y float64) { s.set(x, y, lines, size, bold, ink) }}}
}

// longest is the number of lines of a paragraph that may be split.
const longest = 12

func (s *sheets) paragraphIn(t string, size, wide float64) []row {
	lines := s.measure.lines(t, size, false, wide)
	var out []row
	for len(lines) > 0 {
		n := min(len(lines), longest)
		if rest := len(lines) - n; rest == 1 { // no line alone on the next page
			n--
		}
		part, under := lines[:n], 0.0
		lines = lines[n:]
		if len(lines) == 0 {
			under = 1.4
		}
		out = append(out, row{tall: float64(n)*size*leading + under, draw: func(x, y float64) { s.set(x, y, part, size, false, plan.Black) }})
	}
	return out
}

// lead is what to do, in a frame.
func (s *sheets) lead(all []string, wide float64) []row {
	const pad = 3.0
	var lines [][]string
	tall := 2*pad - 1
	for _, t := range all {
		l := s.measure.lines(t, bodyType, false, wide-2*pad)
		lines = append(lines, l)
		tall += float64(len(l))*bodyType*leading + 1
	}
	return []row{{tall: tall + 3, draw: func(x, y float64) {
		s.frame(x, y, wide, tall, .5)
		at := y + pad
		for _, l := range lines {
			s.set(x+pad, at, l, bodyType, false, plan.Black)
			at += float64(len(l))*bodyType*leading + 1
		}
	}}}
}

func (s *sheets) frame(x, y, wide, tall, weight float64) {
	s.doc.SetDrawColor(plan.Black.RGB())
	s.doc.SetLineWidth(weight)
	s.doc.SetDashPattern(nil, 0)
	s.doc.Rect(x, y, wide, tall, "D")
}

// items are names with what is said to each.
func (s *sheets) items(all []words.Item, wide float64) []row {
	if wide == textWide {
		return s.itemsIn(all, wide, 46)
	}
	least, rows := math.Inf(1), []row(nil)
	for _, part := range namesPart {
		if r := s.itemsIn(all, wide, part*wide); sum(r) < least-roundOff {
			least, rows = sum(r), r
		}
	}
	return rows
}

// namesPart are the parts of a column that the names of its items are tried in.
var namesPart = [...]float64{.36, .4, .32, .28}

// itemsIn are items whose names have a width of their own.
func (s *sheets) itemsIn(all []words.Item, wide, names float64) []row {
	size := s.type0
	var out []row
	for _, i := range all {
		name := s.measure.lines(i.Name, size, false, names-2)
		value := s.measure.lines(i.Value, size, false, wide-names)
		n := max(len(name), len(value))
		out = append(out, row{tall: float64(n)*size*leading + .35, draw: func(x, y float64) {
			s.set(x, y, name, size, false, plan.Grey)
			s.set(x+names, y, value, size, false, plan.Black)
		}})
	}
	return spaced(out, 1.4)
}

// How lists are set: room for the mark, mm, and the columns of short ones.
const (
	indent      = 6.0
	listColumns = 3
)

// list is a list with a mark before each, in three columns where all are short.
func (s *sheets) list(all []string, mark func(int) string, wide float64) []row {
	size, part := s.type0, wide/listColumns
	short := len(all) > 2
	for _, t := range all {
		short = short && s.measure.width(t, size, false) < part-indent-2
	}
	if short {
		return s.shortList(all, mark, part)
	}
	var out []row
	for i, t := range all {
		lines := s.measure.lines(t, size, false, wide-indent)
		out = append(out, row{tall: float64(len(lines))*size*leading + .3, draw: func(x, y float64) {
			s.write(x, y, mark(i), size, false, plan.Black)
			s.set(x+indent, y, lines, size, false, plan.Black)
		}})
	}
	return spaced(out, 1.4)
}

// shortList is a list that goes down one column after another.
func (s *sheets) shortList(all []string, mark func(int) string, part float64) []row {
	size := s.type0
	deep := (len(all) + listColumns - 1) / listColumns
	var out []row
	for i := range deep {
		out = append(out, row{tall: size*leading + .4, draw: func(x, y float64) {
			for n := i; n < len(all); n += deep {
				s.write(x, y, mark(n), size, false, plan.Black)
				s.write(x+indent, y, all[n], size, false, plan.Black)
				x += part
			}
		}})
	}
	return spaced(out, 1.4)
}

// spaced leaves room under the last row.
func spaced(rows []row, under float64) []row {
	if n := len(rows); n > 0 {
		rows[n-1].tall += under
	}
	return rows
}

// caution is a caution with its mark in a frame, a stop in white on black.
func (s *sheets) caution(c words.Caution, wide float64) []row {
	const indent = 4.0 // past the bar
	size := s.type0
	markWide := s.measure.width(c.Mark, size, true) + 3
	text := s.measure.lines(c.Text, size, false, wide-indent-markWide-2)
	tail := c.Tail
	if c.ID != "" {
		tail += " (" + c.ID + ")"
	}
	below := s.measure.lines(tail, smallType, false, wide-indent-markWide-2)
	tall := float64(len(text))*size*leading + float64(len(below))*smallType*leading
	return []row{{tall: tall + 2, draw: func(x, y float64) {
		how, ink, bar := "D", plan.Black, plan.Ink("#999999")
		if c.Mark == "STOP" {
			how, ink, bar = "DF", plan.Paper, plan.Black
		}
		s.doc.SetFillColor(bar.RGB())
		s.doc.Rect(x, y, 1.6, tall, "F")
		s.doc.SetFillColor(plan.Black.RGB())
		s.doc.SetDrawColor(plan.Black.RGB())
		s.doc.SetLineWidth(.4)
		s.doc.SetDashPattern(nil, 0)
		s.doc.Rect(x+indent, y, markWide, size*leading, how)
		s.write(x+indent+1.5, y+.3, c.Mark, size, true, ink)
		s.set(x+indent+markWide+2, y, text, size, false, plan.Black)
		s.set(x+indent+markWide+2, y+float64(len(text))*size*leading, below, smallType, false, plan.Grey)
	}}}
}
