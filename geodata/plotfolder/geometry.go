package plotfolder

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	geom "github.com/twpayne/go-geom"
	"github.com/twpayne/go-geom/encoding/geojson"
)

// piece is one simple part of a GeoJSON geometry.
type piece struct {
	form  form
	parts []corner
	holes [][]corner
}

// geometries lists the types of GeoJSON that have coordinates (RFC 7946,
// section 3.1), with the depth of arrays around a position.
var geometries = []struct {
	name  string
	depth int
}{
	{"Point", 0},
	{"MultiPoint", 1},
	{"LineString", 1},
	{"MultiLineString", 2},
	{"Polygon", 2},
	{"MultiPolygon", 3},
}

const collection = "GeometryCollection"

func geometryDepth(name string) (int, bool) {
	for _, g := range geometries {
		if g.name == name {
			return g.depth, true
		}
	}
	return 0, false
}

// geometry reads a geometry after checking all that the decoder would pass
// over in silence: null members, positions that are too short or too long,
// heights at some corners only. The pieces of a collection come one by one.
func (d *document) geometry(n *node, degrees bool) []piece {
	if n.kind != jsonObject {
		d.problem(n, "geometry-wrong", "this is not a geometry", "give an object with type and coordinates")
		return nil
	}
	name := n.word("type")
	if name == collection {
		return d.members(n, degrees)
	}
	depth, known := geometryDepth(name)
	if !known {
		d.problem(n, "geometry-type-unknown", fmt.Sprintf("%q is not a type of geometry", name), "write Point, LineString or Polygon")
		return nil
	}
	c := n.member("coordinates")
	size := 0
	if c == nil || c.kind != jsonArray || len(c.items) == 0 {
		d.problem(n, "coordinates-missing", "the geometry has no coordinates", "give its positions, or leave the feature out")
		return nil
	}
	if !d.positions(c, depth, degrees, &size) {
		return nil
	}
	g, err := decodeGeometry([]byte(d.text[n.from:n.to]))
	if err != nil {
		d.problem(n, "geometry-wrong", "the geometry cannot be read: "+err.Error(), "export the file anew as GeoJSON")
		return nil
	}
	return pieces(g, d.pos(n.from))
}

// members reads the geometries of a collection, which may hold collections.
func (d *document) members(n *node, degrees bool) (out []piece) {
	list := n.member("geometries")
	if list == nil || list.kind != jsonArray || len(list.items) == 0 {
		d.problem(n, "geometry-wrong", "the collection has no geometries", "give its geometries, or leave the feature out")
		return nil
	}
	for _, m := range list.items {
		out = append(out, d.geometry(m, degrees)...)
	}
	return out
}

// positions checks the positions within arrays of some depth. All must have
// as many numbers as the first, which size keeps.
func (d *document) positions(n *node, depth int, degrees bool, size *int) bool {
	if n.kind != jsonArray {
		d.problem(n, "coordinates-wrong", "this is not a list of positions", "give each position as [x, y] or [x, y, height]")
		return false
	}
	if depth == 0 {
		return d.position(n, degrees, size)
	}
	ok := true
	for _, item := range n.items {
		ok = d.positions(item, depth-1, degrees, size) && ok
	}
	if len(n.items) == 0 {
		d.problem(n, "coordinates-missing", "a list of positions is empty", "give its positions")
		return false
	}
	return ok
}

// position checks one position: two numbers, or three with a height.
func (d *document) position(n *node, degrees bool, size *int) bool {
	var v [3]float64
	if len(n.items) < 2 || len(n.items) > 3 {
		d.problem(n, "position-wrong", fmt.Sprintf("a position has %d numbers", len(n.items)), "give two, or three with a height")
		return false
	}
	for i, item := range n.items {
		f, err := strconv.ParseFloat(item.text, 64)
		if item.kind != jsonNumber || err != nil || math.IsInf(f, 0) {
			d.problem(item, "position-wrong", "this is not a number of a position", "write a number, or leave the height out everywhere")
			return false
		}
		v[i] = f
	}
	if *size != 0 && *size != len(n.items) {
		d.problem(n, "heights-in-part", "some corners of this shape have a height and some have none", "give every corner a height, or none")
		return false
	}
	*size = len(n.items)
	return !degrees || checkLonLat(v[0], v[1], d.pos(n.from), d.read(n),
		`write longitude and latitude; for metres write coordinates = "local" in site.toml`, d.c)
}

// decodeGeometry turns a panic of the decoder into an error: its input is a
// stranger's file. A nil geometry is an error too.
func decodeGeometry(data []byte) (g geom.T, err error) {
	defer func() {
		if r := recover(); r != nil {
			g, err = nil, fmt.Errorf("the decoder stopped: %v", r)
		}
	}()
	if err = geojson.Unmarshal(data, &g); err == nil && g == nil {
		err = fmt.Errorf("it is empty")
	}
	return g, err
}

// pieces takes a geometry apart into points, lines and areas.
func pieces(g geom.T, pos geodata.Pos) (out []piece) {
	one := func(f form, coords []geom.Coord) piece { return piece{form: f, parts: corners(coords, pos)} }
	switch g := g.(type) {
	case *geom.Point:
		return []piece{one(pointForm, []geom.Coord{g.Coords()})}
	case *geom.MultiPoint:
		for _, p := range g.Coords() {
			out = append(out, one(pointForm, []geom.Coord{p}))
		}
	case *geom.LineString:
		return []piece{one(lineForm, g.Coords())}
	case *geom.MultiLineString:
		for _, l := range g.Coords() {
			out = append(out, one(lineForm, l))
		}
	case *geom.Polygon:
		return []piece{area(g.Coords(), pos)}
	case *geom.MultiPolygon:
		for _, p := range g.Coords() {
			out = append(out, area(p, pos))
		}
	}
	return out
}

func area(rings [][]geom.Coord, pos geodata.Pos) piece {
	p := piece{form: areaForm, parts: cleaned(corners(rings[0], pos))}
	for _, hole := range rings[1:] {
		p.holes = append(p.holes, cleaned(corners(hole, pos)))
	}
	return p
}

func corners(coords []geom.Coord, pos geodata.Pos) []corner {
	out := make([]corner, len(coords))
	for i, c := range coords {
		out[i] = corner{at: orb.Point{c[0], c[1]}, z: math.NaN(), pos: pos}
		if len(c) > 2 {
			out[i].z = c[2]
		}
	}
	return out
}

// features lists the features of a document: of a collection, a lone one, or
// a bare geometry, which then stands for a feature without properties.
func (d *document) features() []*node {
	switch kind := d.root.word("type"); {
	case d.root.kind != jsonObject:
		d.problem(d.root, "not-geojson", "the file holds no features", "export it as a GeoJSON FeatureCollection")
		return nil
	case kind == "Feature":
		return []*node{d.root}
	case kind == "FeatureCollection":
		return d.listed()
	case kind == collection || slices.ContainsFunc(geometryNames(), func(s string) bool { return s == kind }):
		return []*node{{kind: jsonObject, keys: []string{"type", "geometry"}, items: []*node{{kind: jsonString, text: "Feature"}, d.root}, from: d.root.from, to: d.root.to}}
	default:
		d.problem(d.root, "not-geojson", fmt.Sprintf("%q is not a type of GeoJSON file", kind), "export it as a FeatureCollection")
		return nil
	}
}

func geometryNames() []string {
	var names []string
	for _, g := range geometries {
		names = append(names, g.name)
	}
	return names
}

func (d *document) listed() (out []*node) {
	list := d.root.member("features")
	if list == nil || list.kind != jsonArray {
		d.problem(d.root, "not-geojson", "the collection has no list of features", "export it as a FeatureCollection")
		return nil
	}
	if len(list.items) == 0 {
		d.problem(d.root, "no-features", "the list of features is empty", "draw a feature, or take the file away")
		return nil
	}
	for _, f := range list.items {
		if f.kind != jsonObject || f.word("type") != "Feature" {
			d.problem(f, "not-a-feature", "this member of the list is not a feature", `give an object with "type": "Feature"`)
			continue
		}
		out = append(out, f)
	}
	return out
}
