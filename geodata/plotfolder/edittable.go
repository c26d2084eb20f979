package plotfolder

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// newFeatures is the header of a features.csv that is made for a shape: the
// columns that crossfall start gives it.
const newFeatures = "kind,name,%s,%s,what,height_m,stem_diameter_m,evergreen,carries,overhead,located,depth_m\n"

// featureText is features.csv as a table and as lines.
type featureText struct {
	*featureTable
	lines    []string // with their ends
	levelled bool     // all rows are as long as the header
}

// tableShape is the rows of one shape.
type tableShape struct {
	kind  geodata.Kind
	name  string
	lines []int // numbers, from 1
}

// featureText reads features.csv as it is being changed; the error is
// geodata.Faults.
func (d *desk) featureText() (*featureText, error) {
	var c collector
	h := openFeatures(&file{name: d.table.name, data: []byte(d.table.text)}, d.site, &c)
	if h == nil {
		return nil, c.err()
	}
	return &featureText{featureTable: h, lines: linesWithEnds(d.table.text)}, nil
}

// linesWithEnds splits a text at any of the three line ends, as csvtable counts
// lines, and keeps them.
func linesWithEnds(text string) (out []string) {
	for text != "" {
		end := strings.IndexAny(text, "\r\n") + 1
		switch {
		case end == 0:
			end = len(text)
		case strings.HasPrefix(text[end-1:], "\r\n"):
			end++
		}
		out, text = append(out, text[:end]), text[end:]
	}
	return out
}

// spans are the shapes in order, as shapes() parts them.
func (t *featureText) spans() (out []tableShape) {
	for _, r := range t.Rows {
		kind, ok := kindNamed(r.Cell(t.cols.of[kindCol].at).Text)
		if !ok {
			continue
		}
		name := r.Cell(t.cols.of[nameCol].at).Text
		if n := len(out); n > 0 && out[n-1].kind == kind && out[n-1].name == name && !isPoint(kind) {
			out[n-1].lines = append(out[n-1].lines, r.Line)
			continue
		}
		out = append(out, tableShape{kind, name, []int{r.Line}})
	}
	return out
}

// countInTable counts the shapes in features.csv that are meant.
func (d *desk) countInTable(e FeatureEdit) (n int, err error) {
	if d.table == nil || !hasRows(d.table.text) {
		return 0, nil
	}
	t, err := d.featureText()
	if err != nil {
		return 0, err
	}
	for _, s := range t.spans() {
		if e.is(s.kind, s.name) {
			n++
		}
	}
	return n, nil
}

// hasRows tells whether a table has a line that is not a remark.
func hasRows(text string) bool {
	return slices.ContainsFunc(linesWithEnds(text), func(l string) bool {
		l = strings.TrimSpace(l)
		return l != "" && l[0] != '#'
	})
}

// editTable makes one change in features.csv.
func (d *desk) editTable(e FeatureEdit) error {
	if d.table == nil {
		d.table = &openText{name: featuresFile}
	}
	if !hasRows(d.table.text) {
		if d.table.text != "" && !strings.HasSuffix(d.table.text, "\n") {
			d.table.text += "\n"
		}
		x, y := "x ("+unitWord(d.site)+")", "y ("+unitWord(d.site)+")"
		if d.heightsLonLat {
			x, y = "longitude", "latitude"
		}
		d.table.text += fmt.Sprintf(newFeatures, x, y)
	}
	t, err := d.featureText()
	if err != nil {
		return err
	}
	at, was := len(t.lines), ""
	for _, s := range t.spans() {
		if e.is(s.kind, s.name) {
			at, was = s.lines[0]-1, s.name
			for _, line := range s.lines {
				t.lines[line-1] = ""
			}
		}
	}
	if e.puts() {
		s, err := d.shape(e, t.cols.lonLat, was)
		if err != nil {
			return err
		}
		if err := t.put(at, s, e); err != nil {
			return err
		}
	}
	d.table.text = strings.Join(t.lines, "")
	return nil
}

// put puts the rows of a shape before a line.
func (t *featureText) put(at int, s newShape, e FeatureEdit) error {
	if len(s.rings) > 1 {
		return e.fault("feature-with-hole", t.File+" cannot hold an area with a hole", "draw it in plot.geojson, or as two areas")
	}
	if err := t.widen(s, e); err != nil {
		return err
	}
	newline := t.newline()
	if at == len(t.lines) && at > 0 && strings.TrimRight(t.lines[at-1], "\r\n") == t.lines[at-1] && t.lines[at-1] != "" {
		t.lines[at-1] += newline
	}
	var rows []string
	for i, k := range s.tableCorners() {
		cells := t.corner(s, k)
		if i == 0 {
			t.say(s, cells)
		}
		rows = append(rows, strings.TrimSuffix(rowText(t.Delimiter, cells), "\n")+newline)
	}
	with := slices.Insert(slices.Clone(t.lines), at, rows...)
	if now, _ := csvtable.Read(t.File, []byte(strings.Join(with, ""))); now == nil || now.Delimiter != t.Delimiter {
		t.level() // rows of unlike length hide what parts the cells
		with = slices.Insert(t.lines, at, rows...)
	}
	t.lines = with
	return nil
}

// newline is the end of the header's line.
func (t *featureText) newline() string {
	line := t.lines[t.Header.Line-1]
	if end := line[len(strings.TrimRight(line, "\r\n")):]; end != "" {
		return end
	}
	return "\n"
}

// corner are the cells of one corner.
func (t *featureText) corner(s newShape, k corner) []string {
	cells := make([]string, t.cols.count)
	comma := t.Commas == csvtable.CommaDecimal
	put := func(r role, text string) {
		if at := t.cols.of[r].at; at >= 0 {
			cells[at] = text
		}
	}
	put(kindCol, string(s.Kind))
	put(nameCol, s.Name)
	put(xCol, coordinateText(k.at[0], t.cols.lonLat, t.cols.of[xCol].unit, comma))
	put(yCol, coordinateText(k.at[1], t.cols.lonLat, t.cols.of[yCol].unit, comma))
	if !math.IsNaN(k.z) {
		put(zCol, lengthText(k.z, t.cols.of[zCol].unit, comma))
	}
	return cells
}

// say fills in what is said of a shape.
func (t *featureText) say(s newShape, cells []string) {
	for _, said := range s.sayings() {
		for _, col := range t.said {
			if col.key != said.key {
				continue
			}
			if cells[col.at] = said.text; said.number != nil {
				cells[col.at] = lengthText(said.metres, col.unit, t.Commas == csvtable.CommaDecimal)
			}
		}
	}
}
