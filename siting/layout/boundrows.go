package layout

import (
	"context"
	"math"
)

// solve is the bound at the prices as they stand, and the choice that makes it.
func (b *bounder) solve(ctx context.Context) (float64, []int, error) {
	f := b.f
	const batch = 64
	err := shareOut(ctx, (len(f.rows)+batch-1)/batch, func(part int) {
		line := intervals{pitch: f.length + f.path}
		var sums []float64
		for r := part * batch; r < min(len(f.rows), (part+1)*batch); r++ {
			b.values[r] = append(b.values[r][:0], 0)
			if !b.open[r] {
				continue
			}
			sums = b.charge(r, sums)
			row := f.rows[r]
			line.fill(f.sites[row.first:row.end], row.first, b.weight, b.usable, b.count)
			for u := 1; u < len(line.best); u++ {
				b.values[r] = append(b.values[r], line.value(u))
			}
		}
	})
	if err != nil {
		return 0, nil, err
	}
	value, perRow := b.share()
	var chosen []int
	line := intervals{pitch: f.length + f.path}
	for r, u := range perRow {
		if u > 0 {
			row := f.rows[r]
			line.fill(f.sites[row.first:row.end], row.first, b.weight, b.usable, u)
			chosen = append(chosen, line.trace(u)...)
		}
	}
	for _, p := range b.price {
		value += p
	}
	return value, chosen, nil
}

// charge takes the prices off the weights of the places of a row. sums is room for
// the running sum of its prices.
func (b *bounder) charge(r int, sums []float64) []float64 {
	sum := 0.0
	sums = append(sums[:0], 0)
	for _, c := range b.cover.strips[r] {
		sum += b.price[c]
		sums = append(sums, sum)
	}
	for i := b.f.rows[r].first; i < b.f.rows[r].end; i++ {
		run := b.cover.runs[i]
		b.weight[i] = b.base[i] - (sums[run[1]] - sums[run[0]])
	}
	return sums
}

// share shares the beds out among the rows, by dynamic programming.
func (b *bounder) share() (float64, []int) {
	width := b.count + 1
	sum := make([]float64, width)
	for k := 1; k < width; k++ {
		sum[k] = math.Inf(-1)
	}
	picks := make([]uint8, len(b.values)*width)
	top := 0 // beds placed so far at most
	for r, v := range b.values {
		top = min(top+len(v)-1, b.count)
		for k := top; k > 0; k-- { // from many down: each row counts once
			for u := 1; u < len(v) && u <= k; u++ {
				if s := sum[k-u] + v[u] - b.row; s > sum[k] {
					sum[k], picks[r*width+k] = s, uint8(u)
				}
			}
		}
	}
	k := b.count
	if !b.exact {
		for i, s := range sum {
			if s > sum[k] {
				k = i
			}
		}
	}
	value := sum[k]
	perRow := make([]int, len(b.values))
	if math.IsInf(value, -1) {
		return value, perRow
	}
	for r := len(b.values) - 1; r >= 0; r-- {
		perRow[r] = int(picks[r*width+k])
		k -= perRow[r]
	}
	return value, perRow
}
