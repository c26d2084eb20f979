package plotfolder_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// phone stands for a map in longitude and latitude of a plot whose own axes
// are turned: the +y axis bears turn degrees from true north, and the origin of
// its metres lies at at.
type phone struct {
	at   orb.Point
	turn float64
}

// lonLat is where a place of the plot's metres lies on the map.
func (p phone) lonLat(x, y float64) orb.Point {
	s, c := math.Sincos(p.turn * math.Pi / 180) // +y is (s, c) east and north, +x is (c, -s)
	return geodata.LocalMetres{Origin: p.at}.Back(orb.Point{c*x + s*y, -s*x + c*y})
}

func (p phone) point(x, y float64) string {
	at := p.lonLat(x, y)
	return fmt.Sprintf(`{"type":"Point","coordinates":[%.9f,%.9f]}`, at[0], at[1])
}

func (p phone) mark(name string, x, y float64) string {
	return feature(p.point(x, y), fmt.Sprintf(`{"kind":"mark","name":%q}`, name))
}

func (p phone) square() string {
	text := `{"type":"Polygon","coordinates":[[`
	for i, k := range []orb.Point{{-1, -1}, {21, -1}, {21, 21}, {-1, 21}, {-1, -1}} {
		at := p.lonLat(k[0], k[1])
		if i > 0 {
			text += ","
		}
		text += fmt.Sprintf("[%.9f,%.9f]", at[0], at[1])
	}
	return feature(text+"]]}", `{"kind":"boundary"}`)
}

var hill = phone{at: orb.Point{-3.5, 50.7}, turn: 30}

func TestFeaturesOfAMapJoinLocalHeightsByMarks(t *testing.T) {
	for name, marks := range map[string][]string{
		"two":             {hill.mark("a", 0, 0), hill.mark("C", 20, 20)},
		"three":           {hill.mark("a", 0, 0), hill.mark("b", 20, 0), hill.mark("c", 20, 20)},
		"one is not here": {hill.mark("a", 0, 0), hill.mark("elsewhere", 90, 0), hill.mark("d", 0, 20)},
	} {
		t.Run(name, func(t *testing.T) {
			p := plot(t, files{"heights.csv": sound, "plot.geojson": collection(append(marks, hill.square(), feature(hill.point(5, 15), `{"kind":"tree","name":"oak"}`))...)})
			assert.Equal(t, orb.Point{0, 0}, p.Spots[0].At, "the heights stay where they are")
			tree := p.OfKind(geodata.TreeKind)[0].Shape.(orb.Point)
			assert.InDeltaSlice(t, []float64{5, 15}, tree[:], 2e-3)
			assert.InDeltaSlice(t, []float64{-1, -1}, p.Boundary[0][0][:], 2e-3)
			assert.True(t, p.Frame.Geographic)
			assert.Equal(t, "true north", p.Frame.North)
			assert.InDelta(t, 30, p.Frame.NorthTurn*180/math.Pi, 0.01, "the +y axis bears 30 degrees")
			assert.InDelta(t, -3.5, p.Frame.Origin[0], 1e-7)
			assert.InDelta(t, 50.7, p.Frame.Origin[1], 1e-7)
			assert.Contains(t, find(t, p.Notes, "frames-joined").Message, "marks (a, ")
		})
	}
}

func TestLocalFeaturesJoinHeightsOfAMap(t *testing.T) {
	text := "name,lon,lat,z\n"
	for i, k := range []orb.Point{{0, 0}, {20, 0}, {20, 20}, {0, 20}} {
		at := hill.lonLat(k[0], k[1])
		text += fmt.Sprintf("h%d,%.9f,%.9f,%d\n", i, at[0], at[1], 30+i)
	}
	p := plot(t, files{"heights.csv": text, "features.csv": "kind,name,x,y\nmark,h0,0,0\nmark,h2,20,20\ntree,oak,5,15\n"})
	local := geodata.LocalMetres{Origin: p.Frame.Origin}
	want := local.From(hill.lonLat(5, 15))
	got := p.OfKind(geodata.TreeKind)[0].Shape.(orb.Point)
	assert.InDeltaSlice(t, want[:], got[:], 2e-3)
	assert.Zero(t, p.Frame.NorthTurn, "+y is true north")
}

func TestFramesThatCannotBeJoined(t *testing.T) {
	tree := feature(hill.point(5, 15), `{"kind":"tree","name":"oak"}`)
	for _, c := range []struct {
		name     string
		features []string
		code     string
		message  string
	}{
		{"no mark", []string{tree}, "frames-not-joined", "marks that they share: 0"},
		{"one mark", []string{tree, hill.mark("a", 0, 0)}, "frames-not-joined", "marks that they share: 1"},
		{"names that differ", []string{tree, hill.mark("p", 0, 0), hill.mark("q", 20, 0)}, "frames-not-joined", "marks that they share: 0"},
		{"one mark twice", []string{tree, hill.mark("A", 0, 0), hill.mark("a", 0, 0)}, "frames-not-joined", "marks that they share: 1"},
		{"scale", []string{tree, hill.mark("a", 0, 0), hill.mark("b", 21, 0)}, "marks-do-not-fit", "0.50 m off"},
		{"one mark off", []string{tree, hill.mark("a", 0, 0), hill.mark("b", 20, 0), hill.mark("c", 20, 21.5)}, "marks-do-not-fit", "3 shared marks (a, b, c)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			fs := faults(t, files{"heights.csv": sound, "plot.geojson": collection(c.features...)})
			require.Equal(t, []string{c.code}, codes(fs, geodata.Problem))
			assert.Contains(t, fs[0].Message, c.message)
			assert.Equal(t, geodata.Pos{File: "plot.geojson", Line: 2, Col: 1}, fs[0].Pos)
			assert.NotEmpty(t, fs[0].Want)
		})
	}
	near := "name,x,y,z\na,0,0,29\nb,1,0,29\nc,20,20,30\n"
	fs := faults(t, files{"heights.csv": near, "plot.geojson": collection(tree, hill.mark("a", 0, 0), hill.mark("b", 1, 0))})
	assert.Equal(t, []string{"marks-too-near"}, codes(fs, geodata.Problem))
	p := plot(t, files{"heights.csv": sound, "plot.geojson": collection(tree, hill.mark("a", 0, 0), hill.mark("b", 20.5, 0))})
	assert.Contains(t, find(t, p.Notes, "frames-joined").Message, "the worst is 0.250 m off", "half of half a metre at each end")
}

func TestFrameWordsOfSite(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "site.toml": "[place]\nnorth = \"magnetic\"\ny_axis_bearing_degrees = -12.5\n"})
	assert.Equal(t, "magnetic north", p.Frame.North)
	assert.InDelta(t, -12.5, p.Frame.NorthTurn*180/math.Pi, 1e-12)

	degrees := "name,lon,lat,z\na,-3.5,50.7,29\nb,-3.4997,50.7,29\nc,-3.4997,50.7002,30\n"
	p = plot(t, files{"heights.csv": degrees, "site.toml": "[place]\nnorth = \"true\"\ny_axis_bearing_degrees = 40\n"})
	warning := find(t, p.Notes, "axis-contradicts")
	assert.Equal(t, geodata.Warning, warning.Severity)
	assert.Zero(t, p.Frame.NorthTurn)
	p = plot(t, files{"heights.csv": degrees, "site.toml": "[place]\nnorth = \"true\"\ny_axis_bearing_degrees = 359\n"})
	assert.NotContains(t, codes(p.Notes, geodata.Warning), "axis-contradicts", "1 degree is within a compass's error")
}

func TestPlotWiderThanTwoKilometresOnAMap(t *testing.T) {
	fs := faults(t, files{"heights.csv": "name,lon,lat,z\na,-3.5,50.7,29\nb,-3.5003,50.7,29\nc,-3.45,50.7,30\nd,-3.5,50.7003,30\n"})
	assert.Equal(t, []string{"plot-too-wide"}, codes(fs, geodata.Problem))
	assert.Equal(t, geodata.Pos{File: "heights.csv", Line: 4}, fs[0].Pos, "the one furthest out")
}
