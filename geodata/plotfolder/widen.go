package plotfolder

import (
	"fmt"
	"strings"
	"unicode"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// widen adds the columns that a shape needs and the table has not, to the header
// and to every row.
func (t *featureText) widen(s newShape, e FeatureEdit) error {
	missing := t.missing(s)
	if len(missing) == 0 {
		return nil
	}
	if t.Delimiter == ' ' {
		return e.fault("columns-missing", t.File+" has no column "+strings.Join(missing, ", ")+", and none can be added between blanks", "save the table with commas first")
	}
	head := cellsIn(*t.Header, t.Delimiter)
	for _, r := range t.Rows { // a cell under no title would come under a new one
		if len(r.Cells) > head {
			return e.fault("long-row", fmt.Sprintf("line %d of %s has more cells than the table has columns", r.Line, t.File), "take out the delimiter that is too many first")
		}
	}
	t.lengthen(*t.Header, string(t.Delimiter)+strings.Join(missing, string(t.Delimiter)))
	for i, title := range missing {
		col := column{at: head + i, title: title, unit: geodata.Metre}
		switch p, known := propertyNamed(csvtable.TitleOf(csvtable.Cell{Text: title}).Name); {
		case known:
			t.said = append(t.said, saidColumn{col, p})
		case title == synonyms[nameCol][0]:
			t.cols.of[nameCol] = col
		default:
			col.unit = t.cols.of[xCol].unit
			t.cols.of[zCol] = col
		}
	}
	t.cols.count = head + len(missing)
	t.level()
	return nil
}

// level makes all rows as long as the header, with empty cells.
func (t *featureText) level() {
	if t.levelled {
		return
	}
	t.levelled = true
	for _, r := range t.Rows {
		t.lengthen(r, strings.Repeat(string(t.Delimiter), max(0, t.cols.count-cellsIn(r, t.Delimiter))))
	}
}

// lengthen puts a text at the end of a row, unless it was taken out.
func (t *featureText) lengthen(r csvtable.Row, added string) {
	if line := t.lines[r.Line-1]; line != "" && added != "" {
		bare := strings.TrimRight(line, "\r\n")
		t.lines[r.Line-1] = strings.TrimRight(bare, " ") + added + line[len(bare):]
	}
}

// missing are the titles of the columns that a shape needs and the table has not.
func (t *featureText) missing(s newShape) (out []string) {
	if s.Name != "" && t.cols.of[nameCol].at < 0 {
		out = append(out, synonyms[nameCol][0])
	}
	if any, _ := s.hasHeights(); any && t.cols.of[zCol].at < 0 {
		out = append(out, synonyms[zCol][0])
	}
	for _, said := range s.sayings() {
		if !t.has(said.property) {
			out = append(out, said.key)
		}
	}
	return out
}

// cellsIn counts the cells of a row with those at its end that are empty.
func cellsIn(r csvtable.Row, delimiter rune) int {
	n := len(r.Cells)
	blank := func(c rune) bool { return c != delimiter && unicode.IsSpace(c) }
	for text := strings.TrimRightFunc(r.Text, blank); strings.HasSuffix(text, string(delimiter)); n++ {
		text = strings.TrimRightFunc(strings.TrimSuffix(text, string(delimiter)), blank)
	}
	return n
}
