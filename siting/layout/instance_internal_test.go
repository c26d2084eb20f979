package layout

import (
	"context"
	"encoding/json"
	"os"
	"testing"

	"crossfall/terrain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sixSided is a plot of six sides with a hole, 918 places and weights, made up
// for trials; its optima were proved by two mixed-integer solvers.
func sixSided(t testing.TB, rowCost float64) *field {
	var in struct {
		Length       float64      `json:"bed_length"`
		Width        float64      `json:"bed_width"`
		Gap          float64      `json:"gap"`
		Step         float64      `json:"step"`
		Orientations []float64    `json:"orientations"`
		Candidates   [][4]float64 `json:"candidates"`
		Conflicts    int          `json:"conflicting_pairs"`
		Rows         int          `json:"rows"`
	}
	text, err := os.ReadFile("testdata/six-sided-plot.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &in))
	var bearings []terrain.Bearing
	for _, a := range in.Orientations { // anticlockwise from east
		bearings = append(bearings, terrain.FromDegrees(90-a))
	}
	var sites []site
	for _, c := range in.Candidates {
		e, n := bearings[int(c[0])].Unit()
		x, y := c[1]*in.Step, c[2]*in.Step
		sites = append(sites, site{direction: int(c[0]), along: x*e + y*n, across: y*e - x*n, weight: c[3]})
	}
	f := newField(in.Length, in.Width, in.Gap, rowCost, bearings, sites)
	require.Len(t, f.sites, 918)
	require.Len(t, f.rows, in.Rows)
	return f
}

// The pairs in conflict were counted by another program, with the rule of conflict
// written anew.
func TestSixSidedConflicts(t *testing.T) {
	f := sixSided(t, 0)
	n := 0
	for i := range f.sites {
		for j := range i {
			if f.conflict(i, j) {
				n++
			}
		}
	}
	assert.Equal(t, 122507, n)
}

// sixSidedOptima were proved for all layouts of these places by the solver HiGHS, and
// the first by CBC too; all are layouts in rows.
var sixSidedOptima = []struct {
	count            int
	rowCost, optimum float64
}{
	{6, 0.8, 45.6075}, {4, 0.8, 30.4821}, {6, 0, 48.0782},
}

// The best rows on these places are the proved optimum.
func TestSixSidedRows(t *testing.T) {
	for _, tt := range sixSidedOptima {
		f := sixSided(t, tt.rowCost)
		rows, err := f.allRows(context.Background(), demands{}, nil, tt.count)
		require.NoError(t, err)
		assert.InDelta(t, tt.optimum, rows.value[tt.count], 1e-9)
		chosen := f.traceRows(rows, tt.count, demands{}, nil)
		require.Len(t, chosen, tt.count)
		noConflict(t, f, chosen)
		assert.InDelta(t, tt.optimum, f.score(chosen), 1e-9)
	}
}

func noConflict(t require.TestingT, f *field, chosen []int) {
	for i, a := range chosen {
		for _, b := range chosen[:i] {
			require.False(t, f.conflict(a, b), "sites %d and %d conflict", a, b)
		}
	}
}

// The bound is never under the proved optimum, and on these places comes within
// 1 % of it though the search is told of a layout 2 % worse.
func TestSixSidedBound(t *testing.T) {
	for _, tt := range sixSidedOptima {
		f := sixSided(t, tt.rowCost)
		assert.GreaterOrEqual(t, f.plainBound(nil, tt.count), tt.optimum-1e-9)
		for _, steps := range []int{1, 5, boundSteps} {
			limits := bounds{f: f, steps: steps}
			bound, err := limits.score(context.Background(), tt.count, 0.98*tt.optimum)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, bound, tt.optimum-1e-9)
			if steps == boundSteps {
				assert.Less(t, bound, 1.01*tt.optimum)
			}
		}
	}
}

// Annealing alone, from nothing, comes within 0.5 % of the optimum.
func TestSixSidedPolish(t *testing.T) {
	for _, tt := range sixSidedOptima {
		f := sixSided(t, tt.rowCost)
		chosen, err := f.polish(context.Background(), make([][]int, 8), nil, tt.count, 20_000)
		require.NoError(t, err)
		require.Len(t, chosen, tt.count)
		noConflict(t, f, chosen)
		assert.GreaterOrEqual(t, f.score(chosen), 0.995*tt.optimum)
		assert.LessOrEqual(t, f.score(chosen), tt.optimum+1e-9)
	}
}
