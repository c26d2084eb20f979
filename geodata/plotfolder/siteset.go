package plotfolder

import (
	"bytes"
	"slices"
	"strings"
)

// Changing single settings in the text of site.toml. Each function gives the text
// with one change and leaves every other byte as it was.

// replaced is a text with a stretch of it replaced.
func replaced(data []byte, from, to int, text string) []byte {
	return slices.Concat(data[:from], []byte(text), data[to:])
}

// put gives a setting a value, which is TOML already.
func (l *siteLayout) put(key, value string) []byte {
	if i := l.find(key); i >= 0 {
		return replaced(l.data, l.entries[i].value, l.entries[i].to, value)
	}
	table, _ := split(key)
	for outer := table; outer != ""; outer, _ = split(outer) {
		if i := l.find(outer); i >= 0 && l.entries[i].table {
			return l.putInline(i, strings.TrimPrefix(key, outer+".")+" = "+value)
		}
	}
	for _, s := range l.sections {
		if s.path == table && !s.list {
			return l.putIn(s, strings.TrimPrefix(strings.TrimPrefix(key, table), "."), value)
		}
	}
	for i := len(l.entries) - 1; i >= 0; i-- { // beds.count = 4 above the first header, or the like
		e := l.entries[i]
		if s := l.sections[e.section]; e.within < 0 && !s.list && strings.HasPrefix(e.path, table+".") {
			return l.insertLine(l.lineEnd(e.to), strings.TrimPrefix(strings.TrimPrefix(key, s.path), ".")+" = "+value)
		}
	}
	return l.appended("[" + table + "]\n" + key[len(table)+1:] + " = " + value)
}

// putIn puts a new setting into a section: in place of its example, else behind
// the last setting, else under the header, or behind the remarks that the file
// begins with.
func (l *siteLayout) putIn(s siteSection, key, value string) []byte {
	if line, at, found := l.example(s, key); found {
		with := replaced(l.data, at.from, at.to, value)
		return replaced(with, line.from, line.to, "")
	}
	at := -1
	for _, e := range l.entries {
		if e.within < 0 && e.from >= s.from && e.from < s.to {
			at = l.lineEnd(e.to)
		}
	}
	if at < 0 {
		at = s.from
		if s.path == "" {
			for at < s.to && l.data[at] == '#' {
				at = l.lineEnd(at)
			}
		}
	}
	return l.insertLine(at, key+" = "+value)
}

// putInline puts a new member into an inline table.
func (l *siteLayout) putInline(table int, member string) []byte {
	last := -1
	for i, e := range l.entries {
		if e.within == table {
			last = i
		}
	}
	if last < 0 {
		return replaced(l.data, l.entries[table].value, l.entries[table].to, "{ "+member+" }")
	}
	at := l.entries[last].to
	return replaced(l.data, at, at, ", "+member)
}

// takeOut takes a setting out: its lines are put behind a #, so that what a person
// wrote is kept; a member of an inline table is cut.
func (l *siteLayout) takeOut(i int) []byte {
	e := l.entries[i]
	if e.within >= 0 {
		return l.cutInline(i)
	}
	from, to := l.lineStart(e.from), l.lineEnd(e.to)
	var b bytes.Buffer
	for line := range bytes.Lines(l.data[from:to]) {
		b.WriteString("# ")
		b.Write(line)
	}
	return replaced(l.data, from, to, b.String())
}

// cutInline cuts a member with the comma that parts it from its neighbour.
func (l *siteLayout) cutInline(i int) []byte {
	e := l.entries[i]
	before, after := -1, -1
	for k, o := range l.entries {
		switch {
		case o.within != e.within || k == i:
		case k < i:
			before = o.to
		case after < 0:
			after = o.from
		}
	}
	switch {
	case after >= 0:
		return replaced(l.data, e.from, after, "")
	case before >= 0:
		return replaced(l.data, before, e.to, "")
	}
	return replaced(l.data, e.from, e.to, "")
}

// losesRemarks tells whether there are remarks in what would be replaced or cut.
func (l *siteLayout) losesRemarks(i int, out bool) bool {
	e := l.entries[i]
	if !out {
		return e.remarks
	}
	return e.within >= 0 && l.entries[e.within].remarks
}

// insertLine puts a line where one begins, or behind a last line without its end.
func (l *siteLayout) insertLine(at int, line string) []byte {
	line = strings.ReplaceAll(line, "\n", l.newline()) + l.newline()
	if at > 0 && l.data[at-1] != '\n' {
		line = l.newline() + line
	}
	return replaced(l.data, at, at, line)
}

// appended puts lines at the end, parted from what stands before by a blank one.
func (l *siteLayout) appended(lines string) []byte {
	if len(l.data) > 0 {
		lines = "\n" + lines
	}
	return l.insertLine(len(l.data), lines)
}
