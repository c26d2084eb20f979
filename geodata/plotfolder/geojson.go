package plotfolder

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// readGeoJSON reads plot.geojson.
func readGeoJSON(f *file, site geodata.Site, c *collector) (out []drawn) {
	d, ok := parseJSON(f, c)
	if !ok {
		return nil
	}
	degrees, epsg, ok := d.system(site)
	if !ok {
		return nil
	}
	for _, n := range d.features() {
		out = append(out, d.feature(n, degrees)...)
	}
	for i := range out {
		out[i].epsg = epsg
	}
	return out
}

// feature reads one feature; each piece of a geometry of several makes a shape.
func (d *document) feature(n *node, degrees bool) (out []drawn) {
	properties := n.member("properties")
	kindNode := properties.member("kind")
	kind, known := geodata.Kind(""), false
	if kindNode != nil {
		kind, known = kindNamed(kindNode.text)
	}
	geometry := n.member("geometry")
	switch {
	case kindNode == nil || kindNode.kind != jsonString:
		d.problem(n, "kind-missing", "the feature has no kind", `give it a property "kind": one of `+strings.Join(kindNames(), ", "))
		return nil
	case !known:
		d.c.problem(d.pos(kindNode.from), "kind-unknown", kindNode.text, "this is not a kind of feature", didYouMean(kindNode.text, kindNames()))
		return nil
	case geometry == nil || geometry.kind == jsonNull:
		d.c.warn(d.pos(n.from), "no-geometry", d.read(n), "the feature has no place: it was not taken", "draw it, or take it out")
		return nil
	}
	said := drawn{lonLat: degrees}
	said.Kind, said.Name, said.Source = kind, nameText(properties.member("name")), d.pos(n.from)
	d.properties(properties, &said)
	for _, p := range d.geometry(geometry, degrees) {
		shape := said
		shape.parts, shape.holes = cleaned(p.parts), p.holes
		if d.suits(&shape, p.form, n) {
			out = append(out, shape)
		}
	}
	return out
}

// nameText is a name given as text or as a number.
func nameText(n *node) string {
	if n == nil || n.kind != jsonString && n.kind != jsonNumber {
		return ""
	}
	return strings.TrimSpace(n.text)
}

// suits settles what a piece is drawn as. A line that comes back to its first
// point may stand for an area; otherwise the kind must be drawn as what it is.
func (d *document) suits(s *drawn, drawnAs form, n *node) bool {
	closed := cameBack(s.parts)
	corners := len(s.parts)
	if closed {
		corners--
	}
	wanted, advice := formOf(s.Kind, s.What, corners, closed)
	switch {
	case advice != "":
	case s.Kind == geodata.ObstacleKind || s.Kind == geodata.ServiceKind || s.Kind == geodata.PathKind:
		s.form = drawnAs
		if drawnAs == pointForm && s.Kind == geodata.PathKind {
			advice = "draw a line or an area"
		}
		if drawnAs == lineForm && corners < 2 {
			advice = "give two points or more along it"
		}
	case wanted == drawnAs || wanted == areaForm && drawnAs == lineForm && closed:
		s.form = wanted
	default:
		advice = "draw it as " + formWord(wanted)
	}
	if advice != "" {
		d.problem(n, "corners-do-not-suit", s.called()+" is not drawn as it should be", advice)
		return false
	}
	return true
}

func formWord(f form) string {
	return [...]string{pointForm: "a point", lineForm: "a line", areaForm: "an area"}[f]
}

// plainKeys are properties that drawing programs write and that say nothing
// about the ground.
var plainKeys = []string{"kind", "name", "id", "fid", "note", "description", "remark"}

// properties takes what is said of a feature.
func (d *document) properties(n *node, s *drawn) {
	if n == nil || n.kind != jsonObject {
		return
	}
	for i, key := range n.keys {
		item := n.items[i]
		title := csvtable.TitleOf(csvtable.Cell{Text: key})
		p, known := propertyNamed(title.Name)
		switch {
		case slices.Contains(plainKeys, strings.ToLower(key)) || item.kind == jsonNull || item.kind == jsonString && strings.TrimSpace(item.text) == "":
		case !known:
			unknownKey(key, d.pos(n.keysAt[i]), "property", d.c)
		case p.suits(s, d.pos(item.from), d.read(item), d.c):
			d.property(p, title, item, s)
		}
	}
}

// property sets one property from its JSON value.
func (d *document) property(p property, title csvtable.Title, n *node, s *drawn) {
	switch {
	case n.kind == jsonArray || n.kind == jsonObject:
		d.problem(n, "property-wrong", p.key+" holds a list", "give one value")
	case p.number != nil && !lengthUnit(title.Unit):
		d.problem(n, "unit-unknown", fmt.Sprintf("%q is not a unit of length", title.Unit), "write "+p.key)
	case p.number != nil:
		metres, err := jsonLength(n, title.Unit)
		if err != nil {
			d.problem(n, "not-a-number", p.key+" "+err.Error(), "")
			return
		}
		p.setNumber(&s.Fixture, metres, d.pos(n.from), d.read(n), d.c)
	default:
		p.setText(&s.Fixture, strings.TrimSpace(n.text), d.pos(n.from), d.c)
	}
}

// lengthUnit tells whether a key names a unit of length, or none.
func lengthUnit(unit string) bool {
	_, known := geodata.UnitNamed(unit)
	return known || unit == ""
}

// jsonLength reads a length: a number in the unit of its key, or text.
func jsonLength(n *node, unit string) (float64, error) {
	bare, known := geodata.UnitNamed(unit)
	if !known {
		bare = geodata.Metre
	}
	if n.kind == jsonNumber {
		v, err := strconv.ParseFloat(n.text, 64)
		if err != nil || math.IsInf(v, 0) {
			return 0, fmt.Errorf("is not a number; write a number, such as 1.25")
		}
		return v * float64(bare), nil
	}
	metres, err := geodata.ParseLength(n.text, bare)
	if e, ok := err.(*geodata.LengthError); ok {
		return 0, fmt.Errorf("%s; %s", e.Problem, e.Want)
	}
	return metres, err
}
