package layout

import (
	"context"
	"math"
	"slices"
)

// bounder works out what no layout of the places can be worth more than: the
// Lagrangian bound (Held, Wolfe and Crowder 1974) over points of the ground, on
// each of which at most one bed, grown by half a path, may lie. What is left when
// the points are priced is a choice of rows that take no heed of one another,
// each the best choice of intervals: solved exactly, so that every price gives a
// bound. The prices are bettered by the volume algorithm (Barahona and Anbil
// 2000): along the subgradient of a running mean of the choices.
type bounder struct {
	f      *field
	cover  *cover
	usable []bool
	count  int
	exact  bool        // just count beds, and not up to count
	base   []float64   // weight by site
	row    float64     // cost of a row
	price  []float64   // by point
	weight []float64   // by site, less its prices
	values [][]float64 // by row: with 0, 1, 2... beds
	open   []bool      // rows that hold a usable place
}

func newBounder(f *field, usable []bool, c *cover) *bounder {
	open := make([]bool, len(f.rows))
	for i, site := range f.sites {
		open[site.row] = open[site.row] || usable == nil || usable[i]
	}
	return &bounder{
		open: open, f: f, usable: usable, base: f.weightOf, row: f.rowCost, cover: c,
		weight: make([]float64, len(f.sites)), values: make([][]float64, len(f.rows)), price: make([]float64, c.count),
	}
}

// How the steps go, defaults of ours: their greatest number; the part of the way
// to the known layout that the first goes; what the part is multiplied with after
// a gain and after boundPatience steps without one; and the weight of the newest
// choice in the mean.
const (
	boundSteps    = 150
	firstPart     = 0.3
	longer        = 1.1
	shorter       = 0.66
	boundPatience = 2
	leastPart     = 1e-4
	newest        = 0.1
)

// run betters the prices.
func (b *bounder) run(ctx context.Context, steps int, reached float64) (float64, error) {
	best, chosen, err := b.solve(ctx)
	if err != nil {
		return 0, err
	}
	mean, load := make([]float64, b.cover.count), make([]float64, b.cover.count)
	b.loads(mean, chosen)
	kept := slices.Clone(b.price)
	part, idle := firstPart, 0
	for range steps {
		if best <= reached+proofGap/10*math.Abs(reached) || part < leastPart {
			break
		}
		square := 0.0
		for c, m := range mean {
			if g := m - 1; g > 0 || kept[c] > 0 {
				square += g * g
			}
		}
		if square < 1e-12 {
			break
		}
		step := part * math.Max(best-reached, 1e-6) / square
		for c, m := range mean {
			b.price[c] = math.Max(0, kept[c]+step*(m-1))
		}
		value, chosen, err := b.solve(ctx)
		if err != nil {
			return 0, err
		}
		b.loads(load, chosen)
		slope := 0.0
		for c, l := range load {
			slope += (l - 1) * (mean[c] - 1)
			mean[c] += newest * (l - mean[c])
		}
		if value < best-1e-9 {
			best, idle = value, 0
			copy(kept, b.price)
			if slope > 0 {
				part = math.Min(2, part*longer)
			}
		} else if idle++; idle >= boundPatience {
			part, idle = part*shorter, 0
		}
	}
	copy(b.price, kept)
	return best, nil
}

// even sets the price of every point under a usable place so that a place of the
// middle sort is just paid for: the bound is then near that of the area which
// places lie over, as good a start as any where all places are worth the same.
func (b *bounder) even(worth float64) {
	points, places := 0, 0
	under := make([]bool, b.cover.count)
	for i := range b.f.sites {
		if b.usable == nil || b.usable[i] {
			list := b.cover.under(b.f, i)
			points, places = points+len(list), places+1
			for _, c := range list {
				under[c] = true
			}
		}
	}
	for c, is := range under {
		if is {
			b.price[c] = worth * float64(places) / float64(points)
		}
	}
}

// loads is how many of the chosen places lie over each point.
func (b *bounder) loads(load []float64, chosen []int) {
	clear(load)
	for _, i := range chosen {
		for _, c := range b.cover.under(b.f, i) {
			load[c]++
		}
	}
}
