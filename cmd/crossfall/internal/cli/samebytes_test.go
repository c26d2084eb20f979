package cli_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"crossfall/geodata/plotfolder"
	"crossfall/siting"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// smallPlot writes a plot of 12 by 9 m with its heights in the given order and
// gives its folder, which is always called plot.
func smallPlot(t *testing.T, order []int) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "plot")
	require.NoError(t, os.Mkdir(dir, 0o755))
	put := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	rows := "name,x,y,z\n"
	for _, i := range order {
		x, y := 3*float64(i%5), 3*float64(i/5)
		z := 20 - 0.07*y - 0.02*x + 0.06*math.Sin(x/2)*math.Cos(y/3) + 0.004*float64(i*7%5)
		rows += fmt.Sprintf("h%d,%g,%g,%.3f\n", i+1, x, y, z)
	}
	put("heights.csv", rows)
	put("site.toml", "coordinates = \"local\"\n[beds]\ncount = 2\nlength_m = 2.4\nwidth_m = 1.2\n[ground]\nreading_precision_mm = 8\n")
	put("features.csv", "kind,name,x,y\nmark,north post,0,9\nmark,south post,0,0\nmark,east post,12,0\n")
	return dir
}

const smallHeights = 20

// written is every byte that the commands write about a plot: the assessment with
// the beds that were found, its report, its plan, setting out, and a short storm.
func written(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	report, plan := filepath.Join(t.TempDir(), "r.html"), filepath.Join(t.TempDir(), "p.svg")
	for name, args := range map[string][]string{
		"assess": {"assess", dir, "--report", report, "--plan", plan}, "json": {"assess", dir, "--json"},
		"runoff": {"runoff", dir}, "setting out": {"setout", dir},
	} {
		r := run(t, "", args...)
		require.Equal(t, 0, r.code, r.err)
		out[name] = r.out
	}
	for name, path := range map[string]string{"report": report, "plan": plan} {
		content, err := os.ReadFile(path)
		require.NoError(t, err)
		out[name] = string(content)
	}
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	a, err := siting.Assess(t.Context(), p, siting.Options{})
	require.NoError(t, err)
	require.Len(t, a.Beds, 2)
	s, err := siting.RunStorm(t.Context(), p, a, siting.StormOptions{MostCells: 150})
	require.NoError(t, err)
	storm, err := json.Marshal(s)
	require.NoError(t, err)
	out["storm"] = string(storm)
	return out
}

// Workers and the order of the heights change no byte.
func TestSameBytesWhateverTheWorkersAndTheOrder(t *testing.T) {
	if testing.Short() {
		t.Skip("several assessments and storms")
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	var first map[string]string
	for _, workers := range []int{1, 2, 4} {
		runtime.GOMAXPROCS(workers)
		order := make([]int, smallHeights)
		for i := range order {
			order[i] = i
		}
		if workers > 1 {
			rand.New(rand.NewPCG(uint64(workers), 3)).Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		}
		got := written(t, smallPlot(t, order))
		if first == nil {
			first = got
			continue
		}
		for name := range first {
			assert.True(t, first[name] == got[name], "%s differs with %d workers:\n%s", name, workers, firstDifference(first[name], got[name]))
		}
	}
}

// firstDifference shows two texts about where they part.
func firstDifference(a, b string) string {
	i := 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	cut := func(s string) string { return strings.TrimSpace(s[max(0, i-80):min(len(s), i+80)]) }
	return cut(a) + "\n" + cut(b)
}
