package term

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"crossfall/cmd/crossfall/internal/words"
)

// printer writes wrapped text. Errors of the writer surface when the buffer
// behind it is flushed.
type printer struct {
	w     io.Writer
	width int
	color bool
	words words.Words
}

// The marks that a terminal may show; the words stand without them.
const (
	bold  = "\x1b[1m"
	red   = "\x1b[1;31m"
	plain = "\x1b[0m"
)

func (p *printer) marked(mark, t string) string {
	if !p.color || t == "" {
		return t
	}
	return mark + t + plain
}

func (p *printer) line(t string) { fmt.Fprintln(p.w, strings.TrimRight(t, " ")) }

func (p *printer) blank() { fmt.Fprintln(p.w) }

// heading starts a part.
func (p *printer) heading(t string) {
	p.blank()
	for _, l := range wrap(t, p.width) {
		p.line(p.marked(bold, l))
	}
}

// para writes a wrapped text.
func (p *printer) para(t string) { p.hanging("", "", t, "") }

// hanging writes a text that starts after a lead and continues under a given
// indent; mark colours the lead.
func (p *printer) hanging(lead, indent, t, mark string) {
	room := p.width - max(utf8.RuneCountInString(lead), utf8.RuneCountInString(indent))
	for i, l := range wrap(t, room) {
		if i == 0 {
			p.line(p.marked(mark, lead) + l)
			continue
		}
		p.line(indent + l)
	}
}

// The widest column of names, and the least room worth giving to values.
const (
	widestNames   = 26
	leastOfValues = 20
)

// pairs writes names and values in two columns, or one after the other where
// the lines are too short for that.
func (p *printer) pairs(items []words.Item, indent string) {
	names := 0
	for _, it := range items {
		names = max(names, utf8.RuneCountInString(it.Name))
	}
	names = min(names, widestNames)
	values := p.width - len(indent) - names - columnGap
	for _, it := range items {
		if values < leastOfValues {
			p.hanging(indent, indent+"  ", it.Name+": "+it.Value, "")
			continue
		}
		for _, l := range layRow([]string{it.Name, it.Value}, []int{names, values}) {
			p.line(indent + l)
		}
	}
}

// items is a part made of names and values; nothing when there are none.
func (p *printer) items(title string, items []words.Item) {
	if len(items) == 0 {
		return
	}
	p.heading(title)
	p.pairs(items, "  ")
}

// wrap breaks a text into lines of at most room characters.
func wrap(t string, room int) []string {
	var lines []string
	line, n := "", 0
	end := func() {
		if n > 0 {
			lines, line, n = append(lines, strings.ReplaceAll(line, words.NoBreak, " ")), "", 0
		}
	}
	for _, word := range pieces(t, room) {
		size := utf8.RuneCountInString(word)
		if n > 0 && n+1+size <= room {
			line, n = line+" "+word, n+1+size
			continue
		}
		end()
		line, n = word, size
	}
	end()
	if lines == nil {
		return []string{""}
	}
	return lines
}

// pieces are the words of a text, figures kept whole where a line can hold
// them, and words longer than a line cut.
func pieces(t string, room int) []string {
	var out []string
	for _, word := range strings.FieldsFunc(words.Whole(t), func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
		parts := []string{word}
		if utf8.RuneCountInString(word) > room {
			parts = strings.Split(word, words.NoBreak)
		}
		for _, part := range parts {
			cut := []rune(part)
			for ; len(cut) > room; cut = cut[room:] {
				out = append(out, string(cut[:room]))
			}
			out = append(out, string(cut))
		}
	}
	return out
}
