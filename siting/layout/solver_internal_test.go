package layout

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"crossfall/terrain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// randomPlot is a rectangle with a hole in which places of two directions have
// weights that vary smoothly.
func randomPlot(seed uint64) (f *field, count int) {
	rng := rand.New(rand.NewPCG(seed, 77))
	wide, deep := 8+4*rng.Float64(), 5+2*rng.Float64()
	holeX, holeY := wide*rng.Float64(), deep*rng.Float64()
	bearings := []terrain.Bearing{terrain.FromDegrees(90), terrain.FromDegrees(90 - 20 - 50*rng.Float64())}
	phase := 6 * rng.Float64()
	var sites []site
	for d, b := range bearings {
		e, n := b.Unit()
		reachX, reachY := 1.5*math.Abs(e)+0.5*math.Abs(n), 1.5*math.Abs(n)+0.5*math.Abs(e)
		for u := -12.0; u < 15; u += 0.9 {
			for v := -12.0; v < 15; v += 0.75 {
				x, y := u*e-v*n, u*n+v*e
				inside := x >= reachX && y >= reachY && x <= wide-reachX && y <= deep-reachY
				if inside && math.Hypot(x-holeX, y-holeY) > 1 {
					w := 8 + math.Sin(x+phase) + math.Cos(1.3*y) - 0.5*float64(d)
					sites = append(sites, site{direction: d, along: u, across: v, weight: w})
				}
			}
		}
	}
	return newField(3, 1, 0.5, rng.Float64(), bearings, sites), 3 + int(seed%3)
}

// integerProgramme writes the choice of just count beds, or of any number where it
// is under 0, as a mixed-integer programme: one variable for each place and each row, one line for each pair in
// conflict.
func integerProgramme(f *field, count int) string {
	var s strings.Builder
	s.WriteString("Maximize\n obj:")
	for i, p := range f.sites {
		fmt.Fprintf(&s, " %+.9f x%d\n", p.weight, i)
	}
	for r := range f.rows {
		fmt.Fprintf(&s, " %+.9f y%d\n", -f.rowCost, r)
	}
	s.WriteString("Subject To\n count:")
	for i := range f.sites {
		fmt.Fprintf(&s, " + x%d\n", i)
	}
	if count < 0 {
		s.WriteString(" >= 0\n")
	} else {
		fmt.Fprintf(&s, " = %d\n", count)
	}
	for i, p := range f.sites {
		fmt.Fprintf(&s, " r%d: x%d - y%d <= 0\n", i, i, p.row)
		for j := range i {
			if f.conflict(i, j) {
				fmt.Fprintf(&s, " c%d_%d: x%d + x%d <= 1\n", i, j, i, j)
			}
		}
	}
	s.WriteString("Binary\n")
	for i := range f.sites {
		fmt.Fprintf(&s, " x%d\n", i)
	}
	for r := range f.rows {
		fmt.Fprintf(&s, " y%d\n", r)
	}
	s.WriteString("End\n")
	return s.String()
}

var glpsolSays = regexp.MustCompile(`Status:\s+(.*)\n[^\n]*\n?Objective:\s+obj = (\S+)`)

// optimumBy has glpsol, of the GNU Linear Programming Kit, prove an optimum;
// feasible is false where so many beds do not fit.
func optimumBy(t testing.TB, glpsol string, f *field, count int) (optimum float64, feasible bool) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.lp"), filepath.Join(dir, "out.txt")
	require.NoError(t, os.WriteFile(in, []byte(integerProgramme(f, count)), 0o600))
	said, err := exec.Command(glpsol, "--lp", in, "--output", out, "--cuts", "--tmlim", "120").CombinedOutput()
	require.NoError(t, err, string(said))
	text, err := os.ReadFile(out)
	require.NoError(t, err)
	m := glpsolSays.FindSubmatch(text)
	require.NotNil(t, m, string(text[:min(len(text), 400)]))
	if !strings.HasPrefix(string(m[1]), "INTEGER OPTIMAL") {
		require.Contains(t, string(said), "NO ", "neither proved nor found without a solution: %s", m[1])
		return 0, false
	}
	optimum, err = strconv.ParseFloat(string(m[2]), 64)
	require.NoError(t, err)
	return optimum, true
}

// A mixed-integer solver proves the optimum of small plots: no bound is under
// it, no layout over it, and the search reaches 99.5 % of it.
func TestAgainstAMixedIntegerSolver(t *testing.T) {
	if testing.Short() {
		t.Skip("long; the searches run in other tests too")
	}
	glpsol, err := exec.LookPath("glpsol")
	if err != nil {
		t.Skip("glpsol (of the package glpk-utils) is not installed: optima are not proved apart from the project")
	}
	for seed := range uint64(10) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			f, count := randomPlot(seed)
			ctx := context.Background()
			optimum, feasible := optimumBy(t, glpsol, f, count)
			limits := bounds{f: f, steps: boundSteps}
			beds, err := limits.beds(ctx, count, 0)
			require.NoError(t, err)
			polished, err := f.polish(ctx, make([][]int, 8), nil, count, 20_000)
			require.NoError(t, err)
			noConflict(t, f, polished)
			require.Equal(t, feasible, len(polished) == count, "beds placed: %d of %d", len(polished), count)
			if !feasible {
				return
			}
			assert.Equal(t, count, beds)
			score := f.score(polished)
			assert.LessOrEqual(t, score, optimum+1e-5)
			assert.GreaterOrEqual(t, score, optimum-0.005*math.Abs(optimum))
			bound, err := limits.score(ctx, count, 0.98*score)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, bound, optimum-1e-5)
			rows, err := f.allRows(ctx, demands{}, nil, count)
			require.NoError(t, err)
			assert.LessOrEqual(t, rows.value[count], optimum+1e-5)
			t.Logf("%d places, %d beds: optimum %.4f, found %.4f, rows %.4f, bound %.4f", len(f.sites), count, optimum, score, rows.value[count], bound)
		})
	}
}

// The greatest number of beds, proved by a mixed-integer solver, is never over the
// bound on it nor more than one under it on small plots.
func TestMostBedsAgainstAMixedIntegerSolver(t *testing.T) {
	if testing.Short() {
		t.Skip("long; the searches run in other tests too")
	}
	glpsol, err := exec.LookPath("glpsol")
	if err != nil {
		t.Skip("glpsol (of the package glpk-utils) is not installed: optima are not proved apart from the project")
	}
	for seed := range uint64(8) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			f, _ := randomPlot(seed)
			for i := range f.sites {
				f.sites[i].weight = 1
			}
			f.rowCost = 0
			optimum, feasible := optimumBy(t, glpsol, f, -1)
			require.True(t, feasible)
			most := int(math.Round(optimum))
			limits := bounds{f: f, steps: boundSteps}
			beds, err := limits.beds(context.Background(), 50, 0)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, beds, most)
			assert.LessOrEqual(t, beds, most+1)
			placed, err := f.polish(context.Background(), make([][]int, 4), nil, 50, 20_000)
			require.NoError(t, err)
			noConflict(t, f, placed)
			assert.Len(t, placed, most)
			t.Logf("%d places: %d beds at most, %d placed, bound %d", len(f.sites), most, len(placed), beds)
		})
	}
}
