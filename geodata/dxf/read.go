package dxf

import (
	"bytes"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
)

// Options says how to read. The zero value works on a drawing that names its
// unit.
type Options struct {
	// Unit is the unit of the drawing. Default: the one that the drawing names;
	// a drawing that names none is refused.
	Unit geodata.Unit
	// Layers are the layers to take. Default: all.
	Layers []string
}

const (
	binaryMark = "AutoCAD Binary DXF"
	advice     = "save the drawing as DXF in ASCII, also called text"
)

// Sniff tells whether a file is a drawing: ASCII DXF, or one of the kinds that
// Read refuses by name.
func Sniff(data []byte) bool {
	head := data[:min(len(data), 8192)]
	return bytes.HasPrefix(head, []byte(binaryMark)) || isDWG(head) || asciiDXF(head)
}

// isDWG tells whether a file begins as DWG: AC and the four digits of a
// release.
func isDWG(head []byte) bool {
	return len(head) >= 6 && head[0] == 'A' && head[1] == 'C' && strings.Trim(string(head[2:6]), "0123456789.") == ""
}

// asciiDXF tells whether, after comments, the first pair opens a section.
func asciiDXF(head []byte) bool {
	text, how := textfile.Decode(head, "")
	if how == textfile.NotText {
		return false
	}
	lines := strings.Split(text, "\n")
	for i := 0; i+1 < len(lines); i += 2 {
		switch strings.TrimSpace(lines[i]) {
		case "999":
		case "0":
			return strings.TrimSpace(lines[i+1]) == "SECTION"
		default:
			return false
		}
	}
	return false
}

// Read reads a drawing; name is what faults call it. Places and heights come
// out in metres. A place that is drawn several times with one height comes
// out once. With a problem among the faults there are no points.
func Read(data []byte, name string, opt Options) (geodata.RawPoints, geodata.Faults) {
	var fs textfile.Faults
	file := geodata.Pos{File: name}
	text, ok := open(data, file, &fs)
	if !ok {
		return fs.Finish(file, geodata.RawPoints{}, "")
	}
	r := reader{pairs: pairs{text: text, file: name, fs: &fs}, opt: opt, seen: map[place]bool{}}
	r.all()
	points := geodata.RawPoints{}
	if fs.Problems() == 0 {
		r.tell()
		r.judgeLayers()
		points.Points = r.inMetres()
	}
	return fs.Finish(file, points, "draw each spot as a point at its height")
}

// open decodes the file, or refuses it by name.
func open(data []byte, file geodata.Pos, fs *textfile.Faults) (string, bool) {
	switch {
	case bytes.HasPrefix(data, []byte(binaryMark)):
		fs.Problem(file, "dxf-binary", binaryMark, "this is a DXF in its binary form, which is not read", advice)
		return "", false
	case isDWG(data[:min(len(data), 6)]):
		fs.Problem(file, "dwg", string(data[:6]), "this is a DWG drawing, which is not read", advice)
		return "", false
	}
	text, how := textfile.Decode(data, pageOf(data))
	switch {
	case how == textfile.NotText:
		fs.Problem(file, "not-text", "", "this is not a text file", advice)
		return "", false
	case how == textfile.NameUnknown: // the page touches names only
		text, _ = textfile.Decode(data, "")
		fs.Note(file, "encoding-assumed", "the drawing names a code page that is not known: letters beyond A to Z may look wrong")
	case strings.TrimSpace(text) == "":
		fs.Problem(file, "empty-file", "", "the file is empty", advice)
		return "", false
	case how == textfile.Assumed:
		fs.Note(file, "encoding-assumed", "the drawing is not in UTF-8: it was read as Windows-1252")
	}
	return text, true
}

// pageOf is the value of $DWGCODEPAGE near the start of the file; empty when
// it is not there.
func pageOf(data []byte) string {
	lines := strings.Split(string(data[:min(len(data), 8192)]), "\n")
	i := slices.IndexFunc(lines, func(l string) bool { return strings.TrimSpace(l) == "$DWGCODEPAGE" })
	if i < 0 || i+2 >= len(lines) {
		return ""
	}
	return strings.TrimSpace(lines[i+2])
}
