package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/siting/bed"
	"crossfall/terrain"
)

// commonBearing is the mean bearing of a layout's long sides, taken as lines
// (by doubled angles); without a bed, the contour of the mean gradient inside
// the boundary.
func (s *search) commonBearing(f found) terrain.Bearing {
	if len(f.chosen) > 0 {
		e, n := 0.0, 0.0
		for _, c := range f.chosen {
			double := 2 * float64(f.places[c].bed.LongSide)
			e, n = e+math.Sin(double), n+math.Cos(double)
		}
		if math.Hypot(e, n) > 1e-6 {
			return terrain.BearingOf(e, n) / 2
		}
		return f.places[f.chosen[0]].bed.LongSide
	}
	return s.contour(s.plotGradient())
}

// plotGradient is the mean gradient inside the boundary.
func (s *search) plotGradient() terrain.Gradient {
	var sum terrain.Gradient
	n := 0.0
	for _, p := range s.middles(s.ownLattice()) {
		if g, ok := s.slopes.GradientAt(p); ok {
			sum.East, sum.North, n = sum.East+g.East, sum.North+g.North, n+1
		}
	}
	if n == 0 {
		return terrain.Gradient{}
	}
	return terrain.Gradient{East: sum.East / n, North: sum.North / n}
}

// preferRows decides between the two layouts.
func (s *search) preferRows(rows, own found) bool {
	if len(rows.chosen) != len(own.chosen) {
		return len(rows.chosen) > len(own.chosen)
	}
	return len(rows.chosen) > 0 && rows.cost() <= own.cost()+s.opt.NeatCost*math.Abs(own.cost())+hair
}

// named puts the beds in order, from the gate or, without one, from the top of
// the slope, and names them "bed 1" on, leaving out names of pinned beds.
func (s *search) named(f found) []bed.Bed {
	up := s.plotGradient()
	key := func(p place) float64 {
		if s.gates.Measurable() {
			return p.gate
		}
		return -math.Round((p.bed.Centre[0]*up.East+p.bed.Centre[1]*up.North)*1e9) / 1e9
	}
	chosen := make([]place, len(f.chosen))
	for i, c := range f.chosen {
		chosen[i] = f.places[c]
	}
	slices.SortStableFunc(chosen, func(a, b place) int {
		return cmp.Or(
			cmp.Compare(key(a), key(b)),
			cmp.Compare(a.bed.Centre[0], b.bed.Centre[0]),
			cmp.Compare(a.bed.Centre[1], b.bed.Centre[1]),
		)
	})
	out := make([]bed.Bed, len(chosen))
	n := 0
	for i, c := range chosen {
		for n++; s.pinned[nameKey(fmt.Sprintf("bed %d", n))]; n++ {
		}
		out[i] = c.bed
		out[i].Name = fmt.Sprintf("bed %d", n)
	}
	return out
}

func nameKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// reasonsTold is the number of reasons that Short names.
const reasonsTold = 3

// short says how many fit and what stops most of the other places.
func (s *search) short(f found) string {
	head := fmt.Sprintf("%d of %d beds fit", len(f.chosen), s.wish.Count)
	switch {
	case s.wish.Count == 1:
		head = "the bed does not fit"
	case len(f.chosen) == 0:
		head = fmt.Sprintf("none of the %d beds fits", s.wish.Count)
	}
	counts := slices.Clone(f.refused)
	counts[byBeds] = len(f.places) - len(f.chosen)
	if len(f.chosen) == 0 {
		counts[byBeds] = 0
	}
	order := make([]int, 0, len(counts))
	for r, n := range counts {
		if n > 0 {
			order = append(order, r)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(counts[b], counts[a]) })
	var told []string
	for _, r := range order[:min(len(order), reasonsTold)] {
		told = append(told, s.reasons[r])
	}
	if len(told) == 0 {
		return fmt.Sprintf("%s: the plot is too small for a bed of %.2f by %.2f m with %.2f m round it", head, s.wish.Length, s.wish.Width, s.opt.Margin)
	}
	return fmt.Sprintf("%s: most other places are stopped by %s", head, listed(told))
}

// listed joins words as "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
