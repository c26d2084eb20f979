package csvtable

import (
	"strings"

	"crossfall/geodata"
)

// Title is a column's header taken apart: "Height (ft)" is the name "height"
// with the unit "ft".
type Title struct {
	Name string // in lower case, words parted by single blanks
	Unit string // as written, in lower case; empty when none is named
	Cell Cell
}

// TitleOf takes a header cell apart. The unit stands in brackets or behind the
// last blank or underscore, or as in "height in feet".
func TitleOf(c Cell) Title {
	text := strings.ToLower(strings.TrimSpace(c.Text))
	t := Title{Cell: c}
	if open := strings.IndexAny(text, "(["); open >= 0 && strings.ContainsAny(text[open:], ")]") {
		end := open + strings.IndexAny(text[open:], ")]")
		t.Unit = strings.TrimSpace(text[open+1 : end])
		text = text[:open] + " " + text[end+1:]
		t.Name = words(text)
		return t
	}
	t.Name = words(text)
	if i := strings.LastIndexByte(t.Name, ' '); i > 0 && isUnit(t.Name[i+1:]) {
		t.Name, t.Unit = strings.TrimSuffix(t.Name[:i], " in"), t.Name[i+1:]
	}
	return t
}

// isUnit tells whether the last word of a header is a unit.
func isUnit(word string) bool {
	_, length := geodata.UnitNamed(word)
	return length || word == "deg" || word == "degrees"
}

// words parts a header's words by single blanks.
func words(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return r == ' ' || r == '_' || r == '-' || r == '.' || r == '\u00a0' || r == ':' || r == '\t'
	}), " ")
}

// Titles takes every header cell apart; nil when there is no header.
func (t *Table) Titles() []Title {
	if t.Header == nil {
		return nil
	}
	titles := make([]Title, len(t.Header.Cells))
	for i, c := range t.Header.Cells {
		titles[i] = TitleOf(c)
	}
	return titles
}
