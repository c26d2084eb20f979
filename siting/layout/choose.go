package layout

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// found is one layout and what it was chosen from.
type found struct {
	places  []place // best first
	chosen  []int   // of places, ascending
	refused []int
	tried   int
}

func (f found) cost() float64 {
	sum := 0.0
	for _, c := range f.chosen {
		sum += f.places[c].cost
	}
	return sum
}

// poolLimit bounds the places looked at in one exchange of two beds.
const poolLimit = 64

// layout tries a lattice and chooses from it. The best are taken first; where
// not all beds fit so, they are also taken row by row, which packs tighter.
func (s *search) layout(ctx context.Context, l lattice) (found, error) {
	places, refused, tried, err := s.places(ctx, l)
	if err != nil {
		return found{}, err
	}
	byRow := make([]int, len(places)) // byRow[i]: rank of the i-th place in lattice order
	order := make([]int, len(places))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return comparePlaces(places[a], places[b]) })
	f := found{places: make([]place, len(places)), refused: refused, tried: tried}
	for rank, i := range order {
		f.places[rank] = places[i]
		byRow[i] = rank
		order[rank] = rank
	}
	if f.chosen, err = s.improve(ctx, f.places, s.take(f.places, order)); err != nil {
		return found{}, err
	}
	if len(f.chosen) < s.wish.Count {
		tight := f
		if tight.chosen, err = s.improve(ctx, f.places, s.take(f.places, byRow)); err != nil {
			return found{}, err
		}
		if len(tight.chosen) > len(f.chosen) || len(tight.chosen) == len(f.chosen) && tight.cost() < f.cost()-hair {
			f = tight
		}
	}
	return f, nil
}

// comparePlaces puts the cheaper first, then the nearer to the gate, then the
// western, then the southern.
func comparePlaces(a, b place) int {
	return cmp.Or(
		cmp.Compare(a.cost, b.cost),
		cmp.Compare(a.gate, b.gate),
		cmp.Compare(a.bed.Centre[0], b.bed.Centre[0]),
		cmp.Compare(a.bed.Centre[1], b.bed.Centre[1]),
	)
}

// take chooses in the order given, whatever is clear of those chosen before.
func (s *search) take(places []place, order []int) []int {
	var chosen []int
	for _, i := range order {
		if len(chosen) == s.wish.Count {
			break
		}
		if !slices.ContainsFunc(chosen, func(j int) bool { return s.clash(places[i], places[j]) }) {
			chosen = append(chosen, i)
		}
	}
	slices.Sort(chosen)
	return chosen
}

// clash is true for two beds nearer than a path.
func (s *search) clash(a, b place) bool {
	e, n := b.bed.Centre[0]-a.bed.Centre[0], b.bed.Centre[1]-a.bed.Centre[1]
	apart := math.Hypot(e, n)
	if apart >= math.Hypot(s.wish.Length, s.wish.Width)+s.wish.Path {
		return false
	}
	if apart < s.wish.Width+s.wish.Path-hair { // the circles inside the beds are nearer
		return true
	}
	if math.Abs(float64(a.bed.LongSide-b.bed.LongSide)) > 1e-12 {
		return s.tooNear(a, b.shape, s.wish.Path)
	}
	le, ln := a.bed.LongSide.Unit()
	along := math.Abs(e*le+n*ln) - s.wish.Length
	across := math.Abs(e*ln-n*le) - s.wish.Width
	if along < -hair && across < -hair {
		return true
	}
	return math.Hypot(math.Max(0, along), math.Max(0, across)) < s.wish.Path-hair
}

// improve makes exchanges until none helps or Options.Steps are made.
func (s *search) improve(ctx context.Context, places []place, chosen []int) ([]int, error) {
	for range s.opt.Steps {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		next, ok := s.exchange(places, chosen)
		if !ok {
			break
		}
		slices.Sort(next)
		chosen = next
	}
	return chosen, nil
}

// pools sorts the places by which chosen beds they clash with. Each list is
// best first.
type pools struct {
	free []int         // clash with none
	one  map[int][]int // clash with this chosen bed alone; a chosen bed is in its own
	two  map[[2]int][]int
}

func (s *search) pool(places []place, chosen []int) pools {
	p := pools{one: map[int][]int{}, two: map[[2]int][]int{}}
	for i := range places {
		var hit [2]int
		n := 0
		for _, c := range chosen {
			if s.clash(places[i], places[c]) {
				if n < 2 {
					hit[n] = c
				}
				n++
			}
		}
		switch n {
		case 0:
			p.free = append(p.free, i)
		case 1:
			p.one[hit[0]] = append(p.one[hit[0]], i)
		case 2:
			p.two[hit] = append(p.two[hit], i)
		}
	}
	return p
}

// exchange finds the first change that helps: a bed more while some are
// wanting, else one bed, or two, for cheaper ones.
func (s *search) exchange(places []place, chosen []int) ([]int, bool) {
	p := s.pool(places, chosen)
	if len(chosen) < s.wish.Count {
		if len(p.free) > 0 {
			return append(slices.Clone(chosen), p.free[0]), true
		}
		for _, c := range chosen {
			if pair, ok := s.cheapestPair(places, p.one[c], math.Inf(1)); ok {
				return swapped(chosen, []int{c}, pair[:]), true
			}
		}
	}
	for _, c := range chosen {
		if alone := p.one[c]; len(alone) > 0 && places[alone[0]].cost < places[c].cost-hair {
			return swapped(chosen, []int{c}, alone[:1]), true
		}
	}
	return s.exchangeTwo(places, chosen, p)
}

// exchangeTwo finds two beds for which a cheaper two can be had: two that fit
// where one lay, so that the dearest of the others can go, or two where two
// neighbours lay. Beds that are no neighbours are covered one by one.
func (s *search) exchangeTwo(places []place, chosen []int, p pools) ([]int, bool) {
	for i, c := range chosen {
		if len(chosen) < 2 {
			break
		}
		dearest := chosen[len(chosen)-1] // chosen is ascending and places are best first
		if i == len(chosen)-1 {
			dearest = chosen[i-1]
		}
		limit := places[c].cost + places[dearest].cost - hair
		if pair, ok := s.cheapestPair(places, p.one[c], limit); ok {
			return swapped(chosen, []int{c, dearest}, pair[:]), true
		}
	}
	for i, c := range chosen {
		for _, d := range chosen[i+1:] {
			both := p.two[[2]int{c, d}]
			if len(both) == 0 {
				continue
			}
			pool := slices.Concat(p.one[c], p.one[d], both)
			slices.Sort(pool)
			limit := places[c].cost + places[d].cost - hair
			if pair, ok := s.cheapestPair(places, pool, limit); ok {
				return swapped(chosen, []int{c, d}, pair[:]), true
			}
		}
	}
	return nil, false
}

// cheapestPair is the pair of places that do not clash, of least cost under a
// limit. pool is best first, and only its first poolLimit are looked at.
func (s *search) cheapestPair(places []place, pool []int, limit float64) (pair [2]int, ok bool) {
	pool = pool[:min(len(pool), poolLimit)]
	for i, a := range pool {
		for _, b := range pool[i+1:] {
			sum := places[a].cost + places[b].cost
			if sum >= limit {
				break
			}
			if !s.clash(places[a], places[b]) {
				pair, ok, limit = [2]int{a, b}, true, sum
				break
			}
		}
	}
	return pair, ok
}

// swapped is chosen without out and with in.
func swapped(chosen, out, in []int) []int {
	kept := slices.DeleteFunc(slices.Clone(chosen), func(c int) bool { return slices.Contains(out, c) })
	return append(kept, in...)
}
