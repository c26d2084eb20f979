package report

import (
	"strings"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting/plan"
)

// together is the greatest number of rows that are kept on one page.
const together = 6

// table is a table as rows, its heads repeated on each page.
func (s *sheets) table(t table, wide float64) []row {
	size := min(s.type0, bodyType-.2)
	if t.Fine {
		size = fineType
	}
	columns := s.columnWidths(t, size, wide)
	var head []row
	if t.Caption != "" {
		head = s.paragraph(t.Caption, smallType, false)
		head[0].stay = true
	}
	heads := s.cells(t.Heads, columns, size, true, true)
	heads.stay = true
	out := append(head, heads)
	for i, r := range t.Rows {
		line := s.cells(r, columns, size, false, false)
		line.head = []row{heads}
		line.stay = len(t.Rows) <= together && i < len(t.Rows)-1
		out = append(out, line)
	}
	return spaced(out, 2.5)
}

const cellGap = 2.5 // between two columns, mm

// cells is one row of a table; the first cell is its head.
func (s *sheets) cells(texts []string, columns []float64, size float64, bold, heads bool) row {
	lines := make([][]string, len(texts))
	most := 1
	for i, t := range texts {
		lines[i] = s.measure.lines(t, size, bold || i == 0, columns[i])
		most = max(most, len(lines[i]))
	}
	tall := float64(most)*size*leading + 1.1
	return row{tall: tall, draw: func(x, y float64) {
		at, wide := x, -cellGap
		for i, l := range lines {
			s.set(at, y, l, size, bold || i == 0, plan.Black)
			at += columns[i] + cellGap
			wide += columns[i] + cellGap
		}
		weight, ink := .12, plan.Grey
		if heads {
			weight, ink = .4, plan.Black
		}
		s.rule(x, y+tall-.6, wide, weight, ink)
	}}
}

// columnWidths shares a width among columns: each has room for its longest word,
// and what is left goes to those that would need more to stand on one line.
func (s *sheets) columnWidths(t table, size, wide float64) []float64 {
	n := len(t.Heads)
	least, most := make([]float64, n), make([]float64, n)
	longest := wide * .2 // of a word that is not broken
	if t.Fine {
		longest = wide * .12
	}
	look := func(i int, text string, bold bool) {
		most[i] = max(most[i], min(s.measure.width(strings.ReplaceAll(text, "\n", " "), size, bold), wide*.45))
		if i == 0 { // the head of a row stands on one line where it can
			least[i] = max(least[i], min(s.measure.width(text, size, true), longest))
		}
		for _, word := range breakable(text) {
			least[i] = max(least[i], min(s.measure.width(strings.ReplaceAll(word, words.NoBreak, " "), size, bold), longest))
		}
	}
	for i, h := range t.Heads {
		look(i, h, true)
	}
	for _, r := range t.Rows {
		for i, c := range r {
			look(i, c, i == 0)
		}
	}
	room, want := wide-cellGap*float64(n-1), 0.0
	for i := range least {
		most[i] = max(most[i], least[i])
		room -= least[i]
		want += most[i] - least[i]
	}
	if want > 0 {
		part := max(0, min(1, room/want))
		for i := range least {
			least[i] += part * (most[i] - least[i])
		}
	}
	return least
}
