package takeoff

import (
	"cmp"
	"math"
	"slices"
)

// Limits of the exact search; defaults of ours.
const (
	// exactPieces is the most pieces for which the least number of boards is
	// searched for rather than only bounded.
	exactPieces = 30
	// exactKinds is the most different lengths for which more pieces than that are
	// searched too, up to mostOfKinds and for kindSteps: the sides and ends of many
	// beds are alike.
	exactKinds  = 6
	mostOfKinds = 200
	kindSteps   = 2_000_000
	// searchSteps is how often the search looks at a piece before it gives up:
	// under a second of work.
	searchSteps = 20_000_000
)

// micron is the unit of the search, in mm: whole numbers make it exact.
const micron = 1000

// Cutting cuts pieces from boards of one length with the fewest boards it can
// find, and says whether fewer are impossible. stock and kerf are mm; a saw
// cut goes with every piece, so a piece takes its length and a kerf of a board
// of stock and a kerf (a board cut up without a rest needs one cut fewer).
//
// It starts from first-fit decreasing. If that is over the lower bound of
// Martello and Toth (Knapsack Problems, 1990, section 8.3), up to 30 pieces go
// through an exact branch and bound by bin completion (Korf, A new algorithm
// for optimal bin packing, AAAI 2002), and so do up to 200 of six lengths or
// fewer. Otherwise, or past twenty (two) million looks at a piece, the best
// found stands, and is proved only if it meets the bound.
//
// Pieces longer than stock, and pieces of no length, are left out. Boards come
// fullest first, in each the longest piece first; equal pieces keep their order.
func Cutting(pieces []Piece, stock, kerf float64) (cuts []Cut, proved bool) {
	cuts, bound := cutting(pieces, stock, kerf)
	return cuts, bound == len(cuts)
}

// cutting is Cutting with the least number of boards that there could be.
func cutting(pieces []Piece, stock, kerf float64) (cuts []Cut, bound int) {
	order := make([]int, 0, len(pieces))
	for i, p := range pieces {
		if p.Length > 0 && p.Length <= stock+1e-6 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(pieces[b].Length, pieces[a].Length) })
	sizes := make([]int64, len(order))
	for i, o := range order {
		sizes[i] = int64(math.Round((pieces[o].Length + kerf) * micron))
	}
	boards, bound := fewest(sizes, int64(math.Round((stock+kerf)*micron)))
	slices.SortStableFunc(boards, func(a, b []int) int {
		return cmp.Or(cmp.Compare(load(sizes, b), load(sizes, a)), slices.Compare(a, b))
	})
	cuts = make([]Cut, len(boards))
	for i, board := range boards {
		used := 0.0
		for _, j := range board {
			p := pieces[order[j]]
			cuts[i].Pieces = append(cuts[i].Pieces, p)
			used += p.Length + kerf
		}
		cuts[i].Waste = math.Max(0, math.Round((stock-used)*micron)/micron)
	}
	return cuts, bound
}

// fewest packs sizes, in descending order, into bins of a capacity; each bin
// lists indices into sizes, ascending. bound is the least number of bins that
// there could be, at most their number.
func fewest(sizes []int64, capacity int64) (bins [][]int, bound int) {
	bins = firstFit(sizes, capacity)
	bound = min(lowerBound(sizes, capacity), len(bins))
	steps := stepsFor(sizes)
	if len(bins) == bound || steps == 0 {
		return bins, bound
	}
	s := search{sizes: sizes, capacity: capacity, steps: steps, failed: map[string]bool{}}
	for n := bound; n < len(bins); n++ {
		clear(s.failed)
		s.bins = s.bins[:0]
		switch found := s.fill(allOf(len(sizes)), n); {
		case found:
			return s.bins, n
		case s.steps < 0:
			return bins, n
		}
	}
	return bins, len(bins)
}

// stepsFor is how long sizes (descending) are searched; 0: not at all.
func stepsFor(sizes []int64) int {
	switch kinds := len(slices.Compact(slices.Clone(sizes))); {
	case len(sizes) <= exactPieces:
		return searchSteps
	case kinds <= exactKinds && len(sizes) <= mostOfKinds:
		return kindSteps
	}
	return 0
}

func allOf(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

func load(sizes []int64, board []int) int64 {
	l := int64(0)
	for _, j := range board {
		l += sizes[j]
	}
	return l
}

// firstFit puts each size, largest first, into the first bin that holds it.
func firstFit(sizes []int64, capacity int64) [][]int {
	var bins [][]int
	var room []int64
	for i, s := range sizes {
		b := slices.IndexFunc(room, func(r int64) bool { return r >= s })
		if b < 0 {
			b = len(bins)
			bins, room = append(bins, nil), append(room, capacity)
		}
		bins[b], room[b] = append(bins[b], i), room[b]-s
	}
	return bins
}
