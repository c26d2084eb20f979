package layout

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
)

// polisher improves a layout by simulated annealing (Kirkpatrick, Gelatt and
// Vecchi 1983) over all places, whatever their direction. A move takes a place
// and turns out the beds that it conflicts with; where two are turned out,
// another place is found for the second.
type polisher struct {
	f      *field
	usable []bool
	count  int // beds wished
	rng    *rand.Rand
	chosen []int
	inRow  []int // beds in each row
	hit    []int // of chosen, in the move at hand
	heat   float64
}

// polishHeat is the temperature at the start over the spread of the weights and
// the cost of a row, and polishCool the part of it at the end; defaults of ours.
const (
	polishHeat = 0.3
	polishCool = 1e-3
)

// polish is the best of several runs, one from each start, each with a seed of
// its own: the same whatever number of cores they share.
func (f *field) polish(ctx context.Context, starts [][]int, usable []bool, count, moves int) ([]int, error) {
	found := make([][]int, len(starts))
	err := shareOut(ctx, len(starts), func(i int) {
		p := polisher{f: f, usable: usable, count: count, rng: rand.New(rand.NewPCG(polishSeed, uint64(i)))}
		found[i] = p.run(ctx, starts[i], moves)
	})
	if err != nil {
		return nil, err
	}
	var best []int
	for _, c := range found {
		if f.better(c, best) {
			best = c
		}
	}
	return best, nil
}

// polishSeed begins the random numbers.
const polishSeed = 1

// better is true for more beds, or as many of a greater score.
func (f *field) better(a, b []int) bool {
	if len(a) != len(b) {
		return len(a) > len(b)
	}
	return f.score(a) > f.score(b)+hair
}

func (p *polisher) run(ctx context.Context, start []int, moves int) []int {
	p.chosen = append(make([]int, 0, p.count), start...)
	p.inRow = make([]int, len(p.f.rows))
	for _, i := range p.chosen {
		p.inRow[p.f.sites[i].row]++
	}
	hot := polishHeat * (p.f.spread() + p.f.rowCost)
	best, now := slices.Clone(p.chosen), p.f.score(p.chosen)
	bestScore := now
	for m := range moves {
		if m%1024 == 0 {
			if ctx.Err() != nil {
				return best
			}
			p.heat = hot * math.Pow(polishCool, float64(m)/float64(moves))
		}
		now += p.move()
		if len(p.chosen) > len(best) || len(p.chosen) == len(best) && now > bestScore+1e-7 {
			best, bestScore = append(best[:0], p.chosen...), now
		}
	}
	return best
}

// spread is the standard deviation of the weights.
func (f *field) spread() float64 {
	sum, square, n := 0.0, 0.0, float64(len(f.sites))
	for _, s := range f.sites {
		sum += s.weight
		square += s.weight * s.weight
	}
	return math.Sqrt(math.Max(0, square/n-sum/n*sum/n))
}

// move makes one move or leaves all as it is, and tells what it gained.
func (p *polisher) move() float64 {
	first := p.propose()
	if first < 0 || !p.meets(first, 2) {
		return 0
	}
	size := len(p.chosen)
	out := [2]int{-1, -1}
	for i, h := range p.hit {
		out[i] = p.chosen[h]
	}
	if len(p.hit) == 0 && size == p.count {
		out[0] = p.chosen[p.rng.IntN(size)]
	}
	gain := 0.0
	for _, o := range out {
		if o >= 0 {
			gain += p.take(o)
		}
	}
	gain += p.put(first)
	second := -1
	if len(p.chosen) < min(size+1, p.count) {
		if second = p.another(); second >= 0 {
			gain += p.put(second)
		}
	}
	if len(p.chosen) > size || len(p.chosen) == size && (gain >= 0 || p.rng.Float64() < math.Exp(gain/p.heat)) {
		return gain
	}
	if second >= 0 {
		p.take(second)
	}
	p.take(first)
	for _, o := range out {
		if o >= 0 {
			p.put(o)
		}
	}
	return 0
}

// propose is a place: in a row in use, beside a bed, or anywhere; -1 for none.
func (p *polisher) propose() int {
	i := p.rng.IntN(len(p.f.sites))
	if n := len(p.chosen); n > 0 {
		c := p.chosen[p.rng.IntN(n)]
		switch p.rng.IntN(4) {
		case 0, 1:
			r := p.f.rows[p.f.sites[c].row]
			i = r.first + p.rng.IntN(r.end-r.first)
		case 2:
			i = max(0, min(len(p.f.sites)-1, c+p.rng.IntN(7)-3))
		}
	}
	if p.usable != nil && !p.usable[i] || slices.Contains(p.chosen, i) {
		return -1
	}
	return i
}

// another is a place that conflicts with nothing; -1 where none is met with.
func (p *polisher) another() int {
	for range 4 {
		if i := p.propose(); i >= 0 && p.meets(i, 0) {
			return i
		}
	}
	return -1
}

// meets lists the beds that a place conflicts with, and is false where they are
// more than a number.
func (p *polisher) meets(i, most int) bool {
	p.hit = p.hit[:0]
	for k, c := range p.chosen {
		if p.f.conflict(i, c) {
			if len(p.hit) == most {
				return false
			}
			p.hit = append(p.hit, k)
		}
	}
	return true
}

// put and take change one bed, and tell what that gains.
func (p *polisher) put(i int) float64 {
	s := &p.f.sites[i]
	p.chosen = append(p.chosen, i)
	p.inRow[s.row]++
	if p.inRow[s.row] == 1 {
		return s.weight - p.f.rowCost
	}
	return s.weight
}

func (p *polisher) take(i int) float64 {
	k, last := slices.Index(p.chosen, i), len(p.chosen)-1
	p.chosen[k] = p.chosen[last]
	p.chosen = p.chosen[:last]
	s := &p.f.sites[i]
	p.inRow[s.row]--
	if p.inRow[s.row] == 0 {
		return p.f.rowCost - s.weight
	}
	return -s.weight
}
