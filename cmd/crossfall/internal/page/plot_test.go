package page_test

import (
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSettingsAreWrittenAndRemarksStay(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	set := map[string]any{"beds.count": 6, "place.latitude": 50.5, "services.drain": "none, known by the supplier's plan"}
	require.Equal(t, http.StatusOK, s.post("/api/site", map[string]any{"revision": s.revision(), "set": set}, nil))
	site, err := plotfolder.ReadSite(s.dir)
	require.NoError(t, err)
	assert.Equal(t, 6, *site.Beds.Count)
	assert.InDelta(t, 50.5, *site.Place.Latitude, 0)
	assert.Equal(t, "none, known by the supplier's plan", site.Services[geodata.Drain])
	assert.Contains(t, s.file("site.toml"), "# Wishes and surroundings of an invented plot.")
	assert.Contains(t, s.file("site.toml.before"), "count = 4", "the version before is kept")
}

func TestWrongSettingsChangeNothing(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	before := s.file("site.toml")
	for key, v := range map[string]any{"beds.count": 2.5, "beds.length_m": -3, "ground.thumb": "like cheese", "place.latitude": 99, "rain.erosivity": 3, "../x": 1} {
		var p problem
		assert.Equal(t, http.StatusUnprocessableEntity, s.post("/api/site", map[string]any{"revision": s.revision(), "set": map[string]any{key: v}}, &p), key)
		assert.Equal(t, before, s.file("site.toml"), key)
	}
}

// TestAnEditorBesideThePage has the files changed elsewhere between a look and a
// change: nothing is written over.
func TestAnEditorBesideThePage(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	seen := s.revision()
	text := strings.Replace(s.file("site.toml"), "count = 4", "count = 3", 1)
	require.NoError(t, os.WriteFile(filepath.Join(s.dir, "site.toml"), []byte(text), 0o644))
	for path, body := range map[string]any{
		"/api/site":     map[string]any{"revision": seen, "set": map[string]any{"beds.count": 9}},
		"/api/features": map[string]any{"revision": seen, "edits": []any{map[string]any{"kind": "mark", "name": "new", "corners": []any{map[string]string{"x": "1", "y": "1"}}}}},
		"/api/beds":     map[string]any{"revision": seen, "beds": []any{}},
	} {
		var p problem
		assert.Equal(t, http.StatusConflict, s.post(path, body, &p), path)
		assert.Equal(t, "changed", p.Code, path)
	}
	assert.Equal(t, text, s.file("site.toml"))
}

func TestThingsAreDrawn(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	put := func(edit map[string]any) (p problem) {
		code := s.post("/api/features", map[string]any{"revision": s.revision(), "edits": []any{edit}}, &p)
		if code == http.StatusOK {
			p.Code = ""
		}
		return p
	}
	xy := func(pairs ...string) (out []map[string]string) {
		for i := 0; i < len(pairs); i += 2 {
			out = append(out, map[string]string{"x": pairs[i], "y": pairs[i+1]})
		}
		return out
	}
	require.Empty(t, put(map[string]any{"kind": "tree", "name": "pear", "corners": xy("4", "18"), "height": "4 m", "stem": "20 cm"}).Message)
	require.Empty(t, put(map[string]any{"kind": "obstacle", "name": "north fence", "what": "fence", "height": "1.5", "corners": xy("1", "23", "17", "23")}).Message)
	taped := []map[string]string{{"from": "gate post", "to": "stone", "a": "9", "b": "14", "side": "left"}}
	require.Empty(t, put(map[string]any{"kind": "mark", "name": "taped post", "corners": taped}).Message)

	plot, err := plotfolder.Read(s.dir, plotfolder.Options{})
	require.NoError(t, err)
	pear := named(t, plot, "pear")
	assert.InDelta(t, 4, pear.TopHeight, 1e-9)
	assert.InDelta(t, 0.2, pear.StemDiameter, 1e-9)
	assert.Contains(t, s.file("features.csv"), "# Drawn features of an invented plot", "remarks stay")

	assert.Equal(t, "corners", put(map[string]any{"kind": "tree", "name": "two", "corners": xy("1", "1", "2", "2")}).Field)
	assert.Equal(t, "kind", put(map[string]any{"kind": "pond", "name": "x", "corners": xy("1", "1")}).Field)
	assert.NotEmpty(t, put(map[string]any{"kind": "mark", "name": "far", "corners": []map[string]string{{"from": "gate post", "to": "stone", "a": "1", "b": "2", "side": "left"}}}).Message)

	require.Empty(t, put(map[string]any{"kind": "tree", "name": "pear", "remove": true}).Message)
	plot, err = plotfolder.Read(s.dir, plotfolder.Options{})
	require.NoError(t, err)
	for _, f := range plot.Fixtures {
		assert.NotEqual(t, "pear", f.Name)
	}
}

func named(t *testing.T, plot *geodata.Plot, name string) geodata.Fixture {
	t.Helper()
	for _, f := range plot.Fixtures {
		if f.Name == name {
			return f
		}
	}
	require.Fail(t, "not on the plot", name)
	return geodata.Fixture{}
}

// decision is the part of an assessment that these tests look at.
type decision struct {
	Revision string
	Beds     []struct {
		Name     string     `json:"name"`
		Centre   [2]float64 `json:"centre"`
		Length   float64    `json:"length_m"`
		Width    float64    `json:"width_m"`
		Bearing  float64    `json:"long_side_bearing_degrees"`
		Edge     string     `json:"edge"`
		Sections []struct{ ID string }
	}
	Cautions []struct{ ID, Mark string }
	Storm    string `json:"storm"`
}

func bed(name string, x, y, bearing float64) map[string]any {
	return map[string]any{"name": name, "centre": []float64{x, y}, "length_m": 3.6, "width_m": 1.2, "bearing_degrees": bearing, "pinned": true}
}

func TestBedsAreTriedAndWritten(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	before := s.revision()
	var d decision
	require.Equal(t, http.StatusOK, s.post("/api/try", map[string]any{"beds": []any{bed("one", 9, 15, 100), bed("two", 9, 18, 100)}}, &d))
	require.Len(t, d.Beds, 2)
	assert.InDelta(t, 9, d.Beds[0].Centre[0], 1e-6)
	assert.InDelta(t, 100, d.Beds[0].Bearing, 1e-6)
	assert.Equal(t, before, s.revision(), "a trial writes nothing")

	require.Equal(t, http.StatusOK, s.post("/api/try", map[string]any{"beds": []any{bed("one", 9, 15, 100)}, "arrange": true, "count": 3}, &d))
	require.Len(t, d.Beds, 3)
	assert.Contains(t, names(d), "one", "the pinned bed stays")

	require.Equal(t, http.StatusOK, s.post("/api/try", map[string]any{"beds": []any{}, "arrange": true, "most": true}, &d))
	assert.Greater(t, len(d.Beds), 8, "as many as fit on 425 square metres")

	require.Equal(t, http.StatusOK, s.post("/api/beds", map[string]any{"revision": before, "beds": []any{bed("one", 9, 15, 100), bed("two", 9, 18, 100)}}, nil))
	plot, err := plotfolder.Read(s.dir, plotfolder.Options{})
	require.NoError(t, err)
	require.Len(t, plot.OfKind(geodata.BedKind), 2)
	require.Equal(t, http.StatusOK, s.post("/api/beds", map[string]any{"revision": s.revision(), "beds": []any{bed("two", 9, 18, 100)}}, nil))
	plot, err = plotfolder.Read(s.dir, plotfolder.Options{})
	require.NoError(t, err)
	require.Len(t, plot.OfKind(geodata.BedKind), 1, "what is not named any more is taken out")
}

func names(d decision) (out []string) {
	for _, b := range d.Beds {
		out = append(out, b.Name)
	}
	return out
}

func TestABedOverAServiceIsStopped(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	var d decision
	require.Equal(t, http.StatusOK, s.post("/api/try", map[string]any{"beds": []any{bed("one", 15.4, 9.2, 90)}}, &d))
	stops := 0
	for _, c := range d.Cautions {
		if c.Mark == "STOP" {
			stops++
		}
	}
	assert.True(t, stops > 0 || d.Beds[0].Edge == "do not build here", "the bed lies over the cable to the shed")
}

func TestTrialsThatMakeNoSense(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	wide := bed("one", 9, 15, 100)
	wide["width_m"] = -1
	many := make([]any, 201)
	for i := range many {
		many[i] = bed("b", 1, 1, 0)
	}
	for name, body := range map[string]any{
		"a bed of no width": map[string]any{"beds": []any{wide}}, "too many": map[string]any{"beds": many}, "far away": map[string]any{"beds": []any{bed("one", 1e9, 0, 0)}},
	} {
		var p problem
		assert.Equal(t, http.StatusUnprocessableEntity, s.post("/api/try", body, &p), name)
	}
}

func TestStepsAreTickedOff(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	require.Equal(t, http.StatusOK, s.post("/api/done", map[string]any{"step": "row 1: string", "done": true}, nil))
	var done map[string]bool
	s.get("/api/done", &done)
	assert.Equal(t, map[string]bool{"row 1: string": true}, done)
	var left map[string]bool
	require.Equal(t, http.StatusOK, s.post("/api/done", map[string]any{"step": "row 1: string", "done": false}, &left))
	assert.Empty(t, left)
}

func TestCautionIsAcknowledged(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	body := map[string]string{"revision": s.revision(), "caution": "services-unknown", "by": "the tenant", "date": "2026-03-01"}
	require.Equal(t, http.StatusOK, s.post("/api/acknowledge", body, nil))
	site, err := plotfolder.ReadSite(s.dir)
	require.NoError(t, err)
	require.Len(t, site.Acknowledged, 1)
	assert.Equal(t, "services-unknown", site.Acknowledged[0].Caution)
}

func TestAPlotIsBegun(t *testing.T) {
	s := serve(t, options(t.TempDir()))
	var plot struct {
		IsPlot bool `json:"is_plot"`
		Name   string
	}
	s.get("/api/plot", &plot)
	assert.False(t, plot.IsPlot)
	require.Equal(t, http.StatusOK, s.post("/api/begin", map[string]any{"name": "Upper field", "units": "ft", "example": false}, nil))
	s.get("/api/plot", &plot)
	assert.True(t, plot.IsPlot)
	assert.Equal(t, "Upper field", plot.Name)
	assert.FileExists(t, filepath.Join(s.dir, "upper-field", "site.toml"))
	assert.Equal(t, http.StatusConflict, s.post("/api/begin", map[string]any{"name": "Again", "units": "ft", "example": false}, nil))
}

func TestGroundOnALattice(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	var g struct {
		Cols, Rows int
		Z          []*float64 `json:"height_m"`
	}
	require.Equal(t, http.StatusOK, s.get("/api/ground?nodes=20", &g))
	require.Len(t, g.Z, g.Cols*g.Rows)
	known := 0
	for _, z := range g.Z {
		if z != nil {
			known++
			assert.InDelta(t, 29, *z, 2.5)
		}
	}
	assert.Greater(t, known, g.Cols*g.Rows/2)
	assert.Equal(t, http.StatusUnprocessableEntity, s.get("/api/ground?nodes=1e9", nil))
}

// TestContract holds the description of the interface to what is served: every
// address is described, and nothing that is not served.
func TestContract(t *testing.T) {
	text, err := os.ReadFile("openapi.json")
	require.NoError(t, err)
	var doc struct {
		OpenAPI string
		Paths   map[string]map[string]json.RawMessage
	}
	require.NoError(t, json.Unmarshal(text, &doc))
	assert.Equal(t, "3.1.0", doc.OpenAPI)
	source, err := os.ReadFile("page.go")
	require.NoError(t, err)
	served := map[string]bool{}
	for _, line := range strings.Split(string(source), "\n") {
		if _, rest, ok := strings.Cut(line, `mux.HandleFunc("`); ok && strings.Contains(rest, " /api/") {
			route, _, _ := strings.Cut(rest, `"`)
			served[route] = true
		}
	}
	described := map[string]bool{}
	for path, ways := range doc.Paths {
		for way := range ways {
			described[strings.ToUpper(way)+" "+path] = true
		}
	}
	assert.Equal(t, served, described)
}
