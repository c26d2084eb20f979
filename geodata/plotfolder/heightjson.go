package plotfolder

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// sniffJSON tells whether the bytes can be JSON.
func sniffJSON(data []byte) bool {
	t := bytes.TrimSpace(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")))
	return len(t) > 0 && t[0] == '{' || bytes.HasPrefix(data, []byte{0xff, 0xfe, '{', 0}) || bytes.HasPrefix(data, []byte{0xfe, 0xff, 0, '{'})
}

// readHeightsJSON reads heights.geojson: points whose third number, or else
// whose property z or another word for a height, is the height.
func readHeightsJSON(f *file, s settings, c *collector) survey {
	out := survey{file: f.name, lonLat: !isLocal(s.site)}
	d, ok := parseJSON(f, c)
	if !ok {
		return out
	}
	if out.lonLat, out.epsg, ok = d.system(s.site); !ok {
		return out
	}
	for i, n := range d.features() {
		out.spots = append(out.spots, d.spots(n, out.lonLat, fmt.Sprintf("feature %d", i+1))...)
	}
	checkAllEqual(out, c)
	return out
}

func allEqual(spots []geodata.SpotHeight) bool {
	return !slices.ContainsFunc(spots, func(s geodata.SpotHeight) bool { return s.Height != spots[0].Height })
}

// spots reads the heights of one feature.
func (d *document) spots(n *node, degrees bool, name string) (out []geodata.SpotHeight) {
	g := n.member("geometry")
	if g == nil || g.kind == jsonNull {
		d.c.warn(d.pos(n.from), "no-geometry", d.read(n), "the feature has no place: it was not taken", "")
		return nil
	}
	spot := geodata.SpotHeight{Name: name, Readings: 1, Source: d.pos(n.from)}
	properties := n.member("properties")
	z, given, ok := d.height(properties)
	ok = d.remarks(properties, &spot) && ok
	for _, p := range d.geometry(g, degrees) {
		if p.form != pointForm {
			d.problem(g, "height-not-a-point", "a height is not a point", "give each height as a Point")
			return nil
		}
		spot.At, spot.Height = p.parts[0].at, p.parts[0].z
		switch {
		case !ok:
			return nil
		case math.IsNaN(spot.Height) && !given:
			d.problem(n, "number-missing", "the point has no height", "give it as the third number or as a property z")
			return nil
		case math.IsNaN(spot.Height):
			spot.Height = z
		}
		if !checkHeight(spot.Height, d.pos(g.from), d.read(g), d.c) {
			return nil
		}
		out = append(out, spot)
	}
	return out
}

// height finds the height among the properties of a feature.
func (d *document) height(properties *node) (z float64, given, ok bool) {
	if properties == nil {
		return 0, false, true
	}
	for i, key := range properties.keys {
		title, item := csvtable.TitleOf(csvtable.Cell{Text: key}), properties.items[i]
		if !slices.Contains(synonyms[zCol], title.Name) || item.kind == jsonNull {
			continue
		}
		z, err := jsonLength(item, title.Unit)
		if err != nil {
			d.problem(item, "not-a-number", key+" "+err.Error(), "")
			return 0, true, false
		}
		return z, true, true
	}
	return 0, false, true
}

// remarks takes name, note, side and precision of a height.
func (d *document) remarks(properties *node, spot *geodata.SpotHeight) bool {
	if properties == nil {
		return true
	}
	for i, key := range properties.keys {
		title, item := csvtable.TitleOf(csvtable.Cell{Text: key}), properties.items[i]
		text := nameText(item)
		switch r, _ := roleOf(title.Name, []role{xCol, nameCol, noteCol, sideCol, sigmaCol}); {
		case text == "":
		case r == nameCol && slices.Contains(synonyms[nameCol], title.Name):
			spot.Name = text
		case r == noteCol:
			spot.Note = text
		case r == sideCol:
			if spot.Side = sideOf(text); spot.Side == geodata.NoSide {
				d.problem(item, "side-unknown", "this is no side of a break line", "write top or toe")
				return false
			}
		case r == sigmaCol:
			v, err := jsonLength(item, title.Unit)
			if err != nil || v < leastSigma || v > mostSigma {
				d.problem(item, "precision-out-of-range", "this is no precision of a reading", "write one standard deviation from 0.1 mm to 1 m, such as precision_mm: 12")
				return false
			}
			spot.Sigma = v
		}
	}
	if spot.Side == geodata.NoSide {
		spot.Side = sideOf(strings.TrimSpace(spot.Note))
	}
	return true
}
