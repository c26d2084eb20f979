package plotfolder

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// The range of precisions of a reading that are believed, m. A default of ours.
const leastSigma, mostSigma = 0.0001, 1.0

// sniffTable tells whether the bytes can be a table: any text but JSON or XML.
func sniffTable(data []byte) bool {
	t := bytes.TrimSpace(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")))
	return len(t) == 0 || t[0] != '{' && t[0] != '<'
}

// bareUnit is the unit of numbers whose header names none.
func bareUnit(site geodata.Site) geodata.Unit {
	if site.Units == string(geodata.FeetAndInch) {
		return geodata.Foot
	}
	return geodata.Metre
}

// heightTable reads the rows of one table of heights.
type heightTable struct {
	*csvtable.Table
	cols       columns
	c          *collector
	levels     *stations // nil without a level book
	sideByNote int       // rows whose note begins with top or toe
}

// readHeightsCSV reads heights.csv.
func readHeightsCSV(f *file, s settings, c *collector) survey {
	out := survey{file: f.name}
	t, faults := csvtable.Read(f.name, f.data)
	if t == nil {
		c.addAll(faults)
		return out
	}
	c.addAll(t.Notes)
	bare, ok := bareUnit(s.site), false
	h := heightTable{Table: t, c: c, levels: s.levels}
	if t.Header == nil {
		h.cols, ok = headerless(t, s, bare, c)
	} else {
		h.cols, ok = columnsOf(t, []role{nameCol, xCol, yCol, zCol, noteCol, sigmaCol, sideCol}, bare, c)
		needed := []role{xCol, yCol, zCol}
		if s.levels != nil { // heights may come from the book
			needed = []role{nameCol, xCol, yCol}
		}
		ok = h.cols.need(t, "write the header name,x,y,z", needed, c) && ok
	}
	if !ok {
		return out
	}
	out.lonLat = h.cols.lonLat
	if n := len(t.Rows); n > geodata.MostHeights {
		over := t.Rows[geodata.MostHeights]
		tooManyHeights(geodata.Pos{File: t.File, Line: over.Line}, over.Text, n, c)
		return out
	}
	for _, r := range t.Rows {
		if spot, ok := h.row(r); ok {
			out.spots = append(out.spots, spot)
		}
	}
	h.notes(bare)
	return out
}

// row reads one height. All faults of the row are told, not only the first.
func (h *heightTable) row(r csvtable.Row) (spot geodata.SpotHeight, ok bool) {
	if !h.whole(r) {
		return spot, false
	}
	spot = geodata.SpotHeight{Readings: 1, Source: geodata.Pos{File: h.File, Line: r.Line}}
	x, okX := h.place(r, xCol)
	y, okY := h.place(r, yCol)
	booked := h.booked(r)
	z, okZ := 0.0, true
	if !booked {
		z, okZ = h.number(r, zCol)
	}
	okSigma := h.sigma(r, &spot)
	okSide := h.side(r, &spot)
	if !(okX && okY && okZ && okSigma && okSide) {
		return spot, false
	}
	if h.cols.lonLat && !checkLonLat(x, y, h.Pos(r, r.Cell(h.cols.of[xCol].at)), r.Text,
		"write degrees; for metres name the columns x and y", h.c) {
		return spot, false
	}
	if booked {
		spot.At[0], spot.At[1], spot.Name = x, y, h.text(r, nameCol)
		return spot, h.levels.fill(&spot, geodata.Pos{File: h.File, Line: r.Line}, h.c)
	}
	cell := r.Cell(h.cols.of[zCol].at)
	if !checkHeight(z, h.Pos(r, cell), cell.Text, h.c) {
		return spot, false
	}
	spot.At[0], spot.At[1], spot.Height = x, y, z
	if spot.Name = h.text(r, nameCol); spot.Name == "" {
		spot.Name = fmt.Sprintf("row %d", r.Line)
	}
	return spot, true
}

// whole tells whether the row has the cells that it must have, and no more
// than the header.
func (h *heightTable) whole(r csvtable.Row) bool {
	needed := []role{xCol, yCol, zCol}
	if h.booked(r) {
		needed = needed[:2]
	}
	return wholeRow(h.Table, r, h.cols, needed, h.c)
}

// booked tells whether the row leaves its height to the level book.
func (h *heightTable) booked(r csvtable.Row) bool {
	at := h.cols.of[zCol].at
	return h.levels != nil && (at < 0 || r.Cell(at).Text == "")
}

func wholeRow(t *csvtable.Table, r csvtable.Row, cols columns, needed []role, c *collector) bool {
	pos := geodata.Pos{File: t.File, Line: r.Line}
	if len(r.Cells) > cols.count {
		pos.Col = r.Cells[cols.count].Col
		c.problem(pos, "long-row", r.Text, fmt.Sprintf("the row has %d cells and the table has %d columns", len(r.Cells), cols.count),
			"take out the delimiter ("+t.DelimiterName()+") that is too many, or put a text that holds one into quotes")
		return false
	}
	for _, n := range needed {
		if cols.of[n].at >= len(r.Cells) {
			c.problem(pos, "short-row", r.Text, fmt.Sprintf("the row ends before its %s", cols.of[n].title),
				fmt.Sprintf("write all %d cells, or leave the row out", cols.count))
			return false
		}
	}
	return true
}

// place reads a coordinate: metres, or degrees.
func (h *heightTable) place(r csvtable.Row, what role) (float64, bool) {
	if h.cols.lonLat {
		return degreesCell(h.Table, r, h.cols.of[what], h.c)
	}
	return h.number(r, what)
}

func (h *heightTable) number(r csvtable.Row, what role) (float64, bool) {
	return lengthCell(h.Table, r, h.cols.of[what], h.c)
}

// degreesCell reads degrees, with or without their sign.
func degreesCell(t *csvtable.Table, r csvtable.Row, col column, c *collector) (float64, bool) {
	cell := r.Cell(col.at)
	bare := cell
	bare.Text = strings.TrimSpace(strings.TrimSuffix(cell.Text, "°"))
	v, err := t.Number(bare)
	if err != nil {
		numberProblem(t, r, cell, col.title, err, c)
		return 0, false
	}
	return v, true
}

// lengthCell reads a length in metres.
func lengthCell(t *csvtable.Table, r csvtable.Row, col column, c *collector) (float64, bool) {
	cell := r.Cell(col.at)
	v, note, err := t.Length(cell, col.unit)
	if err != nil {
		numberProblem(t, r, cell, col.title, err, c)
		return 0, false
	}
	if note != "" {
		c.add(geodata.Fault{Code: "many-inches", Severity: geodata.Note, Pos: t.Pos(r, cell), Read: cell.Text, Message: note})
	}
	return v, true
}

func numberProblem(t *csvtable.Table, r csvtable.Row, cell csvtable.Cell, title string, err error, c *collector) {
	problem, want := err.Error(), ""
	var e *csvtable.NumberError
	if errors.As(err, &e) {
		problem, want = e.Problem, e.Want
	}
	code := "not-a-number"
	if cell.Text == "" {
		code = "number-missing"
	}
	c.problem(t.Pos(r, cell), code, cell.Text, title+" "+problem, want)
}

// sigma reads the precision, if the row has one.
func (h *heightTable) sigma(r csvtable.Row, spot *geodata.SpotHeight) bool {
	col := h.cols.of[sigmaCol]
	cell := r.Cell(col.at)
	if cell.Text == "" {
		return true
	}
	v, ok := lengthCell(h.Table, r, col, h.c)
	if !ok {
		return false
	}
	if v < leastSigma || v > mostSigma {
		h.c.problem(h.Pos(r, cell), "precision-out-of-range", cell.Text, "this is no precision of a reading",
			"write one standard deviation from 0.1 mm to 1 m, with its unit in the header, such as precision (mm)")
		return false
	}
	spot.Sigma = v
	return true
}

// side reads top or toe from its column, else from the note.
func (h *heightTable) side(r csvtable.Row, spot *geodata.SpotHeight) bool {
	spot.Note = h.text(r, noteCol)
	cell := r.Cell(h.cols.of[sideCol].at)
	switch {
	case cell.Text != "":
		spot.Side = sideOf(cell.Text)
		if spot.Side == geodata.NoSide || !strings.EqualFold(cell.Text, cell.Text[:3]) {
			h.c.problem(h.Pos(r, cell), "side-unknown", cell.Text, "this is no side of a break line", "write top or toe, or leave the cell empty")
			return false
		}
	default:
		if spot.Side = sideOf(spot.Note); spot.Side != geodata.NoSide {
			h.sideByNote++
		}
	}
	return true
}

func (h *heightTable) text(r csvtable.Row, what role) string { return r.Cell(h.cols.of[what].at).Text }

// notes says what was taken for granted about the columns.
func (h *heightTable) notes(bare geodata.Unit) {
	at := geodata.Pos{File: h.File}
	if len(h.cols.other) > 0 {
		var names []string
		for _, o := range h.cols.other {
			names = append(names, o.Cell.Text)
		}
		h.c.note(at, "columns-not-read", "columns that were not read: "+strings.Join(names, ", "))
	}
	noteUnits(at, h.cols, bare, h.c)
	if h.sideByNote > 0 {
		h.c.note(at, "side-from-note", fmt.Sprintf("heights taken as top or toe of a break line because their note begins so: %d", h.sideByNote))
	}
}

// noteUnits says which unit was taken for columns that name none.
func noteUnits(at geodata.Pos, cols columns, bare geodata.Unit, c *collector) {
	var unnamed []string
	for _, r := range []role{xCol, yCol, zCol, sigmaCol} {
		if col := cols.of[r]; col.at >= 0 && !col.named && (r == zCol || r == sigmaCol || !cols.lonLat) {
			unnamed = append(unnamed, col.title)
		}
	}
	if len(unnamed) == 0 {
		return
	}
	word := "metres"
	if bare == geodata.Foot {
		word = "feet, as site.toml says"
	}
	c.note(at, "unit-assumed", strings.Join(unnamed, ", ")+": taken as "+word)
}
