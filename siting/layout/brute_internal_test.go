package layout

import (
	"context"
	"math"
	"testing"

	"crossfall/terrain"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// few draws a field of few places of beds of 2 by 1 m with a path of 0.5 m.
func few(t *rapid.T, directions int) *field {
	bearings := []terrain.Bearing{terrain.FromDegrees(90), terrain.FromDegrees(50)}[:directions]
	n := rapid.IntRange(1, 14).Draw(t, "places")
	var sites []site
	seen := map[[3]int]bool{}
	for range n {
		at := [3]int{rapid.IntRange(0, directions-1).Draw(t, "direction"), rapid.IntRange(0, 11).Draw(t, "along"), rapid.IntRange(0, 7).Draw(t, "across")}
		if seen[at] {
			continue
		}
		seen[at] = true
		w := rapid.Float64Range(-2, 10).Draw(t, "weight")
		sites = append(sites, site{direction: at[0], along: 0.5 * float64(at[1]), across: 0.5 * float64(at[2]), weight: w})
	}
	return newField(2, 1, 0.5, rapid.Float64Range(0, 3).Draw(t, "row cost"), bearings, sites)
}

// everyChoice calls with each set of places without conflict by clash.
func everyChoice(n int, clash func(i, j int) bool, call func(chosen []int)) {
	var chosen []int
	var from func(i int)
	from = func(i int) {
		if i == n {
			call(chosen)
			return
		}
		from(i + 1)
		for _, c := range chosen {
			if clash(c, i) {
				return
			}
		}
		chosen = append(chosen, i)
		from(i + 1)
		chosen = chosen[:len(chosen)-1]
	}
	from(0)
}

// bruteBest is the best score of each number of beds by trying all.
func bruteBest(f *field, most int, allowed func(chosen []int) bool) []float64 {
	best := make([]float64, most+1)
	for k := range best {
		best[k] = math.Inf(-1)
	}
	everyChoice(len(f.sites), f.conflict, func(chosen []int) {
		if k := len(chosen); k <= most && allowed(chosen) {
			best[k] = math.Max(best[k], f.score(chosen))
		}
	})
	return best
}

func sameOrNone(t require.TestingT, want, got float64) {
	if math.IsInf(want, -1) {
		assert.True(t, math.IsInf(got, -1), "%v", got)
		return
	}
	assert.InDelta(t, want, got, 1e-9)
}

func TestRowsAreTheBestOfTheirKind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := few(t, 2)
		want := demands{rowMin: rapid.IntRange(0, 2).Draw(t, "row min"), columns: rapid.Bool().Draw(t, "columns")}
		const most = 4
		brute := bruteBest(f, most, func(chosen []int) bool { return f.keeps(chosen, want) })
		rows, err := f.allRows(context.Background(), want, nil, most)
		require.NoError(t, err)
		for k := 1; k <= most; k++ {
			sameOrNone(t, brute[k], rows.value[k])
			if math.IsInf(rows.value[k], -1) {
				continue
			}
			chosen := f.traceRows(rows, k, want, nil)
			require.Len(t, chosen, k)
			require.True(t, f.keeps(chosen, want))
			noConflict(t, f, chosen)
			assert.InDelta(t, rows.value[k], f.score(chosen), 1e-9)
		}
	})
}

// keeps tells whether beds stand in one direction, rows either the same or a
// path apart, and as demanded: worked out from the beds, not the programme.
func (f *field) keeps(chosen []int, want demands) bool {
	inRow := map[int]int{}
	for i, a := range chosen {
		inRow[f.sites[a].row]++
		for _, b := range chosen[:i] {
			s, o := f.sites[a], f.sites[b]
			if s.direction != o.direction {
				return false
			}
			if s.row != o.row && math.Abs(s.across-o.across) < f.width+f.path-hair {
				return false
			}
			if turns := (s.along - o.along) / (f.length + f.path); want.columns && math.Abs(turns-math.Round(turns)) > 1e-6 {
				return false
			}
		}
	}
	for _, n := range inRow {
		if n < want.rowMin {
			return false
		}
	}
	return true
}

func TestPairsOfRowsAreTheBestOfTheirKind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := few(t, 1)
		want := demands{pairs: true, pairPath: 0}
		const most = 4
		// Rows of places stand 0.5 m apart: a pair is two rows just 1 m apart,
		// and each row is of one pair only.
		brute := make([]float64, most+1)
		for k := range brute {
			brute[k] = math.Inf(-1)
		}
		near := func(a, b int) bool {
			s, o := f.sites[a], f.sites[b]
			if s.row == o.row {
				return math.Abs(s.along-o.along) < 2.5-hair
			}
			return math.Abs(s.across-o.across) < 1-hair
		}
		everyChoice(len(f.sites), near, func(chosen []int) {
			if len(chosen) <= most && f.paired(chosen) {
				brute[len(chosen)] = math.Max(brute[len(chosen)], f.score(chosen))
			}
		})
		rows, err := f.allRows(context.Background(), want, nil, most)
		require.NoError(t, err)
		for k := 1; k <= most; k++ {
			sameOrNone(t, brute[k], rows.value[k])
			if !math.IsInf(rows.value[k], -1) {
				chosen := f.traceRows(rows, k, want, nil)
				require.Len(t, chosen, k)
				require.True(t, f.paired(chosen))
			}
		}
	})
}

// paired tells whether each row in use has at most one neighbour nearer than a
// path, a bed's width off.
func (f *field) paired(chosen []int) bool {
	rows := map[int]float64{}
	for _, c := range chosen {
		rows[f.sites[c].row] = f.sites[c].across
	}
	for r, at := range rows {
		near := 0
		for o, off := range rows {
			if d := math.Abs(at - off); o != r && d < 1.5-hair {
				near++
				if math.Abs(d-1) > 1e-9 {
					return false
				}
			}
		}
		if near > 1 {
			return false
		}
	}
	return true
}

func TestZonesAreTheBestOfTheirCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := few(t, 2)
		c := cut{orb.Point{2, 2}, orb.Point{0.6, 0.8}}
		const most = 3
		left, right := f.sides(c)
		brute := math.Inf(-1)
		beds := 0
		everyChoice(len(f.sites), f.conflict, func(chosen []int) {
			var l, r []int
			for _, i := range chosen {
				if left[i] {
					l = append(l, i)
				} else if right[i] {
					r = append(r, i)
				}
			}
			if len(l)+len(r) < len(chosen) || len(l) == 0 || len(r) == 0 || len(chosen) > most || !f.keeps(l, demands{}) || !f.keeps(r, demands{}) {
				return
			}
			if v := f.score(l) + f.score(r); len(chosen) > beds || len(chosen) == beds && v > brute {
				brute, beds = v, len(chosen)
			}
		})
		got, ok, err := f.inZones(context.Background(), []cut{c}, demands{}, nil, most)
		require.NoError(t, err)
		require.Equal(t, beds > 0, ok)
		if ok {
			assert.InDelta(t, brute, got.value, 1e-9)
			chosen := f.traceZones(got, demands{}, nil)
			assert.Len(t, chosen, beds)
			noConflict(t, f, chosen)
		}
	})
}

func TestBoundIsOverEveryLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := few(t, 2)
		usable := make([]bool, len(f.sites))
		for i := range usable {
			usable[i] = rapid.IntRange(0, 5).Draw(t, "usable") > 0
		}
		const most = 5
		brute := bruteBest(f, most, func(chosen []int) bool {
			for _, c := range chosen {
				if !usable[c] {
					return false
				}
			}
			return true
		})
		greatest := 0
		for k := 1; k <= most; k++ {
			if math.IsInf(brute[k], -1) {
				continue
			}
			greatest = k
			for _, steps := range []int{1, 30} {
				limits := bounds{f: f, usable: usable, steps: steps}
				bound, err := limits.score(context.Background(), k, brute[k]-1) // under it, so that the bound is its own
				require.NoError(t, err)
				assert.GreaterOrEqual(t, bound, brute[k]-1e-9)
			}
			polished, err := f.polish(context.Background(), make([][]int, 2), usable, k, 2000)
			require.NoError(t, err)
			noConflict(t, f, polished)
			if len(polished) == k {
				assert.LessOrEqual(t, f.score(polished), brute[k]+1e-9)
			}
		}
		limits := bounds{f: f, usable: usable, steps: 20}
		most2, err := limits.beds(context.Background(), most, 0)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, most2, greatest)
	})
}
