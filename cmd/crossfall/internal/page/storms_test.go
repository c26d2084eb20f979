package page_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// strip is a small plot on an even slope, quick to play a storm over.
func strip(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	var z strings.Builder
	z.WriteString("name,x,y,z\n")
	for i := range 12 {
		x, y := 0.5+2.5*float64(i%3), 0.5+2.3*float64(i/3)
		fmt.Fprintf(&z, "h%d,%.2f,%.2f,%.3f\n", i, x, y, 30-0.1*y+0.004*float64(i%2))
	}
	require.NoError(t, writeAll(dir, map[string]string{
		"heights.csv":  z.String(),
		"site.toml":    "name = \"Strip\"\ncoordinates = \"local\"\nunits = \"m\"\n\n[place]\nlatitude = 52.0\n\n[rain]\nm5_60_mm = 18\nratio_r = 0.35\n",
		"features.csv": "kind,name,x,y\nbed,one,1,3\nbed,one,4.6,3\nbed,one,4.6,4.2\nbed,one,1,4.2\n",
	}))
	return dir
}

// TestStormIsPlayed plays a storm, is refused a second one meanwhile, sees its
// depths before it ends, and finds it kept; a bed that is moved makes it out of date.
func TestStormIsPlayed(t *testing.T) {
	opt := options(strip(t))
	opt.StormCells = 400
	s := serve(t, opt)
	require.Equal(t, http.StatusAccepted, s.post("/api/storm", map[string]any{"return_period_years": 2}, nil))
	var p problem
	assert.Equal(t, http.StatusConflict, s.post("/api/storm", map[string]any{"return_period_years": 10}, &p))
	assert.Equal(t, "playing", p.Code)

	var last struct {
		Playing bool
		Done    float64
		Problem string
	}
	seen := 0
	for _, event := range streamed(t, s, "/api/storm/events") {
		_, data, ok := strings.Cut(event, "data: ")
		if !ok {
			continue
		}
		if strings.Contains(data, `"seen":{`) {
			seen++
		}
		require.NoError(t, json.Unmarshal([]byte(data), &last))
	}
	assert.False(t, last.Playing)
	assert.Empty(t, last.Problem)
	assert.Equal(t, 1, seen, "the depths are sent once")

	var storm struct {
		State  string
		Storms []struct {
			With    []any `json:"with_beds"`
			Without []any `json:"without_beds"`
		}
	}
	s.get("/api/storm", &storm)
	assert.Equal(t, "current", storm.State)
	require.Len(t, storm.Storms, 1)
	assert.Len(t, storm.Storms[0].With, len(storm.Storms[0].Without))

	var d decision
	require.Equal(t, http.StatusOK, s.post("/api/try", map[string]any{"beds": []any{bed("one", 3, 6, 90)}}, &d))
	assert.Equal(t, "out of date", d.Storm, "a bed that is moved")
}

// TestStormIsStopped stops one on a larger plot well before its end.
func TestStormIsStopped(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside-pinned")))
	require.Equal(t, http.StatusAccepted, s.post("/api/storm", map[string]any{"return_period_years": 30}, nil))
	time.Sleep(300 * time.Millisecond)
	began := time.Now()
	var state struct{ Playing bool }
	require.Equal(t, http.StatusOK, s.post("/api/storm/stop", map[string]any{}, &state))
	assert.False(t, state.Playing)
	t.Logf("stopped after %s", time.Since(began).Round(time.Millisecond))
	_, err := os.Stat(filepath.Join(s.dir, "storm.json"))
	assert.ErrorIs(t, err, os.ErrNotExist)
	assert.Equal(t, http.StatusUnprocessableEntity, s.post("/api/storm", map[string]any{"return_period_years": 7}, nil))
}
