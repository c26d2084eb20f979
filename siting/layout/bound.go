package layout

import (
	"context"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// bounder works out what no layout of the places can be worth more than: the
// Lagrangian bound (Held, Wolfe and Crowder 1974) over points of the ground, on
// each of which at most one bed, grown by half a path, may lie. What is left when
// the points are priced is a choice of rows that take no heed of one another,
// each the best choice of intervals: solved exactly, so that every price gives a
// bound. The prices are bettered by steps along the subgradient.
type bounder struct {
	f      *field
	usable []bool
	count  int
	exact  bool      // just count beds, and not up to count
	base   []float64 // weight by site
	row    float64   // cost of a row
	start  []int32   // start[i]: where the points of the i-th site begin
	points []int32   // under a grown bed, by site
	price  []float64 // by point
	weight []float64 // by site, less its prices
	values [][]float64
	load   []float64
}

// boundSteps is how many times the prices are bettered, boundPatience after how
// many without gain the step is halved; defaults of ours.
const (
	boundSteps    = 50
	boundPatience = 4
	leastRelax    = 0.02
)

// bounds works out both bounds of one field, keeping the prices found from one
// call to the next.
type bounds struct {
	f       *field
	usable  []bool
	steps   int
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
		b.byScore = newBounder(b.f, b.usable)
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
	byCount := newBounder(b.f, b.usable)
	byCount.count, byCount.row = count, 0
	byCount.base = make([]float64, len(b.f.sites))
	for i := range byCount.base {
		byCount.base[i] = 1
	}
	v, err := byCount.run(ctx, b.steps, float64(fits)+0.99)
	if err != nil {
		return 0, err
	}
	return max(fits, min(count, int(math.Floor(v+1e-6)))), nil
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

// mostCover is how many points lie under all places: they stand further apart
// where there are many places; a default of ours.
const mostCover = 1_000_000

// spacingOf is how far apart the points stand, m, at most a little under the
// width of a grown bed, so that every place holds points.
func spacingOf(f *field) float64 {
	long, short := f.length+f.path, f.width+f.path
	closest := math.Sqrt(long * short * float64(len(f.sites)) / mostCover)
	return math.Min(0.7*short, math.Max(short/6, closest))
}

func newBounder(f *field, usable []bool) *bounder {
	b := &bounder{
		f: f, usable: usable, base: f.weightOf, row: f.rowCost,
		weight: make([]float64, len(f.sites)), values: make([][]float64, len(f.rows)), start: make([]int32, len(f.sites)+1),
	}
	spacing := spacingOf(f)
	bound := orb.Bound{Min: orb.Point{math.Inf(1), math.Inf(1)}, Max: orb.Point{math.Inf(-1), math.Inf(-1)}}
	for _, s := range f.sites {
		bound = bound.Extend(orb.Point{s.x, s.y})
	}
	bound = bound.Pad(f.length + f.path)
	cols := int((bound.Max[0]-bound.Min[0])/spacing) + 1
	rows := int((bound.Max[1]-bound.Min[1])/spacing) + 1
	b.price, b.load = make([]float64, cols*rows), make([]float64, cols*rows)
	long, short := (f.length+f.path)/2, (f.width+f.path)/2
	for i, s := range f.sites {
		b.start[i] = int32(len(b.points))
		if usable != nil && !usable[i] {
			continue
		}
		d := f.directions[s.direction]
		reachX := long*math.Abs(d.east) + short*math.Abs(d.north)
		reachY := long*math.Abs(d.north) + short*math.Abs(d.east)
		x, y := s.x-bound.Min[0], s.y-bound.Min[1]
		for row := int(math.Ceil((y - reachY) / spacing)); row <= int((y+reachY)/spacing); row++ {
			for col := int(math.Ceil((x - reachX) / spacing)); col <= int((x+reachX)/spacing); col++ {
				px, py := float64(col)*spacing-x, float64(row)*spacing-y
				// Strictly inside, so that two that only touch share no point.
				if math.Abs(px*d.east+py*d.north) < long-1e-6 && math.Abs(py*d.east-px*d.north) < short-1e-6 {
					b.points = append(b.points, int32(row*cols+col))
				}
			}
		}
	}
	b.start[len(f.sites)] = int32(len(b.points))
	return b
}

// under is the points under the i-th place.
func (b *bounder) under(i int) []int32 { return b.points[b.start[i]:b.start[i+1]] }

// run steps along the subgradient.
func (b *bounder) run(ctx context.Context, steps int, reached float64) (float64, error) {
	best, relax, idle := math.Inf(1), 1.0, 0
	for range steps {
		value, chosen, err := b.solve(ctx)
		if err != nil {
			return 0, err
		}
		if value < best-1e-9 {
			best, idle = value, 0
		} else if idle++; idle == boundPatience {
			relax, idle = relax/2, 0
		}
		if best <= reached+proofGap/10*math.Abs(reached) || relax < leastRelax {
			break
		}
		for i := range b.load {
			b.load[i] = 0
		}
		for _, i := range chosen {
			for _, c := range b.under(i) {
				b.load[c]++
			}
		}
		square := 0.0
		for c, n := range b.load {
			if g := n - 1; n > 0 && g > 0 || b.price[c] > 0 {
				square += g * g
			}
		}
		if square == 0 {
			break
		}
		step := relax * math.Max(value-reached, 1e-6) / square
		for c, n := range b.load {
			if g := n - 1; g > 0 || b.price[c] > 0 {
				b.price[c] = math.Max(0, b.price[c]+step*g)
			}
		}
	}
	return best, nil
}

// solve is the bound at the prices as they stand, and the choice that makes it.
func (b *bounder) solve(ctx context.Context) (float64, []int, error) {
	f := b.f
	const batch = 64
	err := shareOut(ctx, (len(f.rows)+batch-1)/batch, func(part int) {
		var line intervals
		line.pitch = f.length + f.path
		for r := part * batch; r < min(len(f.rows), (part+1)*batch); r++ {
			row := f.rows[r]
			for i := row.first; i < row.end; i++ {
				w := b.base[i]
				for _, c := range b.under(i) {
					w -= b.price[c]
				}
				b.weight[i] = w
			}
			line.fill(f.sites[row.first:row.end], row.first, b.weight, b.usable, b.count)
			v := b.values[r][:0]
			for u := range line.best {
				v = append(v, line.value(u))
			}
			b.values[r] = v
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
