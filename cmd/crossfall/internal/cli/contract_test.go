package cli_test

import (
	"encoding/json"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// object is a JSON object as a program that reads the output sees it.
type object = map[string]any

// assessed gives the JSON of the example plot.
func assessed(t *testing.T) object {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "example")
	require.Equal(t, 0, run(t, "", "demo", dir).code)
	r := run(t, "", "assess", "--json", dir)
	require.Contains(t, []int{0, 3}, r.code, r.err)
	var a object
	require.NoError(t, json.Unmarshal([]byte(r.out), &a))
	return a
}

// The keys that other programs rely on. They may only change together with
// schema_version.
func TestKeysOfTheJSON(t *testing.T) {
	a := assessed(t)
	assert.EqualValues(t, 1, a["schema_version"])
	keys(t, "ground", a["ground"], "fall_percent", "runoff_bearing_degrees", "surface", "suspect_heights")
	keys(t, "water", a["water"], "winter_rain_mm", "design_rain_mm_per_h", "paths")
	keys(t, "quantities", a["quantities"], "compost_m3", "loads", "mass_kg", "cardboard_sheets",
		"boards", "pegs", "screws", "cost")
	keys(t, "setting_out", a["setting_out"], "marks", "beds")
	for _, list := range []string{"beds", "cautions", "assumptions", "working"} {
		require.IsType(t, []any{}, a[list], list)
		if list != "assumptions" { // everything is said in the example plot
			require.NotEmpty(t, a[list], list)
		}
	}
	for _, c := range a["cautions"].([]any) {
		keys(t, "caution", c, "id", "severity", "text", "source")
	}
	for _, w := range a["working"].([]any) {
		keys(t, "working", w, "id", "value", "unit", "low", "high", "formula", "source", "inputs")
		assert.NotEmpty(t, w.(object)["source"], "%v", w.(object)["id"])
	}
}

func TestFiguresOfTheJSONHaveBands(t *testing.T) {
	a := assessed(t)
	ground, water, quantities := a["ground"].(object), a["water"].(object), a["quantities"].(object)
	band(t, "fall_percent", ground["fall_percent"])
	bearing(t, ground["runoff_bearing_degrees"])
	band(t, "design_rain", water["design_rain_mm_per_h"])
	if water["winter_rain_mm"] != nil {
		band(t, "winter_rain", water["winter_rain_mm"])
	}
	for _, key := range []string{"compost_m3", "loads", "mass_kg"} {
		band(t, key, quantities[key])
	}
	assert.IsType(t, "", ground["surface"])
	assert.IsType(t, []any{}, ground["suspect_heights"])
	assert.IsType(t, []any{}, water["paths"])
}

func TestBedsOfTheJSON(t *testing.T) {
	for _, b := range assessed(t)["beds"].([]any) {
		keys(t, "bed", b, "name", "length_m", "width_m", "centre", "corners", "long_side_bearing_degrees",
			"fall_percent", "fall_across_mm", "fall_along_mm", "runoff_bearing_degrees",
			"edge", "edge_firm", "edge_because", "board_height_uphill_mm", "board_height_downhill_mm",
			"sunken_depth_mm", "pegs", "cautions")
		bed := b.(object)
		band(t, "fall_across_mm", bed["fall_across_mm"])
		assert.Len(t, bed["corners"], 4)
		if bed["pegs"] != nil {
			keys(t, "pegs", bed["pegs"], "count", "spacing_mm", "embedment_mm", "length_mm", "positions")
			band(t, "embedment_mm", bed["pegs"].(object)["embedment_mm"])
		}
	}
}

// keys wants an object with at least these keys.
func keys(t *testing.T, name string, v any, want ...string) {
	t.Helper()
	o, ok := v.(object)
	require.True(t, ok, "%s is %T", name, v)
	for _, k := range want {
		assert.Contains(t, o, k, name)
	}
}

// band wants a figure between its limits.
func band(t *testing.T, name string, v any) {
	t.Helper()
	keys(t, name, v, "value", "low", "high")
	o := v.(object)
	assert.LessOrEqual(t, o["low"], o["value"], name)
	assert.LessOrEqual(t, o["value"], o["high"], name)
}

// bearing wants a bearing, or none with the reason.
func bearing(t *testing.T, v any) {
	t.Helper()
	keys(t, "bearing", v, "value", "low", "high")
	o := v.(object)
	if o["value"] == nil {
		assert.Nil(t, o["low"])
		assert.Nil(t, o["high"])
		assert.NotEmpty(t, o["reason"])
		return
	}
	assert.GreaterOrEqual(t, o["value"], 0.0)
	assert.Less(t, o["value"], 360.0)
}
