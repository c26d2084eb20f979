package plotfolder

import (
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// featureTable reads the rows of features.csv: one corner a row, rows of one
// kind and name after another making one shape.
type featureTable struct {
	*csvtable.Table
	cols columns
	said []saidColumn
	c    *collector
	seen map[string]bool // shapes that began, by kind and name
}

// saidColumn is a column that holds a property.
type saidColumn struct {
	column
	property
}

// readFeatures reads features.csv.
func readFeatures(f *file, site geodata.Site, c *collector) []drawn {
	h := openFeatures(f, site, c)
	if h == nil {
		return nil
	}
	if len(h.Rows) > geodata.MostAllCorners { // each row is one
		over := h.Rows[geodata.MostAllCorners]
		tooManyCorners(geodata.Pos{File: h.File, Line: over.Line}, over.Text, c)
		return nil
	}
	if len(h.Rows) > 0 {
		noteUnits(geodata.Pos{File: f.name}, h.cols, bareUnit(site), c)
	}
	return h.shapes()
}

// openFeatures finds the columns of features.csv; nil when it cannot be used.
func openFeatures(f *file, site geodata.Site, c *collector) *featureTable {
	t, faults := csvtable.Read(f.name, f.data)
	if t == nil {
		c.addAll(faults)
		return nil
	}
	c.addAll(t.Notes)
	if t.Header == nil {
		c.problem(geodata.Pos{File: f.name, Line: t.Rows[0].Line}, "no-header", t.Rows[0].Text,
			"there is no header row", "write the header kind,name,x,y and the properties above the first row")
		return nil
	}
	cols, ok := columnsOf(t, []role{kindCol, nameCol, xCol, yCol}, bareUnit(site), c)
	h := &featureTable{Table: t, cols: cols, c: c, seen: map[string]bool{}}
	ok = h.sayings() && ok
	ok = h.cols.need(t, "write the header kind,name,x,y and the properties", []role{kindCol, xCol, yCol}, c) && ok
	if !ok {
		return nil
	}
	return h
}

// sayings finds the columns of properties and of z among those that columnsOf
// did not know.
func (h *featureTable) sayings() bool {
	ok := true
	for _, title := range h.cols.other {
		at := slices.IndexFunc(h.Header.Cells, func(c csvtable.Cell) bool { return c.Col == title.Cell.Col })
		col := column{at: at, title: title.Cell.Text, unit: geodata.Metre}
		unit, known := geodata.UnitNamed(title.Unit)
		p, isProperty := propertyNamed(title.Name)
		switch {
		case slices.Contains(synonyms[noteCol], title.Name) || title.Cell.Text == "":
			continue
		case title.Unit != "" && !known:
			h.c.problem(h.Pos(*h.Header, title.Cell), "unit-unknown", title.Cell.Text, fmt.Sprintf("%q is not a unit of length", title.Unit), "write m, cm, mm, ft or in")
			ok = false
			continue
		case known:
			col.unit, col.named = unit, true
		}
		switch {
		case title.Name == "z" && h.cols.of[zCol].at < 0:
			if !col.named {
				col.unit = h.cols.of[xCol].unit
			}
			h.cols.of[zCol] = col
		case isProperty && h.has(p):
			h.c.problem(h.Pos(*h.Header, title.Cell), "column-twice", title.Cell.Text, "there are two columns "+p.key, "keep one of the two")
			ok = false
		case isProperty:
			h.said = append(h.said, saidColumn{col, p})
		default:
			ok = unknownKey(title.Cell.Text, h.Pos(*h.Header, title.Cell), "column", h.c) && ok
		}
	}
	return ok
}

func (h *featureTable) has(p property) bool {
	return slices.ContainsFunc(h.said, func(s saidColumn) bool { return s.key == p.key })
}

// unknownKey refuses a name that is nearly one that is known, since what it
// says would be lost, and warns of any other.
func unknownKey(text string, pos geodata.Pos, word string, c *collector) bool {
	n, looked := c.likely[text]
	switch {
	case looked:
	case len(c.likely) == geodata.MostColumns: // each is compared with all that are known
		c.problem(pos, "too-many-names", text, fmt.Sprintf("more than %d names are not known", geodata.MostColumns), "keep what is needed")
		return false
	default:
		if c.likely == nil {
			c.likely = map[string]string{}
		}
		n = nearestProperty(text)
		c.likely[text] = n
	}
	if n != "" {
		c.problem(pos, word+"-unknown", text, "this "+word+" is not known", "write "+n)
		return false
	}
	c.warn(pos, word+"-not-read", text, "this "+word+" is not known: it was not read", "")
	return true
}

// nearestProperty is the property that is most like a text, by its whole name
// or by its name without a unit.
func nearestProperty(text string) string {
	if n := nearest(text, propertyKeys()); n != "" {
		return n
	}
	var bases []string
	for _, p := range properties() {
		bases = append(bases, p.base)
	}
	p, _ := propertyNamed(nearest(csvtable.TitleOf(csvtable.Cell{Text: text}).Name, bases))
	return p.key
}

// shapes goes through the rows.
func (h *featureTable) shapes() []drawn {
	var out []drawn
	var open *pending
	for _, r := range h.Rows {
		kind, ok := h.kind(r)
		if !ok {
			continue
		}
		name := r.Cell(h.cols.of[nameCol].at).Text
		if open == nil || open.Kind != kind || open.Name != name || isPoint(kind) {
			out = open.end(h, out)
			open = h.begin(r, kind, name)
		}
		open.add(h, r)
	}
	return open.end(h, out)
}

// kind reads the kind of a row.
func (h *featureTable) kind(r csvtable.Row) (geodata.Kind, bool) {
	if !wholeRow(h.Table, r, h.cols, []role{kindCol, xCol, yCol}, h.c) {
		return "", false
	}
	cell := r.Cell(h.cols.of[kindCol].at)
	kind, ok := kindNamed(cell.Text)
	if !ok {
		h.c.problem(h.Pos(r, cell), "kind-unknown", cell.Text, "this is not a kind of feature", didYouMean(cell.Text, kindNames()))
	}
	return kind, ok
}

func isPoint(k geodata.Kind) bool {
	return k == geodata.TreeKind || k == geodata.GateKind || k == geodata.HeapKind || k == geodata.MarkKind
}

// pending is a shape whose rows are being read.
type pending struct {
	drawn
	said   map[string]string // properties that were said, by key
	broken bool              // a row could not be read
}

// begin opens a shape. A line or area whose name was used before is refused:
// most likely its rows were sorted apart.
func (h *featureTable) begin(r csvtable.Row, kind geodata.Kind, name string) *pending {
	p := &pending{said: map[string]string{}}
	p.Kind, p.Name, p.lonLat = kind, name, h.cols.lonLat
	p.Source = geodata.Pos{File: h.File, Line: r.Line}
	id := string(kind) + "\n" + name
	if name != "" && !isPoint(kind) && h.seen[id] {
		h.c.problem(p.Source, "shape-interrupted", r.Text, p.called()+" began further up and was interrupted by other rows",
			"keep the rows of a shape together, or give each shape its own name")
	}
	h.seen[id] = true
	return p
}

// add reads one row of the shape.
func (p *pending) add(h *featureTable, r csvtable.Row) {
	x, okX := h.place(r, xCol)
	y, okY := h.place(r, yCol)
	if okX && okY && h.cols.lonLat {
		okX = checkLonLat(x, y, h.Pos(r, r.Cell(h.cols.of[xCol].at)), r.Text, "write degrees; for metres name the columns x and y", h.c)
	}
	z, okZ := math.NaN(), true
	if r.Cell(h.cols.of[zCol].at).Text != "" {
		z, okZ = lengthCell(h.Table, r, h.cols.of[zCol], h.c)
	}
	if !(okX && okY && okZ) {
		p.broken = true
		return
	}
	p.parts = append(p.parts, corner{at: [2]float64{x, y}, z: z, pos: geodata.Pos{File: h.File, Line: r.Line}})
	for _, s := range h.said {
		p.say(h, r, s)
	}
}

func (h *featureTable) place(r csvtable.Row, what role) (float64, bool) {
	if h.cols.lonLat {
		return degreesCell(h.Table, r, h.cols.of[what], h.c)
	}
	return lengthCell(h.Table, r, h.cols.of[what], h.c)
}

// say takes one property of a row. It may stand in one row of the shape, or in
// all of them alike.
func (p *pending) say(h *featureTable, r csvtable.Row, s saidColumn) {
	cell := r.Cell(s.at)
	before, said := p.said[s.key]
	switch {
	case cell.Text == "" || said && before == cell.Text:
		return
	case said:
		h.c.problem(h.Pos(r, cell), "property-contradicts", cell.Text,
			fmt.Sprintf("%s of %s was %q in an earlier row", s.key, p.called(), before), "say it in the first row of the shape only")
		return
	}
	p.said[s.key] = cell.Text
	if !s.suits(&p.drawn, h.Pos(r, cell), cell.Text, h.c) {
		return
	}
	if s.number == nil {
		s.setText(&p.Fixture, cell.Text, h.Pos(r, cell), h.c)
		return
	}
	if v, ok := lengthCell(h.Table, r, s.column, h.c); ok {
		s.setNumber(&p.Fixture, v, h.Pos(r, cell), cell.Text, h.c)
	}
}

// end closes a shape and settles what it is made of.
func (p *pending) end(h *featureTable, out []drawn) []drawn {
	if p == nil || p.broken || len(p.parts) == 0 {
		return out
	}
	rows := len(p.parts)
	p.parts = cleaned(p.parts)
	if len(p.parts) < rows {
		h.c.note(p.Source, "corner-repeated", "a corner of "+p.called()+" that only repeats the one before it was left out")
	}
	closed := cameBack(p.parts)
	corners := len(p.parts)
	if closed {
		corners--
	}
	var advice string
	if p.form, advice = formOf(p.Kind, p.What, corners, closed); advice != "" {
		h.c.problem(p.Source, "corners-do-not-suit", "", p.called()+" has the wrong number of points", advice)
		return out
	}
	return append(out, p.drawn)
}
