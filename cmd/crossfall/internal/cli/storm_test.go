package cli_test

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"crossfall/geodata/plotfolder"
	"crossfall/siting"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A storm played on few cells, because hundreds of thousands of steps are no
// test, and kept beside a plot.
func keep(t *testing.T, dir string) *siting.Storm {
	t.Helper()
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	a, err := siting.Assess(t.Context(), p, siting.Options{})
	require.NoError(t, err)
	s, err := siting.RunStorm(t.Context(), p, a, siting.StormOptions{MostCells: 500})
	require.NoError(t, err)
	text, err := json.Marshal(s)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "storm.json"), text, 0o644))
	return s
}

func TestKeptStormIsToldUntilThePlotChanges(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plot")
	require.Equal(t, 0, run(t, "", "demo", dir).code)
	none := run(t, "", "runoff", dir)
	assert.Contains(t, none.out, "not run")
	assert.NotContains(t, none.out, "The storm over the plot")

	s := keep(t, dir)
	r := run(t, "", "runoff", dir)
	require.Equal(t, 0, r.code, r.err)
	assert.Contains(t, r.out, "The storm over the plot")
	assert.Contains(t, r.out, "9 of 9 runs")
	assert.Contains(t, r.out, "May be read from it")
	feet := run(t, "", "runoff", dir, "--units", "ft")
	require.Equal(t, 0, feet.code)
	_, storm, _ := strings.Cut(feet.out, "The storm over the plot")
	assert.NotContains(t, storm, " mm")
	assert.NotContains(t, storm, "m³")
	var out struct {
		Played *siting.Storm `json:"storm_played"`
		Water  siting.Water  `json:"water"`
	}
	require.NoError(t, json.Unmarshal([]byte(run(t, "", "runoff", dir, "--json").out), &out))
	assert.Equal(t, s, out.Played)
	assert.Equal(t, siting.StormCurrent, out.Water.Storm)

	heights := filepath.Join(dir, "heights.csv")
	text, err := os.ReadFile(heights)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	require.NoError(t, os.WriteFile(heights, []byte(strings.Join(lines[:len(lines)-1], "\n")+"\n"), 0o644))
	old := run(t, "", "runoff", dir)
	assert.Contains(t, old.out, "out of date")
	assert.NotContains(t, old.out, "The storm over the plot")
}

// Interrupted before anything is finished, nothing is kept.
func TestStormInterrupted(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plot")
	require.Equal(t, 0, run(t, "", "demo", dir).code)
	ctx, cancel := context.WithTimeout(t.Context(), 800*time.Millisecond)
	defer cancel()
	r := runContext(t, ctx, strings.NewReader(""), "runoff", dir, "--storm", "all")
	assert.NotEqual(t, 0, r.code)
	assert.Empty(t, r.out)
	assert.NoFileExists(t, filepath.Join(dir, "storm.json"))
}

func TestWrongStorm(t *testing.T) {
	r := run(t, "", "runoff", "--storm", "5y")
	assert.Equal(t, 2, r.code)
	assert.Contains(t, r.err, `--storm "5y" is not 2y, 10y, 30y or all`)
}
