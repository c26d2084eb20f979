package csvtable

import (
	"fmt"

	"crossfall/geodata"
)

// Table is a file of rows. Cells behind the last one that holds something are
// cut off every row, as programs often write delimiters there.
type Table struct {
	File      string
	Header    *Row // nil when the first row holds a number
	Rows      []Row
	Delimiter rune // comma, semicolon, tab, pipe or blank
	Commas    CommaMeaning
	Notes     geodata.Faults // what was taken for granted
}

// Read splits a file into a table. The faults are those of the file as a
// whole, such as "empty-file", and of rows that cannot be split; with a Problem
// among them the table is nil.
func Read(file string, data []byte) (*Table, geodata.Faults) {
	text, faults := Text(file, data)
	if faults.Problems() > 0 {
		return nil, faults
	}
	all := lines(text)
	switch {
	case len(all) == 0:
		return nil, empty(file)
	case len(all) > geodata.MostRows:
		return nil, tooManyRows(file, all[geodata.MostRows])
	}
	t := &Table{File: file, Delimiter: delimiterOf(all), Notes: faults}
	var bad geodata.Faults
	for _, l := range all {
		row, open := cells(l.text, t.Delimiter)
		if len(row) > geodata.MostColumns {
			return nil, tooManyCells(file, l, row)
		}
		if open > 0 {
			bad.Add(geodata.Fault{
				Code: "quote-not-closed", Pos: geodata.Pos{File: file, Line: l.number, Col: open},
				Read: l.text, Message: "a quote is opened here and not closed in the same row",
				Want: "close the quote, or leave it out",
			})
			continue
		}
		if r := (Row{l.number, l.text, trimEnd(row)}); len(r.Cells) > 0 {
			t.Rows = append(t.Rows, r)
		}
	}
	if bad.Problems() > 0 {
		return nil, bad
	}
	if len(t.Rows) == 0 { // delimiters only
		return nil, empty(file)
	}
	t.Commas = commaMeaning(t)
	t.splitHeader()
	t.noteCommas()
	return t, nil
}

func empty(file string) geodata.Faults {
	return geodata.Faults{{
		Code: "empty-file", Pos: geodata.Pos{File: file},
		Message: "the file is empty",
		Want:    "write a header row and one row for each reading",
	}}
}

func tooManyRows(file string, l line) geodata.Faults {
	return geodata.Faults{{
		Code: "too-many-rows", Pos: geodata.Pos{File: file, Line: l.number}, Read: l.text,
		Message: fmt.Sprintf("this row is one more than the %d that a table may have", geodata.MostRows),
		Want:    "give the part that is needed",
	}}
}

func tooManyCells(file string, l line, row []Cell) geodata.Faults {
	return geodata.Faults{{
		Code: "too-many-columns", Pos: geodata.Pos{File: file, Line: l.number, Col: row[geodata.MostColumns].Col}, Read: l.text,
		Message: fmt.Sprintf("the row has more than %d cells", geodata.MostColumns),
		Want:    "keep the columns that are needed; is this a table?",
	}}
}

// trimEnd cuts off empty cells at the end.
func trimEnd(row []Cell) []Cell {
	for len(row) > 0 && row[len(row)-1].Text == "" {
		row = row[:len(row)-1]
	}
	return row
}

// splitHeader takes the first row as the header when none of its cells is a
// number.
func (t *Table) splitHeader() {
	if len(t.Rows) == 0 {
		return
	}
	for _, c := range t.Rows[0].Cells {
		if looksNumeric(c.Text) {
			return
		}
	}
	t.Header, t.Rows = &t.Rows[0], t.Rows[1:]
}

// Pos is the place of a cell.
func (t *Table) Pos(r Row, c Cell) geodata.Pos {
	return geodata.Pos{File: t.File, Line: r.Line, Col: c.Col}
}

// noteCommas says how commas in numbers were read.
func (t *Table) noteCommas() {
	if t.Commas != CommaDecimal {
		return
	}
	t.Notes.Add(geodata.Fault{
		Code: "decimal-comma", Severity: geodata.Note, Pos: geodata.Pos{File: t.File},
		Message: "commas in numbers were read as decimal commas",
	})
}

// DelimiterName is the delimiter in words.
func (t *Table) DelimiterName() string {
	switch t.Delimiter {
	case '\t':
		return "tab"
	case ' ':
		return "blank"
	case ';':
		return "semicolon"
	case '|':
		return "upright stroke"
	case ',':
		return "comma"
	}
	return fmt.Sprintf("%q", t.Delimiter)
}
