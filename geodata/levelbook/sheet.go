package levelbook

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// Figure is a cell that may be empty.
type Figure struct {
	Value float64 // metres; of an angle, radians
	Given bool
	Col   int // in the file; 0 when it was not read from one
}

// column is one thing that a table may hold.
type column struct {
	key      string
	names    []string // further headers, plain words
	required bool
}

// sheet is a table whose columns have been found by their headers.
type sheet struct {
	table *csvtable.Table
	place map[string]int
	unit  map[string]geodata.Unit // only of columns that name one
	bare  geodata.Unit
}

// openSheet reads a table and finds its columns. It is nil when the table
// cannot be used.
func openSheet(r io.Reader, file string, columns []column, bare geodata.Unit) (*sheet, geodata.Faults) {
	if bare == 0 {
		bare = geodata.Metre
	}
	data, err := io.ReadAll(io.LimitReader(r, geodata.MostFileBytes+1))
	switch {
	case err != nil:
		return nil, geodata.Faults{{Code: "cannot-read", Pos: geodata.Pos{File: file}, Message: "the file cannot be read: " + err.Error()}}
	case len(data) > geodata.MostFileBytes:
		return nil, geodata.Faults{{
			Code: "file-too-large", Pos: geodata.Pos{File: file},
			Message: fmt.Sprintf("the file is larger than %d MiB, too large for a book kept by hand", geodata.MostFileBytes>>20), Want: "give the part that is needed",
		}}
	}
	table, faults := csvtable.Read(file, data)
	if table == nil {
		return nil, faults
	}
	if len(table.Rows) > geodata.MostBookRows {
		over := table.Rows[geodata.MostBookRows]
		return nil, geodata.Faults{{
			Code: "too-many-rows", Pos: geodata.Pos{File: file, Line: over.Line}, Read: over.Text,
			Message: fmt.Sprintf("the book has %d rows, over %d", len(table.Rows), geodata.MostBookRows), Want: "give the part that is needed",
		}}
	}
	faults = append(faults, table.Notes...)
	s := &sheet{table: table, place: map[string]int{}, unit: map[string]geodata.Unit{}, bare: bare}
	before := faults.Problems()
	s.bind(columns, &faults)
	if faults.Problems() > before {
		return nil, faults
	}
	return s, faults
}

// bind finds each column by its header.
func (s *sheet) bind(columns []column, faults *geodata.Faults) {
	if s.table.Header == nil {
		faults.Add(geodata.Fault{
			Code: "no-header", Pos: geodata.Pos{File: s.table.File, Line: 1},
			Message: "the first row is not a header", Want: "write the names of the columns first: " + keys(columns, false),
		})
		return
	}
	for i, title := range s.table.Titles() {
		s.bindTitle(i, title, columns, faults)
	}
	for _, c := range columns {
		if _, found := s.place[c.key]; !found && c.required {
			faults.Add(geodata.Fault{
				Code: "column-missing", Pos: geodata.Pos{File: s.table.File, Line: s.table.Header.Line},
				Message: fmt.Sprintf("there is no column %q", c.key), Want: "the columns are " + keys(columns, false),
			})
		}
	}
}

func (s *sheet) bindTitle(i int, title csvtable.Title, columns []column, faults *geodata.Faults) {
	if title.Name == "" && title.Unit == "" {
		return
	}
	at := s.table.Pos(*s.table.Header, title.Cell)
	c := slices.IndexFunc(columns, func(c column) bool {
		return c.key == title.Name || slices.Contains(c.names, title.Name)
	})
	if c < 0 {
		faults.Add(geodata.Fault{
			Code: "column-not-used", Severity: geodata.Note, Pos: at, Read: title.Cell.Text,
			Message: "this column is not used", Want: "the columns are " + keys(columns, true),
		})
		return
	}
	key := columns[c].key
	if _, twice := s.place[key]; twice {
		faults.Add(geodata.Fault{
			Code: "column-twice", Pos: at, Read: title.Cell.Text,
			Message: fmt.Sprintf("a second column for %q", key), Want: "keep one of them",
		})
		return
	}
	s.place[key] = i
	if title.Unit == "" {
		return
	}
	unit, known := geodata.UnitNamed(title.Unit)
	if !known && title.Unit != "deg" && title.Unit != "degrees" && title.Unit != "°" {
		faults.Add(geodata.Fault{
			Code: "unit-unknown", Pos: at, Read: title.Cell.Text,
			Message: fmt.Sprintf("the unit %q is not known", title.Unit), Want: "write m, cm, mm, ft or in",
		})
		return
	}
	if known {
		s.unit[key] = unit
	}
}

// keys lists the names of columns.
func keys(columns []column, all bool) string {
	var names []string
	for _, c := range columns {
		if all || c.required {
			names = append(names, c.key)
		}
	}
	return strings.Join(names, ", ")
}

// cell gives the cell of a row in a column; an empty one when there is none.
func (s *sheet) cell(r csvtable.Row, key string) csvtable.Cell {
	i, found := s.place[key]
	if !found {
		return csvtable.Cell{}
	}
	return r.Cell(i)
}

func (s *sheet) text(r csvtable.Row, key string) string { return s.cell(r, key).Text }

// fault is a fault at one cell of a row; Col 0 when the cell is not there.
func (s *sheet) fault(r csvtable.Row, key, code, message, want string) geodata.Fault {
	c := s.cell(r, key)
	return geodata.Fault{Code: code, Pos: s.table.Pos(r, c), Read: c.Text, Message: message, Want: want}
}

// length reads a length; an empty cell is not given. A bare number is in the
// unit of the column's header, else in the unit of the sheet.
func (s *sheet) length(r csvtable.Row, key string, faults *geodata.Faults) Figure {
	c := s.cell(r, key)
	if emptyCell(c.Text) {
		return Figure{}
	}
	unit, named := s.unit[key]
	if !named {
		unit = s.bare
	}
	metres, note, err := s.table.Length(c, unit)
	if err != nil {
		s.badNumber(r, key, err, faults)
		return Figure{}
	}
	if note != "" {
		f := s.fault(r, key, "inches-over-a-foot", note, "")
		f.Severity = geodata.Note
		faults.Add(f)
	}
	return Figure{metres, true, c.Col}
}

// number reads a plain number.
func (s *sheet) number(r csvtable.Row, key string, faults *geodata.Faults) Figure {
	c := s.cell(r, key)
	if emptyCell(c.Text) {
		return Figure{}
	}
	v, err := s.table.Number(c)
	if err != nil {
		s.badNumber(r, key, err, faults)
		return Figure{}
	}
	return Figure{v, true, c.Col}
}

// badNumber tells why a cell is no number.
func (s *sheet) badNumber(r csvtable.Row, key string, err error, faults *geodata.Faults) {
	problem, want := "is not a number", ""
	if e, ok := err.(*csvtable.NumberError); ok {
		problem, want = e.Problem, e.Want
	}
	faults.Add(s.fault(r, key, "not-a-number", fmt.Sprintf("%q %s", key, problem), want))
}

// emptyCell tells whether a cell holds nothing, or only the dash that bookers
// put for nothing.
func emptyCell(text string) bool {
	return text == "" || text == "-" || text == "\u2013" || text == "\u2014"
}

// tooMany tells of a row that goes on behind the last column.
func (s *sheet) tooMany(r csvtable.Row, faults *geodata.Faults) {
	if n := len(s.table.Header.Cells); len(r.Cells) > n {
		extra := r.Cells[n]
		faults.Add(geodata.Fault{
			Code: "too-many-cells", Pos: s.table.Pos(r, extra), Read: extra.Text,
			Message: "the row has more cells than the header", Want: "put a cell that holds the delimiter into quotes",
		})
	}
}
