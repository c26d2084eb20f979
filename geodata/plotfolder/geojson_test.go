package plotfolder_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const inMetres = "coordinates = \"local\"\n"

// feature is a feature with a geometry and properties, all as JSON.
func feature(geometry, properties string) string {
	return fmt.Sprintf(`{"type":"Feature","geometry":%s,"properties":%s}`, geometry, properties)
}

func collection(features ...string) string {
	text := `{"type":"FeatureCollection","features":[`
	for i, f := range features {
		if i > 0 {
			text += ","
		}
		text += "\n" + f
	}
	return text + "\n]}"
}

// placed tells problems as "code at what was read", having checked that this
// stands in the text at the line and column of the fault; a fault without it,
// or without a line, is told with its place.
func placed(t *testing.T, text string, fs geodata.Faults) (out []string) {
	t.Helper()
	lines := strings.Split(strings.TrimPrefix(text, "\xef\xbb\xbf"), "\n")
	for _, f := range fs {
		read := strings.TrimSuffix(f.Read, "...")
		if read == "" || f.Pos.Line == 0 {
			out = append(out, short(geodata.Faults{f})...)
			continue
		}
		there := string([]rune(lines[f.Pos.Line-1])[f.Pos.Col-1:])
		assert.True(t, strings.HasPrefix(strings.TrimPrefix(there, `"`), strings.TrimPrefix(read, `"`)), "%q does not stand at %s, where %q is", read, f.Pos, there)
		out = append(out, f.Code+" at "+f.Read)
	}
	return out
}

func point(x, y float64) string {
	return fmt.Sprintf(`{"type":"Point","coordinates":[%.10g,%.10g]}`, x, y)
}

func TestEveryKindOfGeoJSON(t *testing.T) {
	text := "\xef\xbb\xbf" + collection(
		feature(`{"type":"Polygon","coordinates":[[[-1,-1],[-1,21],[21,21],[21,-1],[-1,-1]],[[2,2],[3,2],[3,3],[2,2]]]}`, `{"kind":"boundary","name":"plot","fid":7}`),
		feature(`{"type":"MultiPolygon","coordinates":[[[[4,4],[5,4],[5,5],[4,4]]],[[[6,6],[7,6],[7,7],[6,6]]]]}`, `{"kind":"no-go"}`),
		feature(`{"type":"LineString","coordinates":[[0,20],[20,20]]}`, `{"kind":"obstacle","what":"hedge","height_m":1.8,"name":null}`),
		feature(`{"type":"Point","coordinates":[5,18,29.7]}`, `{"kind":"tree","stem diameter (cm)":22,"evergreen":true,"height (ft)":"20'"}`),
		feature(`{"type":"MultiLineString","coordinates":[[[0,10],[20,10]],[[0,12],[20,12]]]}`, `{"kind":"service","carries":"gas","overhead":false,"depth_m":0.6}`),
		feature(`{"type":"LineString","coordinates":[[2,8,29.5],[8,8,29.6]]}`, `{"kind":"break_line"}`),
		feature(`{"type":"GeometryCollection","geometries":[{"type":"MultiPoint","coordinates":[[1,1],[2,1]]},{"type":"GeometryCollection","geometries":[{"type":"Point","coordinates":[3,1]}]}]}`, `{"kind":"gate"}`),
		feature(`{"type":"LineString","coordinates":[[12,5],[15.6,5],[15.6,6.2],[12,6.2],[12,5]]}`, `{"kind":"bed","name":1,"pinned":1}`),
		feature(point(0, 0), `{"kind":"mark","name":"A","type":"Polygon"}`),
		feature(`{"type":"LineString","coordinates":[[10,-1],[10,21]]}`, `{"kind":"path"}`),
	)
	require.True(t, json.Valid([]byte(text)[3:]))
	p := plot(t, files{"heights.csv": sound, "plot.geojson": text, "site.toml": inMetres})
	require.Len(t, p.Boundary, 2)
	assert.InDelta(t, 484, geodata.SignedArea(p.Boundary[0]), 1e-9, "counterclockwise")
	assert.InDelta(t, -0.5, geodata.SignedArea(p.Boundary[1]), 1e-9, "its hole clockwise")
	count := map[geodata.Kind]int{}
	for _, f := range p.Fixtures {
		count[f.Kind]++
	}
	assert.Equal(t, map[geodata.Kind]int{"no-go": 2, "obstacle": 1, "tree": 1, "service": 2, "break-line": 1, "gate": 3, "bed": 1, "mark": 1, "path": 1}, count)
	tree := p.OfKind(geodata.TreeKind)[0]
	assert.Equal(t, []float64{29.7}, tree.Heights)
	assert.InDelta(t, 0.22, tree.StemDiameter, 1e-12)
	assert.InDelta(t, 6.096, tree.TopHeight, 1e-12)
	assert.True(t, tree.Evergreen)
	assert.Equal(t, []float64{29.5, 29.6}, p.OfKind(geodata.BreakLineKind)[0].Heights, "heights are kept")
	bed := p.OfKind(geodata.BedKind)[0]
	assert.Equal(t, "1", bed.Name)
	assert.True(t, bed.Pinned)
	assert.IsType(t, orb.Polygon{}, bed.Shape, "a line that comes back is an area")
	assert.Equal(t, 5, tree.Source.Line)
	assert.Equal(t, []string{"property-not-read"}, codes(p.Notes, geodata.Warning), "of the property called type")
	assert.False(t, p.Frame.Geographic)
}

func TestGeoJSONFaults(t *testing.T) {
	square := `{"type":"Polygon","coordinates":[[[0,0],[20,0],[20,20],[0,20],[0,0]]]}`
	kind := func(k string) string { return fmt.Sprintf(`{"kind":%q}`, k) }
	for _, c := range []struct {
		name, text string
		want       []string
		advice     string
	}{
		{"empty", " \n", []string{"empty-file at plot.geojson:1:2: "}, "GeoJSON"},
		{"null", "null", []string{"not-geojson at null"}, "FeatureCollection"},
		{"a list", "[1,2]", []string{"not-geojson at [1,2]"}, "FeatureCollection"},
		{"cut off", "{\"type\":\"FeatureCollection\",\n\"features\":[", []string{"not-json at plot.geojson:2:12: "}, "export the file anew"},
		{"comma too many", "{\"type\":\"Feature\",\n\n  }", []string{"not-json at plot.geojson:3:3: "}, "export the file anew"},
		{"another type", `{"type":"Topology"}`, []string{`not-geojson at {"type":"Topology"}`}, "FeatureCollection"},
		{"no features", `{"type":"FeatureCollection","features":[]}`, []string{`no-features at {"type":"FeatureCollection","features":[]}`}, "draw a feature"},
		{"no list", `{"type":"FeatureCollection"}`, []string{`not-geojson at {"type":"FeatureCollection"}`}, "FeatureCollection"},
		{"not features", collection("null", "7"), []string{"not-a-feature at null", "not-a-feature at 7"}, "Feature"},
		{"key twice", `{"type":"Feature","type":"Feature"}`, []string{"key-twice at type"}, "keep one"},
		{"no kind", collection(feature(square, `{}`)), []string{`kind-missing at {"type":"Feature","geometry":{"type":"Polygon","coordinates"...`}, "boundary, no-go"},
		{"properties null", collection(feature(point(1, 1), `null`)), []string{`kind-missing at {"type":"Feature","geometry":{"type":"Point","coordinates":[...`}, "boundary, no-go"},
		{"unknown kind", collection(feature(point(1, 1), kind("tre"))), []string{"kind-unknown at tre"}, "write tree"},
		{"unknown property", collection(feature(point(1, 1), `{"kind":"tree","stem_diametre_m":0.2}`)), []string{"property-unknown at stem_diametre_m"}, "write stem_diameter_m"},
		{"unit of a property", collection(feature(point(1, 1), `{"kind":"tree","height (furlong)":0.2}`)), []string{"unit-unknown at 0.2"}, "write height_m"},
		{"property of text", collection(feature(point(1, 1), `{"kind":"tree","height_m":"tall"}`)), []string{`not-a-number at "tall"`}, ""},
		{"property too large", collection(feature(point(1, 1), `{"kind":"tree","height_m":1e999}`)), []string{`not-a-number at 1e999`}, ""},
		{"property out of range", collection(feature(point(1, 1), `{"kind":"tree","height_m":-3}`)), []string{`property-out-of-range at -3`}, "from 0.05 to 60"},
		{"property of a list", collection(feature(point(1, 1), `{"kind":"tree","height_m":[3]}`)), []string{`property-wrong at [3]`}, "one value"},
		{"one number", collection(feature(`{"type":"Point","coordinates":[1]}`, kind("mark"))), []string{"position-wrong at [1]"}, "two, or three with a height"},
		{"five numbers", collection(feature(`{"type":"Point","coordinates":[1,2,3,4,5]}`, kind("mark"))), []string{"position-wrong at [1,2,3,4,5]"}, "two, or three with a height"},
		{"null height", collection(feature(`{"type":"Point","coordinates":[1,2,null]}`, kind("mark"))), []string{"position-wrong at null"}, "leave the height out"},
		{"text", collection(feature(`{"type":"Point","coordinates":["1",2]}`, kind("mark"))), []string{`position-wrong at "1"`}, "write a number"},
		{"too large", collection(feature(`{"type":"Point","coordinates":[1e999,2]}`, kind("mark"))), []string{`position-wrong at 1e999`}, "write a number"},
		{"heights in part", collection(feature(`{"type":"LineString","coordinates":[[1,2,3],[3,4]]}`, kind("path"))), []string{"heights-in-part at [3,4]"}, "every corner a height"},
		{"nothing in it", collection(feature(`{"type":"Polygon","coordinates":[[]]}`, kind("no-go"))), []string{"coordinates-missing at []"}, "positions"},
		{"null coordinates", collection(feature(`{"type":"Point","coordinates":null}`, kind("mark"))), []string{`coordinates-missing at {"type":"Point","coordinates":null}`}, "positions"},
		{"null in a collection", collection(feature(`{"type":"GeometryCollection","geometries":[null]}`, kind("mark"))), []string{"geometry-wrong at null"}, "type and coordinates"},
		{"empty collection", collection(feature(`{"type":"GeometryCollection","geometries":[]}`, kind("mark"))), []string{`geometry-wrong at {"type":"GeometryCollection","geometries":[]}`}, "geometries"},
		{"unknown geometry", collection(feature(`{"type":"Circle","coordinates":[1,2]}`, kind("mark"))), []string{`geometry-type-unknown at {"type":"Circle","coordinates":[1,2]}`}, "Point, LineString or Polygon"},
		{"line of one point", collection(feature(`{"type":"LineString","coordinates":[[1,2]]}`, kind("path"))), []string{`corners-do-not-suit at {"type":"Feature","geometry":{"type":"LineString","coordinat...`}, "two points or more"},
		{"point for an area", collection(feature(point(1, 2), kind("bed"))), []string{`corners-do-not-suit at {"type":"Feature","geometry":{"type":"Point","coordinates":[...`}, "an area"},
		{"area for a point", collection(feature(square, kind("gate"))), []string{`corners-do-not-suit at {"type":"Feature","geometry":{"type":"Polygon","coordinates"...`}, "one point"},
		{"bow tie", collection(feature(`{"type":"Polygon","coordinates":[[[0,0],[20,20],[20,0],[0,20],[0,0]]]}`, kind("boundary"))), []string{"boundary-crosses-itself at plot.geojson:2:30: "}, "one after the other"},
		{"two boundaries", collection(feature(square, kind("boundary")), feature(square, kind("boundary"))), []string{"two-boundaries at plot.geojson:3:1: "}, "keep one"},
		{"hole outside", collection(feature(`{"type":"Polygon","coordinates":[[[0,0],[20,0],[20,20],[0,0]],[[30,30],[31,30],[31,31],[30,30]]]}`, kind("boundary"))), []string{"boundary-hole at plot.geojson:2:30: "}, "wholly inside"},
		{"hole over the edge", collection(feature(`{"type":"Polygon","coordinates":[[[0,0],[20,0],[20,20],[0,0]],[[15,2],[25,2],[15,8],[15,2]]]}`, kind("boundary"))), []string{"boundary-hole at plot.geojson:2:30: "}, "wholly inside"},
		{"holes that meet", collection(feature(`{"type":"Polygon","coordinates":[[[0,0],[20,0],[20,20],[0,0]],[[15,2],[18,2],[15,8],[15,2]],[[16,3],[17,3],[16,4],[16,3]]]}`, kind("boundary"))), []string{"boundary-hole at plot.geojson:2:30: "}, "wholly inside"},
		{"nested too deeply", strings.Repeat("[", 50) + strings.Repeat("]", 50), []string{"json-too-deep at plot.geojson:1:42: "}, "plain GeoJSON"},
		{"bed that leans", collection(feature(`{"type":"Polygon","coordinates":[[[0,0],[4,0],[5,1.2],[1,1.2],[0,0]]]}`, kind("bed"))), []string{"bed-not-rectangle at plot.geojson:2:1: "}, "rectangle"},
		{"longitude and latitude said", `{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:OGC:1.3:CRS84"}},"features":[]}`, []string{`crs-contradicts at {"type":"name","properties":{"name":"urn:ogc:def:crs:OGC:1.3...`}, "lonlat"},
	} {
		t.Run(c.name, func(t *testing.T) {
			fs := faults(t, files{"heights.csv": sound, "plot.geojson": c.text, "site.toml": inMetres})
			assert.Equal(t, c.want, placed(t, c.text, fs))
			assert.Contains(t, fs[0].Want, c.advice)
		})
	}
}

func TestGeoJSONToldAndTaken(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "site.toml": inMetres, "plot.geojson": collection(
		feature("null", `{"kind":"mark"}`),
		feature(`{"type":"Polygon","coordinates":[[[0,0],[20,0],[20,20],[0,20]]]}`, `{"kind":"boundary"}`),
		feature(point(3, 3), `{"kind":"tree","colour":"red","evergreen":"","pinned":true}`),
	)})
	assert.Equal(t, []string{"no-geometry", "property-not-of-kind", "property-not-read"}, sortedWarnings(p))
	assert.Len(t, p.Boundary[0], 5, "an open ring is closed")
	assert.Len(t, p.Fixtures, 1)

	p = plot(t, files{"heights.csv": sound, "site.toml": inMetres, "plot.geojson": feature(point(3, 3), `{"kind":"mark"}`)})
	assert.Len(t, p.Fixtures, 1, "a lone feature")
	p = plot(t, files{"heights.csv": sound, "site.toml": inMetres, "plot.geojson": `{"type":"FeatureCollection","crs":{"type":"EPSG","properties":{"code":27700}},"features":[` + feature(point(3, 3), `{"kind":"mark"}`) + `]}`})
	assert.Len(t, p.Fixtures, 1, "a national grid in metres beside local = metres")
}

func sortedWarnings(p *geodata.Plot) []string {
	out := codes(p.Notes, geodata.Warning)
	for i := range out {
		for j := i; j > 0 && out[j] < out[j-1]; j-- {
			out[j], out[j-1] = out[j-1], out[j]
		}
	}
	return out
}

func TestCoordinateSystems(t *testing.T) {
	heights := "name,lon,lat,z\na,-3.5,50.7,29\nb,-3.4997,50.7,29\nc,-3.4997,50.7002,30\nd,-3.5,50.7002,30\n"
	with := func(crs string) string {
		return `{"type":"FeatureCollection","crs":` + crs + `,"features":[` + feature(point(-3.4999, 50.7001), `{"kind":"mark"}`) + `]}`
	}
	for _, crs := range []string{"null", `{"type":"name","properties":{"name":"urn:ogc:def:crs:OGC:1.3:CRS84"}}`, `{"type":"name","properties":{"name":"EPSG:4326"}}`, `{"type":"EPSG","properties":{"code":4326}}`} {
		p := plot(t, files{"heights.csv": heights, "plot.geojson": with(crs)})
		at := p.Fixtures[0].Shape.(orb.Point)
		assert.Less(t, math.Hypot(at[0], at[1]), 15.0, "near the middle: %s", crs)
	}
	for crs, code := range map[string]string{
		`{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::27700"}}`: "frames-not-joined", // metres beside degrees
		`{"type":"EPSG","properties":{"code":32630}}`:                         "frames-not-joined",
		`{"type":"EPSG","properties":{"code":3857}}`:                          "crs-not-read",
		`{"type":"link","properties":{"href":"x"}}`:                           "crs-not-read",
	} {
		fs := faults(t, files{"heights.csv": heights, "plot.geojson": with(crs)})
		assert.Equal(t, []string{code}, codes(fs, geodata.Problem), crs)
		if code == "crs-not-read" {
			assert.Contains(t, fs[0].Want, "EPSG:4326")
			assert.Contains(t, fs[0].Want, `coordinates = "local"`)
		}
	}
	p := plot(t, files{"heights.csv": heights, "plot.geojson": collection(feature(
		`{"type":"Polygon","coordinates":[[[-3.5001,50.6999],[-3.4996,50.6999],[-3.4996,50.7003],[-3.5001,50.7003],[-3.5001,50.6999]],[[-3.4999,50.7001],[-3.49985,50.7001],[-3.49985,50.70015],[-3.4999,50.7001]]]}`, `{"kind":"boundary"}`))})
	assert.True(t, geodata.Inside(p.Boundary[0], p.Boundary[1][0]), "a hole is turned into metres too")
	fs := faults(t, files{"heights.csv": heights, "plot.geojson": collection(feature(point(280000, 95000), `{"kind":"mark"}`))})
	assert.Equal(t, "not-degrees", fs[0].Code)
	assert.Equal(t, "[280000,95000]", fs[0].Read)
	assert.Contains(t, fs[0].Want, `coordinates = "local"`)
}

func TestHeightsGeoJSON(t *testing.T) {
	p := plot(t, files{"site.toml": inMetres, "heights.geojson": collection(
		feature(`{"type":"Point","coordinates":[0,0,29]}`, `{"name":"a","note":"top of bank","precision_mm":5}`),
		feature(point(20, 0), `{"elevation (ft)":"95'"}`),
		feature(`{"type":"MultiPoint","coordinates":[[20,20,30],[0,20,30.5]]}`, `null`),
	)})
	require.Len(t, p.Spots, 4)
	assert.Equal(t, "a", p.Spots[0].Name)
	assert.Equal(t, geodata.Top, p.Spots[0].Side)
	assert.Equal(t, 0.005, p.Spots[0].Sigma)
	assert.Equal(t, "feature 2", p.Spots[2].Name)
	assert.InDelta(t, 28.956, p.Spots[2].Height, 1e-12)

	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"all equal", collection(feature(`{"type":"MultiPoint","coordinates":[[0,0,0],[9,0,0],[0,9,0]]}`, `{}`)), []string{"heights-all-equal at heights.geojson: 0 m"}},
		{"no height", collection(feature(point(0, 0), `{"z":null}`)), []string{`number-missing at {"type":"Feature","geometry":{"type":"Point","coordinates":[...`}},
		{"a line", collection(feature(`{"type":"LineString","coordinates":[[0,0,0],[9,0,0]]}`, `{}`)), []string{`height-not-a-point at {"type":"LineString","coordinates":[[0,0,0],[9,0,0]]}`}},
		{"height of text", collection(feature(point(0, 0), `{"z":"high"}`)), []string{`not-a-number at "high"`}},
		{"side", collection(feature(point(0, 0), `{"z":3,"side":"left"}`)), []string{`side-unknown at "left"`}},
		{"precision", collection(feature(point(0, 0), `{"z":3,"sigma":12}`)), []string{`precision-out-of-range at 12`}},
		{"fill value", collection(feature(`{"type":"Point","coordinates":[0,0,-9999]}`, `{}`)), []string{`height-out-of-range at {"type":"Point","coordinates":[0,0,-9999]}`}},
	} {
		assert.Equal(t, c.want, placed(t, c.text, faults(t, files{"site.toml": inMetres, "heights.geojson": c.text})), c.name)
	}
}
