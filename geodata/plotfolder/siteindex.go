package plotfolder

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"crossfall/geodata"

	"github.com/pelletier/go-toml/v2/unstable"
)

// siteText is site.toml with the places of its settings.
type siteText struct {
	file     string
	data     []byte
	lines    []int // where each line begins
	settings []setting
	unread   bool // a fault was told behind which nothing was read
}

// setting is one key = value of the file.
type setting struct {
	key            string // with its tables; those of a list of tables have no number
	table          int    // which of a list of tables, from 0
	from, to       int    // bytes, to the end of the value
	line, lastLine int
	col            int
	within         int  // index of the setting whose inline table it stands in, else its own
	told           bool // its value is of a wrong type or stands twice: it was left out
}

// indexSite finds the places of all settings. It is false, and told, when the
// file is not TOML.
func indexSite(name string, data []byte, c *collector) (d *siteText, ok bool) {
	d = &siteText{file: name, data: data, lines: []int{0}}
	for i, b := range data {
		if b == '\n' {
			d.lines = append(d.lines, i+1)
		}
	}
	defer func() {
		if r := recover(); r != nil {
			c.problem(geodata.Pos{File: name}, "site-not-toml", "", fmt.Sprintf("the file cannot be read: %v", r), "see the example that crossfall start writes")
			ok = false
		}
	}()
	var p unstable.Parser
	p.Reset(data)
	table, count := "", map[string]int{}
	number := 0
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			table, number = keyText(e), 0
			if e.Kind == unstable.ArrayTable {
				number = count[table]
				count[table]++
			}
		case unstable.KeyValue:
			d.add(join(table, keyText(e)), number, e, len(d.settings))
		}
	}
	if err := p.Error(); err != nil {
		d.syntax(&p, err, c)
		return d, false
	}
	return d, true
}

// add notes a setting, and those within an inline table.
func (d *siteText) add(key string, table int, e *unstable.Node, within int) {
	from := int(e.Raw.Offset)
	s := setting{key: key, table: table, from: from, to: from + int(e.Raw.Length), within: within}
	pos := d.at(from)
	s.line, s.col, s.lastLine = pos.Line, pos.Col, d.at(max(from, s.to-1)).Line
	d.settings = append(d.settings, s)
	if v := e.Value(); v.Kind == unstable.InlineTable {
		for it := v.Children(); it.Next(); {
			if n := it.Node(); n.Kind == unstable.KeyValue {
				d.add(join(key, keyText(n)), table, n, within)
			}
		}
	}
}

func (d *siteText) syntax(p *unstable.Parser, err error, c *collector) {
	pos, read := geodata.Pos{File: d.file}, ""
	var e *unstable.ParserError
	if errors.As(err, &e) && len(e.Highlight) > 0 {
		pos = d.at(int(p.Range(e.Highlight).Offset))
		read = d.line(pos.Line)
	}
	c.problem(pos, "site-not-toml", read, "the file cannot be read from here on: "+err.Error(),
		"write key = value, text in quotes, numbers without, lists in [ ]")
}

// at is the place of a byte.
func (d *siteText) at(offset int) geodata.Pos {
	i, found := slices.BinarySearch(d.lines, offset)
	if !found {
		i--
	}
	return geodata.Pos{File: d.file, Line: i + 1, Col: 1 + utf8.RuneCount(d.data[d.lines[i]:min(offset, len(d.data))])}
}

// pos is a place given as line and byte column, as the decoder gives it.
func (d *siteText) pos(line, col int) geodata.Pos {
	if line < 1 || line > len(d.lines) {
		return geodata.Pos{File: d.file}
	}
	return d.at(min(d.lines[line-1]+max(col, 1)-1, len(d.data)))
}

// line is the text of a line.
func (d *siteText) line(number int) string {
	if number < 1 || number > len(d.lines) {
		return ""
	}
	end := len(d.data)
	if number < len(d.lines) {
		end = d.lines[number] - 1
	}
	return strings.TrimSpace(string(d.data[d.lines[number-1]:end]))
}

// leftOut tells whether a setting stands in the file but was told and left out.
func (d *siteText) leftOut(key string, table int) bool {
	return slices.ContainsFunc(d.settings, func(s setting) bool { return s.key == key && s.table == table && s.told })
}

// find is the place of a setting that was read; the file when it has none.
func (d *siteText) find(key string, table int) (geodata.Pos, string) {
	for _, s := range d.settings {
		if s.key == key && s.table == table && !s.told {
			return geodata.Pos{File: d.file, Line: s.line, Col: s.col}, d.line(s.line)
		}
	}
	return geodata.Pos{File: d.file}, ""
}

func keyText(e *unstable.Node) string {
	var parts []string
	for k := e.Key(); k.Next(); {
		parts = append(parts, string(k.Node().Data))
	}
	return strings.Join(parts, ".")
}

func join(table, key string) string {
	if table == "" {
		return key
	}
	return table + "." + key
}
