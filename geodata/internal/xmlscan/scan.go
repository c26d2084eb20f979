package xmlscan

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"sort"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
)

// deepest is the nesting over which a file is refused; the formats read here
// need about twenty.
const deepest = 100

// Element is one element while it is open, and once more when it ends.
type Element struct {
	Name   string // local name
	Pos    geodata.Pos
	Parent *Element // nil for the root
	Text   string   // text between its tags without that of its children; set when the element ends
	attrs  []xml.Attr
	gather []byte // what becomes Text
	pieces []piece
}

// piece says where a part of Text stands in the file.
type piece struct{ inText, inFile int }

// Attr finds an attribute by its local name.
func (e *Element) Attr(name string) (string, bool) {
	for _, a := range e.attrs {
		if a.Name.Local == name && a.Name.Space != "xmlns" {
			return a.Value, true
		}
	}
	return "", false
}

// Word is the text without blanks around it.
func (e *Element) Word() string { return strings.TrimSpace(e.Text) }

// Scanner goes through a file.
type Scanner struct {
	Faults *textfile.Faults
	text   string
	places *textfile.Places
	dec    *xml.Decoder
	open   *Element
	depth  int
	rooted bool // the root element was seen
	ended  bool
}

// New makes a scanner of a file. The bool is false when the file cannot be
// read as text; the faults tell why.
func New(name string, data []byte, fs *textfile.Faults) (*Scanner, bool) {
	file := geodata.Pos{File: name}
	text, how := textfile.Decode(data, declared(data))
	switch {
	case how == textfile.NotText:
		fs.Problem(file, "not-text", "", "this is not a text file", "export it anew as XML in UTF-8")
		return nil, false
	case how == textfile.NameUnknown:
		fs.Problem(file, "encoding-unknown", declared(data), "the file names an encoding that is not read", "export it anew in UTF-8")
		return nil, false
	case strings.TrimSpace(text) == "":
		fs.Problem(file, "empty-file", "", "the file is empty", "export it anew")
		return nil, false
	case how == textfile.Assumed:
		fs.Note(file, "encoding-assumed", "the file is not in UTF-8: it was read as Windows-1252")
	}
	s := &Scanner{Faults: fs, text: text, places: textfile.NewPlaces(name, text)}
	s.dec = xml.NewDecoder(strings.NewReader(text))
	s.dec.Entity = xml.HTMLEntity
	s.dec.CharsetReader = func(_ string, in io.Reader) (io.Reader, error) { return in, nil } // decoded already
	return s, true
}

// declared is the encoding that the XML declaration names; empty when none.
func declared(data []byte) string {
	head := string(data[:min(len(data), 200)])
	head, _, found := strings.Cut(head, "?>")
	if !found || !strings.HasPrefix(strings.TrimSpace(head), "<?xml") {
		return ""
	}
	_, after, _ := strings.Cut(head, "encoding")
	after = strings.TrimLeft(after, " \t\r\n=")
	if after == "" || after[0] != '"' && after[0] != '\'' {
		return ""
	}
	name, _, _ := strings.Cut(after[1:], after[:1])
	return name
}

// Next gives the next element that begins or ends. The element is nil at the
// end of the file, and after a fault that makes the rest meaningless.
func (s *Scanner) Next() (e *Element, ends bool) {
	for !s.ended {
		from := int(s.dec.InputOffset())
		token, err := s.dec.Token()
		if err != nil {
			s.stop(err)
			return nil, false
		}
		switch t := token.(type) {
		case xml.StartElement:
			return s.begin(t, from), false
		case xml.EndElement:
			e := s.open
			s.open, s.depth = e.Parent, s.depth-1
			e.Text, e.gather = string(e.gather), nil
			return e, true
		case xml.CharData:
			s.take(string(t), from)
		}
	}
	return nil, false
}

// begin opens an element, unless it is nested too deeply.
func (s *Scanner) begin(t xml.StartElement, from int) *Element {
	e := &Element{Name: t.Name.Local, Pos: s.places.At(from), Parent: s.open, attrs: t.Copy().Attr}
	s.open, s.depth, s.rooted = e, s.depth+1, true
	if s.depth > deepest {
		s.ended = true
		s.Faults.Problem(e.Pos, "nested-too-deeply", "", fmt.Sprintf("elements are nested more than %d deep", deepest), "export the file anew")
		return nil
	}
	return e
}

// take adds text to the open element. Blanks before the first word are left
// out, so that the layout of a long list does not fill the memory.
func (s *Scanner) take(text string, from int) {
	e := s.open
	if e == nil {
		return
	}
	if strings.HasPrefix(s.text[from:], "<![CDATA[") {
		from += len("<![CDATA[")
	}
	if len(e.gather) == 0 {
		cut := len(text) - len(strings.TrimLeft(text, " \t\n"))
		text, from = text[cut:], from+cut
	}
	if text == "" {
		return
	}
	e.pieces = append(e.pieces, piece{len(e.gather), from})
	e.gather = append(e.gather, text...)
}

// stop ends the scan at the end of the file or at a fault of syntax.
func (s *Scanner) stop(err error) {
	s.ended = true
	if errors.Is(err, io.EOF) && s.rooted {
		return
	}
	pos := s.places.At(int(s.dec.InputOffset()))
	if errors.Is(err, io.EOF) {
		s.Faults.Problem(pos, "not-xml", "", "the file holds no XML element", "export it anew")
		return
	}
	message := "the file stops being XML here"
	if strings.Contains(err.Error(), "unexpected EOF") {
		message = "the file ends before its last element does"
	}
	var syntax *xml.SyntaxError
	if errors.As(err, &syntax) {
		message += ": " + syntax.Msg
	}
	s.Faults.Problem(pos, "not-xml", "", message, "download or export the file again")
}

// At is the place of a byte of an element's text.
func (s *Scanner) At(e *Element, inText int) geodata.Pos {
	if len(e.pieces) == 0 {
		return e.Pos
	}
	after := sort.Search(len(e.pieces), func(i int) bool { return e.pieces[i].inText > inText })
	p := e.pieces[max(0, after-1)]
	return s.places.At(p.inFile + inText - p.inText)
}

// TextPos is the place of an element's text, or of the element when it has
// none.
func (s *Scanner) TextPos(e *Element) geodata.Pos { return s.At(e, 0) }

// File is the place that is the whole file.
func (s *Scanner) File() geodata.Pos { return s.places.File() }

// Root is the local name of the first element of what may be an XML file;
// empty when none is found near its start.
func Root(data []byte) string {
	const enough = 64 << 10
	data = data[:min(len(data), enough)]
	if len(data)%2 == 1 && len(data) > 1 && (data[0] == 0xff || data[0] == 0xfe) {
		data = data[:len(data)-1] // half a character of UTF-16
	}
	text, how := textfile.Decode(data, declared(data))
	if how == textfile.NotText || !strings.HasPrefix(strings.TrimSpace(text), "<") {
		return ""
	}
	dec := xml.NewDecoder(strings.NewReader(text))
	dec.Entity = xml.HTMLEntity
	dec.CharsetReader = func(_ string, in io.Reader) (io.Reader, error) { return in, nil }
	for {
		token, err := dec.Token()
		if err != nil {
			return ""
		}
		if t, ok := token.(xml.StartElement); ok {
			return t.Name.Local
		}
	}
}
