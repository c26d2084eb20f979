package heightgrid

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"crossfall/geodata"
)

// textHeader is the header of a text grid.
type textHeader struct {
	cols, rows int
	noData     float64 // NaN when not given
	value      map[string]float64
	line       map[string]int
}

// headerKey gives the one spelling of a key; empty when the word is none.
func headerKey(word string) string {
	switch strings.ToLower(word) {
	case "ncols", "nrows", "xllcorner", "yllcorner", "xllcenter", "yllcenter", "cellsize", "dx", "dy":
		return strings.ToLower(word)
	case "xllcentre":
		return "xllcenter"
	case "yllcentre":
		return "yllcenter"
	case "nodata_value", "nodata":
		return "nodata_value"
	}
	return ""
}

// isTextGrid knows a text grid by its first word.
func isTextGrid(head []byte) bool { return isText(head) && headerKey(firstWord(head)) != "" }

// read reads the keys, in any order and any case, up to the first word that
// stands where a key would and is a height. It gives that word.
func (h *textHeader) read(w *words) (first []byte, err error) {
	h.value, h.line, h.noData = map[string]float64{}, map[string]int{}, math.NaN()
	var faults geodata.Faults
	fault := func(word []byte, message, want string) {
		faults.Add(geodata.Fault{Code: "grid-header", Severity: geodata.Problem, Pos: w.pos(word), Read: clip(word), Message: message, Want: want})
	}
	word := w.next()
	for ; word != nil && len(faults) < mostFaults; word = w.next() {
		if _, _, number := decimal(word); number || isNothing(word) && headerKey(string(word)) == "" {
			break
		}
		key := headerKey(string(word))
		if key == "" {
			fault(word, "this is neither a line of the header nor a height", asTextGrid)
			break
		}
		if h.line[key] != 0 {
			fault(word, "the header gives "+key+" twice", "keep one of the lines")
		}
		h.line[key] = w.line
		v, err := h.number(key, w.next())
		if err != "" {
			fault(nil, err, "write a number behind "+key)
		}
		h.value[key] = v
	}
	if err := w.failed(); err != nil {
		return nil, err
	}
	if v, ok := h.value["nodata_value"]; ok {
		h.noData = v
	}
	faults = append(faults, h.missing()...)
	return bytes.Clone(word), faults.Err()
}

// number reads the number behind a key.
func (h *textHeader) number(key string, word []byte) (v float64, problem string) {
	v, _, ok := decimal(word)
	if !ok && key == "nodata_value" && isNothing(word) {
		return math.NaN(), ""
	}
	if !ok {
		return 0, fmt.Sprintf("%q behind %s is not a number", clip(word), key)
	}
	return v, ""
}

// missing lists what the header lacks.
func (h *textHeader) missing() geodata.Faults {
	var fs geodata.Faults
	has := func(keys ...string) bool {
		for _, k := range keys {
			if h.line[k] == 0 {
				return false
			}
		}
		return true
	}
	need := func(ok bool, key string) {
		if !ok {
			fs.Add(geodata.Fault{Code: "grid-header", Severity: geodata.Problem, Pos: geodata.Pos{Line: 1}, Message: "the header has no line " + key, Want: "write it, or save the grid again"})
		}
	}
	need(has("ncols"), "ncols")
	need(has("nrows"), "nrows")
	need(has("xllcorner") || has("xllcenter"), "xllcorner")
	need(has("yllcorner") || has("yllcenter"), "yllcorner")
	need(has("cellsize") || has("dx", "dy"), "cellsize")
	return fs
}

// lattice makes a place of the header. A corner lies half a cell before the
// centre of the first cell.
func (h *textHeader) lattice() (lattice, error) {
	var faults geodata.Faults
	fault := func(key, message string) {
		faults.Add(geodata.Fault{Code: "grid-header", Severity: geodata.Problem, Pos: geodata.Pos{Line: h.line[key]}, Read: fmt.Sprint(h.value[key]), Message: message})
	}
	count := func(key string) int {
		v := h.value[key]
		if v < 1 || v > mostWidth || v != math.Trunc(v) {
			fault(key, key+" is not a whole number over 0")
			return 0
		}
		return int(v)
	}
	h.cols, h.rows = count("ncols"), count("nrows")
	l := lattice{cols: h.cols, rows: h.rows, dx: h.value["cellsize"], dy: h.value["cellsize"]}
	size := "cellsize"
	if h.line["dx"] != 0 && h.line["dy"] != 0 {
		l.dx, l.dy, size = h.value["dx"], h.value["dy"], "dx"
	}
	l.origin = orb.Point{h.first("xllcorner", "xllcenter", l.dx), h.first("yllcorner", "yllcenter", l.dy)}
	switch {
	case !(l.dx > 0 && l.dy > 0):
		fault(size, "the size of a cell is not over 0")
	case len(faults) == 0 && !l.ok():
		fault(size, "the corner is so far off that its cells cannot be told from each other")
	}
	return l, faults.Err()
}

// first is the centre of the first cell along one axis.
func (h *textHeader) first(corner, centre string, size float64) float64 {
	if h.line[centre] != 0 {
		return h.value[centre]
	}
	return h.value[corner] + size/2
}
