package layout

import (
	"context"
	"math"
)

// family is all layouts in rows of one direction; with columns asked for, of
// one phase of the columns.
type family struct {
	direction int
	phase     int64 // of the middles along the row, micrometres; -1: any
}

// families lists them, in order.
func (f *field) families(want demands) []family {
	var out []family
	for d, dir := range f.directions {
		if dir.first == dir.end {
			continue
		}
		if !want.columns {
			out = append(out, family{d, -1})
			continue
		}
		seen := map[int64]bool{}
		for _, s := range f.sites[f.rows[dir.first].first:f.rows[dir.end-1].end] {
			if phase := f.phase(s); !seen[phase] {
				seen[phase] = true
				out = append(out, family{d, phase})
			}
		}
	}
	return out
}

// phase is how far a place is along its column, micrometres.
func (f *field) phase(s site) int64 {
	pitch := math.Round((f.length + f.path) * 1e6)
	phase := int64(math.Mod(math.Round(s.along*1e6), pitch))
	if phase < 0 {
		phase += int64(pitch)
	}
	// Middles are multiples of a step that need not be whole micrometres.
	if int64(pitch)-phase < 3 {
		phase = 0
	}
	return (phase + 2) / 5
}

// programmeOf is the solved programme of a family.
func (f *field) programmeOf(fam family, want demands, usable []bool, most int) *programme {
	if fam.phase >= 0 {
		inPhase := make([]bool, len(f.sites))
		dir := f.directions[fam.direction]
		for i := f.rows[dir.first].first; i < f.rows[dir.end-1].end; i++ {
			inPhase[i] = (usable == nil || usable[i]) && f.phase(f.sites[i]) == fam.phase
		}
		usable = inPhase
	}
	p := &programme{f: f, d: f.directions[fam.direction], weight: f.weightOf, usable: usable, want: want, most: most}
	p.solve()
	return p
}

// bestRows is, for every number of beds, the best family and its value.
type bestRows struct {
	value []float64
	of    []family
}

// allRows solves every family.
func (f *field) allRows(ctx context.Context, want demands, usable []bool, most int) (bestRows, error) {
	fams := f.families(want)
	values := make([][]float64, len(fams))
	err := shareOut(ctx, len(fams), func(i int) {
		p := f.programmeOf(fams[i], want, usable, most)
		values[i] = p.sum[len(p.sum)-1]
	})
	if err != nil {
		return bestRows{}, err
	}
	b := bestRows{make([]float64, most+1), make([]family, most+1)}
	for k := range b.value {
		b.value[k] = math.Inf(-1)
		for i, v := range values {
			if v[k] > b.value[k]+hair {
				b.value[k], b.of[k] = v[k], fams[i]
			}
		}
	}
	b.value[0] = 0
	return b, nil
}

// fits is the greatest number of beds that fit.
func (b bestRows) fits() int {
	k := len(b.value) - 1
	for k > 0 && math.IsInf(b.value[k], -1) {
		k--
	}
	return k
}

// traceRows is the sites of the best k beds.
func (f *field) traceRows(b bestRows, k int, want demands, usable []bool) []int {
	if k == 0 {
		return nil
	}
	return f.programmeOf(b.of[k], want, usable, k).trace(k)
}
