package plotfolder

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
	"crossfall/geodata/levelbook"
)

// NewLevel is one line of a level book as it is keyed in: readings and level in
// metres, nil where there is none.
type NewLevel struct {
	Station           string
	Back, Inter, Fore *float64
	Level             *float64 // the reduced level, where it is known
	Note              string
}

// NewTie is a place that was taped from two marks (levelbook.TapeTie: A from the
// mark From, B from the mark To, Side "left" or "right" of the line from one to
// the other), or along the line from one to the other and off it
// (levelbook.OffsetTie: A the chainage, B the offset, positive to the left).
// Lengths are metres; the tape was held level.
type NewTie struct {
	Point    string
	Method   levelbook.Method
	From, To string
	A, B     float64
	Side     string
	Note     string
}

// levelsHeader and tiesHeader are the columns of a table that is made for a
// reading, with the word for its unit.
const (
	levelsHeader = "station,back (%[1]s),inter (%[1]s),fore (%[1]s),level (%[1]s),distance (%[1]s),back length (%[1]s),fore length (%[1]s),instrument,note"
	tiesHeader   = "point,method,from,to,a (%[1]s),b (%[1]s),side,tape,rise (%[1]s),angle,eye (%[1]s),target (%[1]s),count,order,note"
)

// BookLevel appends one line to levels.csv, exactly once for each id, and makes
// the file where there is none. It keeps to the file's header, its units and its
// delimiter. See BookHeight for again, for what it does after a crash, and for
// the error, which is geodata.Faults too when the line could not be read back.
func BookLevel(dir, id string, site geodata.Site, l NewLevel) (again bool, err error) {
	row := []bookCell{
		{key: "station", text: l.Station}, {key: "back", metres: l.Back}, {key: "inter", metres: l.Inter},
		{key: "fore", metres: l.Fore}, {key: "level", metres: l.Level}, {key: "note", text: l.Note},
	}
	read := func(whole []byte, name string) geodata.Faults {
		_, faults := levelbook.ReadLevels(bytes.NewReader(whole), name, bareUnit(site))
		return faults
	}
	return bookRows(dir, id, site, bookTable{levelsFile, levelsHeader, levelbook.LevelColumns, read}, row)
}

// BookTie appends a tie to ties.csv as BookLevel does to levels.csv: one row for
// an offset, one for each tape of a tie.
func BookTie(dir, id string, site geodata.Site, t NewTie) (again bool, err error) {
	first := []bookCell{{key: "point", text: t.Point}, {key: "method", text: string(t.Method)}, {key: "from", text: t.From}, {key: "a", metres: &t.A}, {key: "side", text: t.Side}, {key: "note", text: t.Note}}
	rows := [][]bookCell{first}
	switch t.Method {
	case levelbook.TapeTie:
		rows = append(rows, []bookCell{{key: "point", text: t.Point}, {key: "method", text: string(t.Method)}, {key: "from", text: t.To}, {key: "a", metres: &t.B}})
	case levelbook.OffsetTie:
		rows[0] = append(first, bookCell{key: "to", text: t.To}, bookCell{key: "b", metres: &t.B})
	default:
		return false, fmt.Errorf("a tie by %q is not booked here: write it into %s", t.Method, tiesFile)
	}
	read := func(whole []byte, name string) geodata.Faults {
		_, faults := levelbook.ReadTies(bytes.NewReader(whole), name, bareUnit(site))
		return faults
	}
	return bookRows(dir, id, site, bookTable{tiesFile, tiesHeader, levelbook.TieColumns, read}, rows...)
}

// bookCell is one cell of a row by the key of its column.
type bookCell struct {
	key    string
	text   string
	metres *float64 // in place of text
}

func (b bookCell) empty() bool { return b.text == "" && b.metres == nil }

// bookTable is a table of the level book or of ties.
type bookTable struct {
	name    string
	header  string
	columns func(*csvtable.Table, geodata.Unit) (map[string]levelbook.Column, geodata.Faults)
	read    func(whole []byte, name string) geodata.Faults
}

func bookRows(dir, id string, site geodata.Site, b bookTable, rows ...[]bookCell) (bool, error) {
	name := tableNamed(dir, b.name)
	return aim{
		dir: dir, id: id, file: name, header: fmt.Sprintf(b.header, unitWord(site)),
		row: func(table []byte) (string, error) { return b.rowsText(table, name, site, rows) },
		check: func(whole []byte, c *collector) {
			first := bytes.Count(whole, []byte("\n")) - len(rows)
			for _, f := range b.read(whole, name) {
				if f.Severity == geodata.Problem && f.Pos.Line > first { // the lines before are for Read to tell of
					c.add(f)
				}
			}
		},
	}.book()
}

// rowsText is the text of some rows under the header of a table.
func (b bookTable) rowsText(table []byte, name string, site geodata.Site, rows [][]bookCell) (string, error) {
	t, faults := csvtable.Read(name, table)
	if t == nil {
		return "", faults
	}
	cols, faults := b.columns(t, bareUnit(site))
	if faults.Problems() > 0 {
		return "", faults
	}
	var out []string
	for _, row := range rows {
		cells := make([]string, len(t.Header.Cells))
		for _, cell := range row {
			col, known := cols[cell.key]
			switch {
			case cell.empty():
			case !known:
				return "", fmt.Errorf("append to %s: there is no column %s, write it into the header: %w", name, cell.key, ErrColumns)
			case cell.metres == nil:
				cells[col.At] = cell.text
			case math.IsNaN(*cell.metres) || math.IsInf(*cell.metres, 0):
				return "", fmt.Errorf("append to %s: %s is not a number", name, cell.key)
			default:
				cells[col.At] = lengthText(*cell.metres, col.Unit, t.Commas == csvtable.CommaDecimal)
			}
		}
		out = append(out, strings.TrimSuffix(rowText(t.Delimiter, cells), "\n"))
	}
	return strings.Join(out, "\n"), nil
}
