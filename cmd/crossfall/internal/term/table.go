package term

import (
	"slices"
	"strings"
	"unicode/utf8"

	"crossfall/cmd/crossfall/internal/words"
)

const columnGap = 2

// table writes rows under heads when every column can be given room for its
// longest word; else each row is a block of names and values.
func (p *printer) table(heads []string, rows [][]string) {
	rows = wholeNames(rows)
	widths, ok := columnWidths(heads, rows, p.width-2)
	if !ok {
		p.blocks(heads, rows)
		return
	}
	for _, l := range layRow(heads, widths) {
		p.line("  " + p.marked(bold, l))
	}
	rule := make([]string, len(heads))
	for i, w := range widths {
		rule[i] = strings.Repeat("-", w)
	}
	p.line("  " + strings.Join(rule, strings.Repeat(" ", columnGap)))
	for _, r := range rows {
		for _, l := range layRow(r, widths) {
			p.line("  " + l)
		}
	}
}

// longestName is the longest row name that is kept on one line.
const longestName = 14

// wholeNames keeps short row names, such as a bed's, from being broken.
func wholeNames(rows [][]string) [][]string {
	out := make([][]string, len(rows))
	for i, r := range rows {
		out[i] = slices.Clone(r)
		if utf8.RuneCountInString(r[0]) <= longestName {
			out[i][0] = strings.ReplaceAll(r[0], " ", words.NoBreak)
		}
	}
	return out
}

// blocks writes each row under its first cell.
func (p *printer) blocks(heads []string, rows [][]string) {
	for _, r := range rows {
		p.hanging("  ", "  ", r[0], "")
		var items []words.Item
		for i := 1; i < len(r); i++ {
			items = append(items, words.Item{Name: heads[i], Value: r[i]})
		}
		p.pairs(items, "    ")
	}
}

// columnWidths starts from each column's longest word and gives what is left
// of the room, a character at a time, to the column that wraps most.
func columnWidths(heads []string, rows [][]string, room int) ([]int, bool) {
	all := append([][]string{heads}, rows...)
	widths, left := make([]int, len(heads)), room-columnGap*(len(heads)-1)
	for i := range heads {
		for _, r := range all {
			for _, word := range pieces(r[i], room) {
				widths[i] = max(widths[i], utf8.RuneCountInString(word))
			}
		}
		left -= widths[i]
	}
	if left < 0 {
		return nil, false
	}
	for ; left > 0; left-- {
		most, at := 1, -1
		for i := range widths {
			if h := height(all, i, widths[i]); h > most {
				most, at = h, i
			}
		}
		if at < 0 {
			break
		}
		widths[at]++
	}
	return widths, true
}

// height is the most lines that a cell of a column takes at a width.
func height(rows [][]string, column, width int) int {
	most := 0
	for _, r := range rows {
		most = max(most, len(wrap(r[column], width)))
	}
	return most
}

// layRow sets the wrapped cells of one row side by side.
func layRow(cells []string, widths []int) []string {
	wrapped := make([][]string, len(cells))
	lines := 0
	for i, c := range cells {
		wrapped[i] = wrap(c, widths[i])
		lines = max(lines, len(wrapped[i]))
	}
	out := make([]string, lines)
	for l := range out {
		var b strings.Builder
		for i := range cells {
			part := ""
			if l < len(wrapped[i]) {
				part = wrapped[i][l]
			}
			b.WriteString(part)
			b.WriteString(strings.Repeat(" ", widths[i]-utf8.RuneCountInString(part)+columnGap))
		}
		out[l] = strings.TrimRight(b.String(), " ")
	}
	return out
}
