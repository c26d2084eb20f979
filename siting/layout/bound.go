package layout

import (
	"context"
	"math"
	"slices"
)

// bounds works out both bounds of one field, keeping the prices found from one
// call to the next.
type bounds struct {
	f       *field
	usable  []bool
	steps   int
	cover   *cover
	byScore *bounder
}

// score is no less than the score of any layout of count beds among the usable
// places. reached is the score of one that was found.
func (b *bounds) score(ctx context.Context, count int, reached float64) (float64, error) {
	plain := b.f.plainBound(b.usable, count)
	if plain <= reached+proofGap/10*math.Abs(reached) {
		return math.Max(reached, plain), nil
	}
	if b.byScore == nil {
		b.byScore = newBounder(b.f, b.usable, b.covered())
	}
	b.byScore.count, b.byScore.exact = count, true
	lagrange, err := b.byScore.run(ctx, b.steps, reached)
	return math.Max(reached, math.Min(plain, lagrange)), err
}

// beds is a number of beds, up to a greatest, that no layout of the usable places
// can exceed: the same bound with every place worth one. fits is how many were
// placed.
func (b *bounds) beds(ctx context.Context, count, fits int) (int, error) {
	if fits >= count {
		return count, nil
	}
	byCount := newBounder(b.f, b.usable, b.covered())
	byCount.count, byCount.row = count, 0
	byCount.base = make([]float64, len(b.f.sites))
	for i := range byCount.base {
		byCount.base[i] = 1
	}
	byCount.even(1)
	v, err := byCount.run(ctx, b.steps, float64(fits)+0.99)
	if err != nil {
		return 0, err
	}
	return max(fits, min(count, int(math.Floor(v+1e-6)))), nil
}

// covered is the points of the ground, laid out once.
func (b *bounds) covered() *cover {
	if b.cover == nil {
		c := coverOf(b.f)
		b.cover = &c
	}
	return b.cover
}

// plainBound is the weight of the best places, whatever lies in conflict, in one
// row.
func (f *field) plainBound(usable []bool, count int) float64 {
	var w []float64
	for i, s := range f.sites {
		if usable == nil || usable[i] {
			w = append(w, s.weight)
		}
	}
	if count == 0 || len(w) < count {
		return 0
	}
	slices.Sort(w)
	sum := -f.rowCost
	for _, v := range w[len(w)-count:] {
		sum += v
	}
	return sum
}
