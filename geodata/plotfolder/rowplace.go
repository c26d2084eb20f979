package plotfolder

import (
	"bytes"
	"strings"
)

// textLine is one line of a file.
type textLine struct {
	text     string // without its end
	from, to int    // bytes, with its end
}

// linesOf splits a file at its line feeds.
func linesOf(data []byte) (out []textLine) {
	at := 0
	for line := range bytes.Lines(data) {
		out = append(out, textLine{strings.TrimRight(string(line), "\r\n"), at, at + len(line)})
		at += len(line)
	}
	return out
}

// rowSpan is where a row stands, in bytes with its line end.
type rowSpan struct{ from, to int }

// places finds where the rows of the journal stand in a file of that name. Of
// rows that read alike each entry has one to itself: that at its own offset,
// else the first that is left. Rows that were taken out are not looked for.
func (j *journal) places(file string, data []byte) map[*entry]rowSpan {
	lines := linesOf(data)
	starts := map[string][]int{} // lines by their text
	for i, l := range lines {
		starts[l.text] = append(starts[l.text], i)
	}
	claimed := make([]bool, len(lines))
	found := map[*entry]rowSpan{}
	claim := func(e *entry, suits func(textLine) bool) {
		rows := strings.Split(e.Row, "\n")
		for _, i := range starts[rows[0]] {
			if suits(lines[i]) && standsAt(lines, claimed, i, rows) {
				for k := range rows {
					claimed[i+k] = true
				}
				found[e] = rowSpan{lines[i].from, lines[i+len(rows)-1].to}
				return
			}
		}
	}
	for _, exact := range []bool{true, false} {
		for _, e := range j.entries {
			if _, known := found[e]; known || e.standing == taken || !strings.EqualFold(e.File, file) {
				continue
			}
			claim(e, func(l textLine) bool { return !exact || int64(l.from) == e.Offset })
		}
	}
	return found
}

// standsAt tells whether some rows stand at line i, one after another, and
// nobody has claimed them.
func standsAt(lines []textLine, claimed []bool, i int, rows []string) bool {
	if i+len(rows) > len(lines) {
		return false
	}
	for k, row := range rows {
		if claimed[i+k] || lines[i+k].text != row {
			return false
		}
	}
	return true
}
