package wkt

import (
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
)

// deepest is how deep collections may be nested; a default of ours.
const deepest = 50

const advice = "export the points as well-known text, such as POINT Z (9.44 20.94 27.93)"

// Sniff tells whether a file is well-known text or binary.
func Sniff(data []byte) bool {
	if isBinary(data) {
		return true
	}
	const enough = 4096
	text, how := textfile.Decode(data[:min(len(data), enough)], "")
	if how == textfile.NotText {
		return false
	}
	text = strings.ToUpper(strings.TrimSpace(text))
	word := text[:len(text)-len(strings.TrimLeft(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))]
	switch {
	case word == "SRID":
		return strings.HasPrefix(strings.TrimSpace(text[len(word):]), "=")
	case word != "":
		return isGeometry(word) && strings.Trim(text[len(word):], " \tZM\n") != ""
	}
	return isHex(text)
}

// keywords are the geometries that are read.
var keywords = []string{
	"POINT", "LINESTRING", "POLYGON", "MULTIPOINT", "MULTILINESTRING", "MULTIPOLYGON", "GEOMETRYCOLLECTION",
}

// isGeometry tells whether a word names a geometry that is read.
func isGeometry(word string) bool {
	return slices.Contains(keywords, strings.TrimRight(strings.ToUpper(word), "ZM"))
}

// isBinary tells whether the bytes begin as a binary geometry of a known type.
func isBinary(data []byte) bool {
	if len(data) < 9 || data[0] > 1 {
		return false
	}
	h, ok := headOf(data)
	return ok && h.kind >= 1 && h.kind <= 7
}

// isHex tells whether a text begins as a binary geometry in hexadecimal.
func isHex(text string) bool {
	word, _, _ := strings.Cut(strings.TrimSpace(text), "\n")
	word = strings.TrimSpace(word)
	head, err := hex.DecodeString(word[:min(len(word), 18)])
	return err == nil && isBinary(head)
}

// Read reads a file of geometries; name is what faults call it. The corner of
// a ring that repeats its first is left out. With a problem among the faults
// there are no points.
func Read(data []byte, name string) (geodata.RawPoints, geodata.Faults) {
	r := reader{file: geodata.Pos{File: name}, fs: &textfile.Faults{}}
	switch {
	case isBinary(data):
		r.binary(data, r.file)
	default:
		r.decoded(data)
	}
	if r.measures > 0 {
		r.fs.Note(r.file, "wkt-measures", textfile.Count(r.measures, "place")+" with a measure (M): it is no height and was not taken")
	}
	if r.empty > 0 {
		r.fs.Note(r.file, "wkt-empty", fmt.Sprintf("empty geometries: %d, not taken", r.empty))
	}
	return r.fs.Finish(r.file, r.out, advice)
}

// reader gathers the points of one file.
type reader struct {
	file            geodata.Pos
	fs              *textfile.Faults
	out             geodata.RawPoints
	system          bool // a coordinate system was named, or left out, before
	measures, empty int
}

// decoded reads a file that is text.
func (r *reader) decoded(data []byte) {
	text, how := textfile.Decode(data, "")
	switch {
	case how == textfile.NotText:
		r.fs.Problem(r.file, "not-wkt", "", "this is neither well-known text nor well-known binary", advice)
	case strings.TrimSpace(text) == "":
		r.fs.Problem(r.file, "empty-file", "", "the file is empty", advice)
	case isHex(text):
		r.hexLines(text)
	default:
		r.text(text)
	}
}

// hexLines reads one binary geometry a line, in hexadecimal.
func (r *reader) hexLines(text string) {
	for i, line := range strings.Split(text, "\n") {
		pos := geodata.Pos{File: r.file.File, Line: i + 1}
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		data, err := hex.DecodeString(line)
		if err != nil {
			r.fs.Problem(pos, "not-hex", line, "the line is not hexadecimal", advice)
			continue
		}
		r.binary(data, pos)
		if len(r.out.Points) > geodata.MostPoints {
			r.fs.TooMany(pos)
			return
		}
	}
}

// inSystem notes the coordinate system of a geometry, 0 when it names none.
// All geometries of a file must have the same one.
func (r *reader) inSystem(code int, pos geodata.Pos) bool {
	if r.system && code != r.out.EPSG {
		r.fs.Problem(pos, "systems-differ", "", fmt.Sprintf("this geometry is in another coordinate system (%s) than those before it (%s)", systemName(code), systemName(r.out.EPSG)), "export all of them in one system")
		return false
	}
	r.system, r.out.EPSG = true, code
	r.out.Geographic = code == 4326 || code == 4979
	return true
}

func systemName(code int) string {
	if code == 0 {
		return "none named"
	}
	return fmt.Sprintf("EPSG:%d", code)
}
