package plotfolder

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// role is what a column of a table holds.
type role int

const (
	nameCol role = iota
	xCol
	yCol
	zCol
	noteCol
	sigmaCol
	sideCol
	kindCol
	roles // how many there are
)

// synonyms are the headers by which a column is known.
var synonyms = [roles][]string{
	nameCol:  {"name", "id", "point", "pt", "no", "nr", "point name", "point id"},
	xCol:     {"x", "easting", "e", "east", "lon", "long", "longitude", "lng"},
	yCol:     {"y", "northing", "n", "north", "lat", "latitude"},
	zCol:     {"z", "h", "ht", "height", "elev", "elevation", "ele", "level", "rl", "reduced level", "alt", "altitude"},
	noteCol:  {"note", "notes", "description", "desc", "remark", "remarks", "comment"},
	sigmaCol: {"precision", "sigma", "sd", "standard deviation"},
	sideCol:  {"side", "edge"},
	kindCol:  {"kind"},
}

var (
	lonNames = []string{"lon", "long", "longitude", "lng"}
	latNames = []string{"lat", "latitude"}
)

// column is where something stands in a table and in what unit.
type column struct {
	at    int // -1: there is none
	title string
	unit  geodata.Unit // of bare numbers
	named bool         // the header names the unit
}

// columns are the columns of one table.
type columns struct {
	of     [roles]column
	lonLat bool
	other  []csvtable.Title // columns with another header
	count  int              // of the header
}

func noColumns() columns {
	var c columns
	for r := range c.of {
		c.of[r].at = -1
	}
	return c
}

// columnsOf finds the columns by their headers; bare is the unit of those that
// name none. Which roles the table may have is for the caller to say; other
// headers are kept in other.
func columnsOf(t *csvtable.Table, allowed []role, bare geodata.Unit, c *collector) (columns, bool) {
	cols, ok := noColumns(), true
	titles := t.Titles()
	cols.count = len(titles)
	for i, title := range titles {
		r, known := roleOf(title.Name, allowed)
		switch {
		case !known:
			cols.other = append(cols.other, title)
			continue
		case cols.of[r].at >= 0:
			c.problem(t.Pos(*t.Header, title.Cell), "column-twice", title.Cell.Text,
				fmt.Sprintf("this column means the same as %q", cols.of[r].title), "keep one of the two")
			ok = false
			continue
		}
		cols.of[r] = column{at: i, title: title.Cell.Text, unit: bare}
		if title.Unit == "" || r != xCol && r != yCol && r != zCol && r != sigmaCol {
			continue
		}
		ok = cols.takeUnit(t, r, title, c) && ok
	}
	return cols, cols.settleLonLat(t, titles, c) && ok
}

func roleOf(name string, allowed []role) (role, bool) {
	for _, r := range allowed {
		if slices.Contains(synonyms[r], name) {
			return r, true
		}
	}
	return 0, false
}

// takeUnit takes the unit that a header names.
func (cols *columns) takeUnit(t *csvtable.Table, r role, title csvtable.Title, c *collector) bool {
	if isDegree(title.Unit) && (slices.Contains(lonNames, title.Name) || slices.Contains(latNames, title.Name)) {
		return true
	}
	unit, known := geodata.UnitNamed(title.Unit)
	if !known {
		c.problem(t.Pos(*t.Header, title.Cell), "unit-unknown", title.Cell.Text,
			fmt.Sprintf("%q is not a unit of length", title.Unit), "write m, cm, mm, ft or in")
		return false
	}
	cols.of[r].unit, cols.of[r].named = unit, true
	return true
}

func isDegree(unit string) bool { return unit == "deg" || unit == "degrees" || unit == "°" }

// settleLonLat finds out whether places are longitude and latitude.
func (cols *columns) settleLonLat(t *csvtable.Table, titles []csvtable.Title, c *collector) bool {
	x, y := cols.of[xCol].at, cols.of[yCol].at
	if x < 0 || y < 0 {
		return true
	}
	lon, lat := slices.Contains(lonNames, titles[x].Name), slices.Contains(latNames, titles[y].Name)
	if lon != lat {
		c.problem(t.Pos(*t.Header, titles[y].Cell), "mixed-coordinates", titles[y].Cell.Text,
			fmt.Sprintf("%q and %q are not of one kind", titles[x].Cell.Text, titles[y].Cell.Text),
			"write x and y, or longitude and latitude")
		return false
	}
	cols.lonLat = lon
	return true
}

// need tells of columns that are missing.
func (cols *columns) need(t *csvtable.Table, want string, needed []role, c *collector) bool {
	ok := true
	for _, r := range needed {
		if cols.of[r].at >= 0 {
			continue
		}
		ok = false
		advice := want
		for _, o := range cols.other {
			if n := nearest(o.Name, synonyms[r]); n != "" && len(o.Name) > 2 {
				advice = fmt.Sprintf("if %q is meant, write %s", o.Cell.Text, n)
			}
		}
		c.problem(geodata.Pos{File: t.File, Line: t.Header.Line}, "column-missing", t.Header.Text,
			"there is no column "+synonyms[r][0], advice)
	}
	return ok
}

// headerless takes the columns of a file of heights that has no header.
func headerless(t *csvtable.Table, s settings, bare geodata.Unit, c *collector) (columns, bool) {
	cols, first := noColumns(), t.Rows[0]
	n := len(first.Cells)
	cols.count = n
	for _, r := range t.Rows {
		cols.count = max(cols.count, min(len(r.Cells), 5))
	}
	if len(s.opt.Columns) > 0 {
		return namedColumns(t, s.opt.Columns, bare, c)
	}
	order := []role{nameCol, xCol, yCol, zCol, noteCol}
	lastIsText := n > 3 && !isLength(t, first.Cell(n-1))
	switch {
	case n == 3 || n == 4 && lastIsText && isLength(t, first.Cell(0)):
		order = order[1:]
	case n < 3 || n > 5:
		c.problem(geodata.Pos{File: t.File, Line: first.Line}, "no-header", first.Text,
			fmt.Sprintf("there is no header row and the first row has %d columns", n), "write the header name,x,y,z above the first row")
		return cols, false
	}
	var taken []string
	for i, r := range order[:min(len(order), cols.count)] {
		cols.of[r] = column{at: i, title: synonyms[r][0], unit: bare}
		taken = append(taken, synonyms[r][0])
	}
	c.note(geodata.Pos{File: t.File}, "columns-assumed", "there is no header row: the columns were taken as "+strings.Join(taken, ", "))
	return cols, true
}

// HeightColumns are the words that may name the columns of heights, one for each
// kind, as messages name them.
func HeightColumns() []string {
	return []string{"point", "east", "north", "height", "note", "precision", "side"}
}

// namedColumns takes the columns of a file without a header by the names given
// for them. A name of "-" passes a column over.
func namedColumns(t *csvtable.Table, names []string, bare geodata.Unit, c *collector) (columns, bool) {
	header := csvtable.Row{Line: t.Rows[0].Line, Text: strings.Join(names, ",")}
	for _, name := range names {
		header.Cells = append(header.Cells, csvtable.Cell{Text: strings.TrimSpace(name)})
	}
	named := *t
	named.Header = &header
	cols, ok := columnsOf(&named, []role{nameCol, xCol, yCol, zCol, noteCol, sigmaCol, sideCol}, bare, c)
	for _, o := range cols.other {
		if o.Cell.Text != "-" {
			c.problem(geodata.Pos{File: t.File}, "column-unknown", o.Cell.Text, "this names no column of heights", "name the columns by "+strings.Join(HeightColumns(), ", ")+", or - for one to pass over")
			ok = false
		}
	}
	cols.other = nil
	ok = cols.need(&named, "name the columns in their order, such as point,north,east,height", []role{xCol, yCol, zCol}, c) && ok
	if ok {
		c.note(geodata.Pos{File: t.File}, "columns-named", "there is no header row: the columns were taken as "+strings.Join(names, ", ")+", as asked")
	}
	return cols, ok
}

func isLength(t *csvtable.Table, cell csvtable.Cell) bool {
	_, _, err := t.Length(cell, geodata.Metre)
	return err == nil
}

// beginsWithWord tells whether a text begins with a word, in any case.
func beginsWithWord(text, word string) bool {
	if len(text) < len(word) || !strings.EqualFold(text[:len(word)], word) {
		return false
	}
	next, _ := utf8.DecodeRuneInString(text[len(word):])
	return len(text) == len(word) || !unicode.IsLetter(next)
}
