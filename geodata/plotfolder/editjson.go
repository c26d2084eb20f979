package plotfolder

import (
	"bytes"
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// document reads plot.geojson as it is being changed; the error is
// geodata.Faults.
func (d *desk) document() (doc *document, degrees bool, err error) {
	var c collector
	doc, ok := parseJSON(&file{name: d.json.name, data: []byte(d.json.text)}, &c)
	if !ok {
		return nil, false, c.err()
	}
	if degrees, _, ok = doc.system(d.site); !ok {
		return nil, false, c.err()
	}
	return doc, degrees, nil
}

// drawnNodes are the features of a document: of a collection, or a lone one.
func (d *document) drawnNodes() []*node {
	if d.root.word("type") == "Feature" {
		return []*node{d.root}
	}
	if list := d.root.member("features"); list != nil && list.kind == jsonArray {
		return list.items
	}
	return nil
}

// meant tells whether a feature is the one that a change is for.
func (e FeatureEdit) meant(n *node) bool {
	properties := n.member("properties")
	kind, known := kindNamed(properties.word("kind"))
	return known && e.is(kind, nameText(properties.member("name")))
}

// countInJSON counts the features in plot.geojson that are meant.
func (d *desk) countInJSON(e FeatureEdit) (n int, err error) {
	if d.json == nil || d.json.empty {
		return 0, nil
	}
	doc, _, err := d.document()
	if err != nil {
		return 0, err
	}
	for _, f := range doc.drawnNodes() {
		if e.meant(f) {
			n++
		}
	}
	return n, nil
}

// editJSON makes one change in plot.geojson.
func (d *desk) editJSON(e FeatureEdit) error {
	doc, degrees, err := d.document()
	if err != nil {
		return err
	}
	nodes := doc.drawnNodes()
	i := slices.IndexFunc(nodes, e.meant)
	if !e.puts() {
		d.cutFeature(doc, nodes, i)
		return nil
	}
	was := ""
	if i >= 0 {
		was = nameText(nodes[i].member("properties").member("name"))
	}
	s, err := d.shape(e, degrees, was)
	if err != nil {
		return err
	}
	if any, all := s.hasHeights(); any && !all {
		return e.fault("heights-in-part", "some corners of this shape have a height and some have none", "give every corner a height, or none")
	}
	list := doc.root.member("features")
	switch {
	case i >= 0:
		d.json.text = doc.text[:nodes[i].from] + doc.featureText(nodes[i], s, degrees) + doc.text[nodes[i].to:]
	case list == nil || list.kind != jsonArray:
		return e.fault("not-a-collection", d.json.name+" holds one feature alone", "make it a FeatureCollection, or draw in features.csv")
	case len(list.items) == 0:
		d.json.text = doc.text[:list.from] + "[\n" + doc.featureText(nil, s, degrees) + "\n]" + doc.text[list.to:]
	default: // parted from the one before as that is from the bracket
		first, last := list.items[0], list.items[len(list.items)-1]
		d.json.text = doc.text[:last.to] + "," + doc.text[list.from+1:first.from] + doc.featureText(nil, s, degrees) + doc.text[last.to:]
	}
	d.json.empty = false
	return nil
}

// cutFeature cuts a feature with the comma that parts it from its neighbour.
func (d *desk) cutFeature(doc *document, nodes []*node, i int) {
	from, to := nodes[i].from, nodes[i].to
	switch {
	case len(nodes) == 1:
		d.json.empty = true
		if nodes[0] == doc.root {
			return
		}
	case i+1 < len(nodes):
		to = nodes[i+1].from
	default:
		from = nodes[i-1].to
	}
	d.json.text = doc.text[:from] + doc.text[to:]
}

// member is one member of a JSON object as text.
type member struct{ key, value string }

func objectText(members []member) string {
	var b strings.Builder
	for i, m := range members {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(jsonText(m.key) + ": " + m.value)
	}
	return "{" + b.String() + "}"
}

// jsonText is a text as JSON.
func jsonText(text string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(text); err != nil { // a text always can
		return `""`
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// featureText is a shape as a feature. Of the feature that it takes the place of it
// keeps the members that are not read, but for bbox, which would be wrong now.
func (d *document) featureText(old *node, s newShape, degrees bool) string {
	said, geometry := d.propertiesText(old.member("properties"), s), geometryText(s, degrees)
	members := []member{{"type", `"Feature"`}, {"properties", said}, {"geometry", geometry}}
	if old != nil {
		members = nil
		for i, key := range old.keys {
			switch key {
			case "bbox":
			case "properties":
				members = append(members, member{key, said})
			case "geometry":
				members = append(members, member{key, geometry})
			default:
				members = append(members, member{key, d.text[old.items[i].from:old.items[i].to]})
			}
		}
		if old.member("geometry") == nil {
			members = append(members, member{"geometry", geometry})
		}
	}
	return objectText(members)
}

// propertiesText is what is said of a shape, and what the properties that it takes
// the place of say and is not read.
func (d *document) propertiesText(old *node, s newShape) string {
	said := map[string]string{"kind": jsonText(string(s.Kind)), "name": jsonText(s.Name)}
	order := []string{"kind", "name"}
	for _, p := range s.sayings() {
		order = append(order, p.key)
		switch {
		case p.number != nil:
			said[p.key] = lengthText(p.metres, geodata.Metre, false)
		case p.flag != nil:
			said[p.key] = p.text
		default:
			said[p.key] = jsonText(p.text)
		}
	}
	var members []member
	if old != nil && old.kind == jsonObject {
		for i, key := range old.keys {
			_, known := propertyNamed(csvtable.TitleOf(csvtable.Cell{Text: key}).Name)
			value, is := said[key]
			switch {
			case is:
				members = append(members, member{key, value})
				order = slices.DeleteFunc(order, func(k string) bool { return k == key })
			case key == "kind" || key == "name" || known:
			default:
				members = append(members, member{key, d.text[old.items[i].from:old.items[i].to]})
			}
		}
	}
	for _, key := range order {
		members = append(members, member{key, said[key]})
	}
	return objectText(members)
}

// geometryText is the geometry of a shape.
func geometryText(s newShape, degrees bool) string {
	var rings []string
	for _, ring := range s.rings {
		var positions []string
		for _, k := range ring {
			text := coordinateText(k.at[0], degrees, geodata.Metre, false) + ", " + coordinateText(k.at[1], degrees, geodata.Metre, false)
			if any, _ := s.hasHeights(); any {
				text += ", " + strconv.FormatFloat(k.z, 'f', -1, 64)
			}
			positions = append(positions, "["+text+"]")
		}
		rings = append(rings, strings.Join(positions, ", "))
	}
	form, coordinates := "Point", rings[0]
	switch s.form {
	case lineForm:
		form, coordinates = "LineString", "["+rings[0]+"]"
	case areaForm:
		form, coordinates = "Polygon", "[["+strings.Join(rings, "], [")+"]]"
	}
	return objectText([]member{{"type", jsonText(form)}, {"coordinates", coordinates}})
}
