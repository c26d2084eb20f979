package wkt

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
)

// token is one word, number or sign of a text.
type token struct {
	text string
	at   int
}

// scanner cuts a text into tokens.
type scanner struct {
	text string
	at   int
}

// letters and digits as well-known text has them.
const (
	wordLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
	numberSigns = "0123456789+-.eE"
)

// next gives the next token; its text is empty at the end. Any sign that has
// no place in well-known text is a token by itself.
func (s *scanner) next() token {
	rest := strings.TrimLeft(s.text[s.at:], " \t\n")
	at := len(s.text) - len(rest)
	n := min(1, len(rest))
	switch {
	case rest == "":
	case strings.IndexByte(wordLetters, rest[0]) >= 0:
		n = len(rest) - len(strings.TrimLeft(rest, wordLetters))
	case strings.IndexByte(numberSigns, rest[0]) >= 0:
		n = len(rest) - len(strings.TrimLeft(rest, numberSigns))
	}
	s.at = at + n
	return token{rest[:n], at}
}

func (t token) isNumber() bool {
	return t.text != "" && strings.IndexByte("0123456789+-.", t.text[0]) >= 0
}
func (t token) isWord() bool {
	return t.text != "" && strings.IndexByte(wordLetters, t.text[0]) >= 0
}

// piece is one geometry cut out of a text.
type piece struct {
	from, to int
	tuples   []int // where each place begins
	srid     int
}

// text reads a file of geometries one after another. After a fault of form it
// goes on with the next line that begins with a geometry's name.
func (r *reader) text(text string) {
	places := textfile.NewPlaces(r.file.File, text)
	s := &scanner{text: text}
	for {
		first := s.next()
		switch {
		case first.text == "":
			return
		case first.text == ";":
			continue
		}
		p, fault := s.piece(first)
		if fault != nil {
			fault.Pos = places.At(p.to)
			r.fs.Add(*fault)
			s.skipBroken(p.to)
			continue
		}
		if pos := places.At(p.from); r.inSystem(p.srid, pos) {
			r.parse(text, p, places)
		}
		if len(r.out.Points) > geodata.MostPoints {
			r.fs.TooMany(places.At(p.from))
			return
		}
	}
}

// skipBroken goes on with the next line behind an offset that begins as a
// geometry does, so that one fault does not bring another for each line.
func (s *scanner) skipBroken(at int) {
	s.at = max(s.at, at)
	for s.at < len(s.text) {
		end := strings.IndexByte(s.text[s.at:], '\n')
		if end < 0 {
			s.at = len(s.text)
			return
		}
		s.at += end + 1
		line := strings.TrimLeft(s.text[s.at:], " \t")
		word := line[:len(line)-len(strings.TrimLeft(line, wordLetters))]
		if strings.EqualFold(word, "SRID") || isGeometry(word) {
			return
		}
	}
}

// piece cuts out the geometry that begins with a token. When there is a fault,
// to is where it stands. Nesting is checked here, before anything is built.
func (s *scanner) piece(t token) (p piece, fault *geodata.Fault) {
	if strings.EqualFold(t.text, "SRID") {
		code, ok := s.srid()
		if !ok {
			p.to = t.at
			return p, broken("srid-unclear", t, "the coordinate system before the geometry cannot be read", "write it as SRID=4326;POINT Z (...)")
		}
		p.srid, t = code, s.next()
	}
	p.from, p.to = t.at, t.at
	switch {
	case !t.isWord():
		return p, broken("not-wkt", t, "a geometry should begin here", advice)
	case !isGeometry(t.text):
		return p, broken("geometry-unknown", t, "this is no geometry that is read", "give points, lines or polygons")
	}
	before, depth := t, 0
	for {
		t = s.next()
		p.to = t.at
		if fault := s.check(t, before, depth); fault != nil {
			return p, fault
		}
		switch {
		case t.text == "(":
			depth++
		case t.text == ")":
			depth--
		case t.isNumber() && (before.text == "(" || before.text == ","):
			p.tuples = append(p.tuples, t.at)
		}
		if depth <= 0 && (t.text == ")" || strings.EqualFold(t.text, "EMPTY")) {
			p.to = s.at
			return p, nil
		}
		before = t
	}
}

// check refuses a token that can stand nowhere in a geometry.
func (s *scanner) check(t, before token, depth int) *geodata.Fault {
	switch {
	case t.text == "":
		return broken("file-cut-short", before, "the file ends within a geometry", "export or copy the file again")
	case t.text == "(" && depth == deepest:
		return broken("nested-too-deeply", t, fmt.Sprintf("brackets are nested more than %d deep", deepest), advice)
	case t.text == "(", t.text == ")", t.text == ",":
	case t.isNumber():
		if _, ok := textfile.Number(t.text); !ok {
			return broken("not-a-number", t, "this is not a number", textfile.Advice(t.text))
		}
	case !t.isWord():
		return broken("not-wkt", t, "this sign has no place in well-known text", advice)
	case isGeometry(t.text), slices.Contains([]string{"EMPTY", "Z", "M", "ZM"}, strings.ToUpper(t.text)):
	case strings.HasPrefix(strings.TrimLeft(s.text[s.at:], " \t\n"), "("):
		return broken("geometry-unknown", t, "this is no geometry that is read", "give points, lines or polygons")
	default:
		return broken("not-a-number", t, "a number should stand here", textfile.Advice(t.text))
	}
	return nil
}

// broken makes a fault, whose place the caller fills in.
func broken(code string, t token, message, want string) *geodata.Fault {
	return &geodata.Fault{Code: code, Read: t.text, Message: message, Want: want}
}

// srid reads "=4326;".
func (s *scanner) srid() (int, bool) {
	eq, number, semicolon := s.next(), s.next(), s.next()
	code, err := strconv.Atoi(number.text)
	return code, eq.text == "=" && err == nil && code >= 0 && semicolon.text == ";"
}
