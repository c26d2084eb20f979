package heightgrid

import (
	"bytes"
	"context"
	"fmt"
	"math"

	"crossfall/geodata"
)

// textGrid is a text grid: a header of keys and numbers, then the heights row
// by row from the north.
type textGrid struct {
	f     file
	start int64 // of the text, behind a mark of its encoding
	head  textHeader
}

// openTextGrid reads the header of a text grid.
//
// Faults: grid-header for keys that are missing, given twice or not known;
// grid-too-few-heights, grid-too-many-heights, grid-height-not-read for the
// heights, with line and column.
func openTextGrid(f file) (opened, error) {
	g := &textGrid{f: f}
	head, err := f.bytes(0, min(f.size, int64(len(utf8BOM))), "head")
	if err != nil {
		return opened{}, err
	}
	if bytes.Equal(head, utf8BOM) {
		g.start = int64(len(utf8BOM))
	}
	w := newWords(f.from(g.start))
	if _, err := g.head.read(w); err != nil {
		return opened{}, err
	}
	l, err := g.head.lattice()
	if err != nil {
		return opened{}, err
	}
	o := opened{format: "text grid", place: l, noData: g.head.noData, cells: g.read}
	if looksLikeDegrees(l) {
		o.ref.Geographic, o.ref.Guessed = true, true
	}
	return o, g.roomFor(l)
}

// looksLikeDegrees judges by the size of the numbers: cells under a tenth of a
// unit and no coordinate that longitude and latitude do not reach. Default of
// ours.
func looksLikeDegrees(l lattice) bool {
	b := l.bound()
	return l.dx < 0.1 && l.dy < 0.1 && b.Min[0] >= -180 && b.Max[0] <= 180 && b.Min[1] >= -90 && b.Max[1] <= 90
}

// roomFor refuses a header that claims more heights than the file can hold
// when each takes one character and a blank.
func (g *textGrid) roomFor(l lattice) error {
	most := (g.f.size + 1) / 2
	if int64(l.cols) <= most/int64(l.rows) {
		return nil
	}
	return geodata.Fault{
		Code: "grid-too-few-heights", Severity: geodata.Problem, Pos: geodata.Pos{Line: g.head.line["nrows"]},
		Message: fmt.Sprintf("the header claims %d columns and %d rows, but the file is too short for that many heights", l.cols, l.rows),
		Want:    "download or copy the file again",
	}
}

// read reads the whole text, for only then is it known that every height is
// there, and keeps those of the window.
func (g *textGrid) read(ctx context.Context, win window, z []float64, t *tidier) (geodata.Faults, error) {
	words := newWords(g.f.from(g.start))
	var head textHeader
	first, err := head.read(words)
	if err != nil {
		return nil, err
	}
	r := textRows{words: words, word: first, noData: head.noData}
	for row := g.head.rows - 1; row >= 0; row-- {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		var out []float64
		if at := row - win.row; at >= 0 && at < win.rows {
			out = z[at*win.cols : (at+1)*win.cols]
		}
		if !r.row(g.head.cols, win.col, out) {
			break
		}
		t.cells(out)
	}
	return r.end(g.head.cols, g.head.rows)
}

// textRows reads heights one by one.
type textRows struct {
	words  *words
	word   []byte // the next one; nil at the end
	noData float64
	read   int64
	commas int64
	faults geodata.Faults
}

// row reads the heights of a row and keeps those from a column on. It is false
// when the text ends or has too many faults.
func (r *textRows) row(cols, from int, out []float64) bool {
	for col := range cols {
		if r.word == nil || len(r.faults) >= mostFaults {
			return false
		}
		v, comma, ok := decimal(r.word)
		switch {
		case !ok && isNothing(r.word) || ok && v == r.noData:
			v = math.NaN()
		case !ok:
			r.faults.Add(geodata.Fault{
				Code: "grid-height-not-read", Severity: geodata.Problem, Pos: r.words.pos(r.word), Read: clip(r.word),
				Message: "a height is not a number", Want: "write a number, such as 52.76, or the mark for missing heights",
			})
		case comma:
			r.commas++
		}
		if at := col - from; at >= 0 && at < len(out) {
			out[at] = v
		}
		r.read++
		r.word = r.words.next()
	}
	return true
}

// end looks whether the text ended where it should.
func (r *textRows) end(cols, rows int) (geodata.Faults, error) {
	if err := r.words.failed(); err != nil {
		return nil, err
	}
	want := int64(cols) * int64(rows)
	claim := fmt.Sprintf("the header claims %d columns and %d rows, that is %d heights", cols, rows, want)
	switch {
	case len(r.faults) >= mostFaults:
	case r.read < want:
		r.faults.Add(geodata.Fault{
			Code: "grid-too-few-heights", Severity: geodata.Problem, Pos: r.words.pos(nil),
			Message: fmt.Sprintf("%s, but the file ends after %d", claim, r.read), Want: "download or copy the file again",
		})
	case r.word != nil:
		r.faults.Add(geodata.Fault{
			Code: "grid-too-many-heights", Severity: geodata.Problem, Pos: r.words.pos(r.word), Read: clip(r.word),
			Message: claim + ", but the file goes on", Want: "check ncols and nrows",
		})
	}
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	if r.commas == 0 {
		return nil, nil
	}
	return geodata.Faults{{
		Code: "grid-decimal-commas", Severity: geodata.Note,
		Message: fmt.Sprintf("%d heights have a comma, which was read as the decimal sign", r.commas),
	}}, nil
}
