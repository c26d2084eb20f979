package dxf

import (
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
)

// pair is one group of a DXF file: a code, and a value on the line after it.
type pair struct {
	code  int
	value string // without blanks around it
	line  int    // of the value
}

// pairs goes through the groups of a file.
type pairs struct {
	text string // what is not read yet
	file string
	fs   *textfile.Faults
	line int // lines read
	bad  bool
}

// next gives the next group but comments. ok is false at the end of the file
// and after a fault of form, from which on codes and values would be mixed up.
func (p *pairs) next() (pair, bool) {
	for !p.bad {
		code, ok := p.nextLine()
		if !ok || strings.TrimSpace(code) == "" && strings.TrimSpace(p.text) == "" {
			return pair{}, false
		}
		n, err := strconv.Atoi(strings.TrimSpace(code))
		if err != nil {
			p.bad = true
			p.fs.Problem(p.at(p.line), "not-dxf", code, "a group code should stand here, a whole number", advice)
			return pair{}, false
		}
		value, ok := p.nextLine()
		if !ok {
			p.bad = true
			p.fs.Problem(p.at(p.line), "file-cut-short", code, "the file ends between a group code and its value", "export or copy the file again")
			return pair{}, false
		}
		if n != 999 {
			return pair{n, strings.TrimSpace(value), p.line}, true
		}
	}
	return pair{}, false
}

func (p *pairs) nextLine() (string, bool) {
	if p.text == "" {
		return "", false
	}
	line, rest, _ := strings.Cut(p.text, "\n")
	p.text = rest
	p.line++
	return line, true
}

func (p *pairs) at(line int) geodata.Pos { return geodata.Pos{File: p.file, Line: line} }
