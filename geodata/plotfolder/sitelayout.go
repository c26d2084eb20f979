package plotfolder

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// siteLayout is where everything stands in the text of site.toml.
type siteLayout struct {
	data     []byte
	sections []siteSection // the first is what stands above every header
	entries  []siteEntry
}

// siteSection is a header with what stands under it.
type siteSection struct {
	path     string // of its table
	list     bool   // [[path]]
	from, to int    // bytes, behind the line of the header
}

// siteEntry is one key = value, or one member of an inline table.
type siteEntry struct {
	path     string // with its tables
	section  int
	from, to int  // bytes, from the key to the end of the value
	value    int  // where the value begins
	table    bool // the value is an inline table
	remarks  bool // there are remarks within the value
	within   int  // the entry whose inline table it is a member of; -1
}

// layOut finds the places. The error is that of a text that is not TOML.
func layOut(data []byte) (l *siteLayout, err error) {
	defer func() {
		if r := recover(); r != nil { // the parser's input is a stranger's file
			err = fmt.Errorf("the file cannot be read: %v", r)
		}
	}()
	l = &siteLayout{data: data, sections: []siteSection{{}}}
	p := unstable.Parser{KeepComments: true}
	p.Reset(data)
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			at := int(e.Child().Raw.Offset)
			l.sections[len(l.sections)-1].to = l.lineStart(at)
			l.sections = append(l.sections, siteSection{path: keyText(e), list: e.Kind == unstable.ArrayTable, from: l.lineEnd(at)})
		case unstable.KeyValue:
			l.add(l.sections[len(l.sections)-1].path, e, -1)
		}
	}
	l.sections[len(l.sections)-1].to = len(data)
	return l, p.Error()
}

// add notes an entry, and those of its inline table.
func (l *siteLayout) add(table string, e *unstable.Node, within int) {
	s := siteEntry{path: join(table, keyText(e)), section: len(l.sections) - 1, within: within}
	s.from = int(e.Raw.Offset)
	s.to = s.from + int(e.Raw.Length)
	last := 0
	for k := e.Key(); k.Next(); {
		last = int(k.Node().Raw.Offset) + int(k.Node().Raw.Length)
	}
	s.value = last + bytes.IndexByte(l.data[last:], '=') + 1
	for s.value < s.to && (l.data[s.value] == ' ' || l.data[s.value] == '\t') {
		s.value++
	}
	v := e.Value()
	s.table, s.remarks = v.Kind == unstable.InlineTable, hasRemarks(v)
	l.entries = append(l.entries, s)
	if s.table {
		at := len(l.entries) - 1
		for it := v.Children(); it.Next(); {
			if n := it.Node(); n.Kind == unstable.KeyValue {
				l.add(s.path, n, at)
			}
		}
	}
}

// hasRemarks tells whether there are remarks within a list or an inline table.
func hasRemarks(n *unstable.Node) bool {
	if n.Kind == unstable.Comment {
		return true
	}
	if n.Kind != unstable.Array && n.Kind != unstable.InlineTable && n.Kind != unstable.KeyValue {
		return false
	}
	for it := n.Children(); it.Next(); {
		if hasRemarks(it.Node()) {
			return true
		}
	}
	return false
}

// find is the entry of a key that stands in no list of tables; -1 without one.
func (l *siteLayout) find(key string) int {
	for i, e := range l.entries {
		if e.path == key && !l.sections[e.section].list {
			return i
		}
	}
	return -1
}

// lineStart is where the line of a byte begins, lineEnd where the next one does.
func (l *siteLayout) lineStart(at int) int { return bytes.LastIndexByte(l.data[:at], '\n') + 1 }

func (l *siteLayout) lineEnd(at int) int {
	if i := bytes.IndexByte(l.data[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(l.data)
}

// newline is the line end that the file has.
func (l *siteLayout) newline() string {
	if i := bytes.IndexByte(l.data, '\n'); i > 0 && l.data[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// covered tells whether a byte stands within a value of several lines.
func (l *siteLayout) covered(at int) bool {
	for _, e := range l.entries {
		if e.from <= at && at < e.to {
			return true
		}
	}
	return false
}

// example finds a line of a section that is a setting behind a #, which only waits
// to be filled in, and the span of its value; those under a header behind a # are
// that table's.
func (l *siteLayout) example(s siteSection, key string) (line, value siteSpan, found bool) {
	for at := s.from; at < s.to; at = l.lineEnd(at) {
		end := l.lineEnd(at)
		text := string(l.data[at:end])
		rest, isRemark := strings.CutPrefix(strings.TrimLeft(text, " \t"), "#")
		if !isRemark || l.covered(at) {
			continue
		}
		rest = strings.TrimLeft(rest, " \t")
		behind, err := layOut([]byte(strings.TrimRight(rest, "\r\n")))
		if err != nil {
			continue
		}
		if len(behind.sections) > 1 {
			return line, value, false
		}
		if len(behind.entries) > 0 && behind.entries[0].path == key {
			begin := end - len(rest)
			e := behind.entries[0]
			return siteSpan{at, begin}, siteSpan{begin + e.value, begin + e.to}, true
		}
	}
	return line, value, false
}

// siteSpan is a stretch of bytes.
type siteSpan struct{ from, to int }
