package textfile

import (
	"unicode/utf8"

	"crossfall/geodata"
)

// Places finds line and column of any byte of a text. It keeps a mark every
// block bytes, since a file may be one line of many megabytes and counting from
// the start of the line for each point would take for ever.
type Places struct {
	file  string
	text  string
	marks []mark
}

// mark is the place of the first byte of a block.
type mark struct{ line, col int }

const block = 1024

// NewPlaces goes once through a text that came from Decode.
func NewPlaces(file, text string) *Places {
	p := &Places{file: file, text: text, marks: make([]mark, 0, len(text)/block+1)}
	m := mark{1, 1}
	for i := 0; i < len(text); i += block {
		p.marks = append(p.marks, m)
		m = m.over(text[i:min(i+block, len(text))])
	}
	return p
}

// over is the place behind a piece of text.
func (m mark) over(text string) mark {
	for i := range len(text) {
		switch {
		case text[i] == '\n':
			m.line, m.col = m.line+1, 1
		case utf8.RuneStart(text[i]): // columns count characters
			m.col++
		}
	}
	return m
}

// At is the place of the byte at an offset; offsets outside the text are
// brought to its ends.
func (p *Places) At(offset int) geodata.Pos {
	if len(p.text) == 0 {
		return geodata.Pos{File: p.file}
	}
	offset = max(0, min(offset, len(p.text)))
	b := min(offset/block, len(p.marks)-1)
	m := p.marks[b].over(p.text[b*block : offset])
	return geodata.Pos{File: p.file, Line: m.line, Col: m.col}
}

// File is the place that is the whole file.
func (p *Places) File() geodata.Pos { return geodata.Pos{File: p.file} }
