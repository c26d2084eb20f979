package csvtable

import (
	"strings"
	"unicode/utf8"

	"crossfall/geodata"
)

// Cell is one field of a row.
type Cell struct {
	Text   string // without quotes and without blanks around it
	Col    int    // of its first character; of a quoted field, of the quote
	Quoted bool
}

// Row is one line that holds something.
type Row struct {
	Line  int
	Text  string // as it stood
	Cells []Cell
}

// Cell gives the i-th cell of the row; when the row is too short, an empty one
// with no column.
func (r Row) Cell(i int) Cell {
	if i < 0 || i >= len(r.Cells) {
		return Cell{}
	}
	return r.Cells[i]
}

// Empty tells whether no cell holds anything.
func (r Row) Empty() bool {
	for _, c := range r.Cells {
		if c.Text != "" {
			return false
		}
	}
	return true
}

// line is one line of the file that is neither blank nor a comment.
type line struct {
	number int
	text   string
}

// lines splits a text at any of the three line ends and leaves out blank lines
// and those that begin with #. It stops at the first beyond the rows that are
// read.
func lines(text string) []line {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	var out []line
	number := 0
	for l := range strings.SplitSeq(text, "\n") {
		number++
		t := strings.TrimSpace(l)
		if t != "" && t[0] != '#' {
			out = append(out, line{number, l})
			if len(out) > geodata.MostRows {
				break
			}
		}
	}
	return out
}

// cells splits a line at a delimiter. A field that begins with a quote goes on
// to the quote that closes it, and two quotes in it stand for one; a field
// whose closing quote is not followed by the delimiter is taken as it stands,
// quotes and all, since people put words into quotes in notes. open is the
// column of a quote that nothing closes, 0 when there is none. For the
// delimiter blank any run of blanks counts as one. It stops at the first cell
// beyond those that are read.
func cells(text string, delimiter rune) (out []Cell, open int) {
	col := 1
	for {
		if delimiter == ' ' {
			trimmed := strings.TrimLeft(text, " ")
			col += len(text) - len(trimmed)
			if text = trimmed; text == "" {
				return out, open
			}
		}
		c, used, unclosed := field(text, delimiter)
		c.Col += col
		if unclosed && open == 0 {
			open = c.Col
		}
		out = append(out, c)
		if used == len(text) || len(out) > geodata.MostColumns {
			return out, open
		}
		col += utf8.RuneCountInString(text[:used]) + 1
		text = text[used+1:]
	}
}

// field reads the first field of a text; used is its length in bytes without
// the delimiter. Cell.Col is counted from 0 here.
func field(text string, delimiter rune) (c Cell, used int, unclosed bool) {
	lead := len(text) - len(strings.TrimLeft(text, " "))
	if strings.HasPrefix(text[lead:], `"`) {
		inner, length, closed := quoted(text[lead:])
		after := strings.TrimLeft(text[lead+length:], " ")
		if closed && (after == "" || strings.HasPrefix(after, string(delimiter)) || delimiter == ' ' && text[lead+length] == ' ') {
			used := len(text) - len(after)
			if delimiter == ' ' {
				used = lead + length
			}
			return Cell{strings.TrimSpace(inner), utf8.RuneCountInString(text[:lead]), true}, used, false
		}
		unclosed = !closed
	}
	used = strings.IndexRune(text, delimiter)
	if used < 0 {
		used = len(text)
	}
	raw := text[:used]
	trimmed := strings.TrimLeft(raw, " \t\u00a0")
	c.Col = utf8.RuneCountInString(raw) - utf8.RuneCountInString(trimmed)
	c.Text = strings.TrimSpace(trimmed)
	return c, used, unclosed
}

// quoted reads a field that begins with a quote; length counts the quotes.
func quoted(text string) (inner string, length int, closed bool) {
	var b strings.Builder
	for i := 1; i < len(text); i++ {
		if text[i] != '"' {
			b.WriteByte(text[i])
			continue
		}
		if i+1 < len(text) && text[i+1] == '"' {
			b.WriteByte('"')
			i++
			continue
		}
		return b.String(), i + 1, true
	}
	return b.String(), len(text), false
}
