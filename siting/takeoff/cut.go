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

// Cutting cuts pieces from boards of the lengths on sale with the least board in
// all that it can find, in as few boards as that allows, and says whether less is
// impossible. stocks, in any order, and kerf are mm; a saw cut goes with every
// piece, so a piece takes its length and a kerf of a board of its stock and a kerf
// (a board cut up without a rest needs one cut fewer).
//
// It starts from first-fit decreasing in boards of one length, each changed for the
// shortest that holds what is cut from it. If that is over the lower bound, up to
// 30 pieces go through an exact branch and bound by bin completion (Korf, A new
// algorithm for optimal bin packing, AAAI 2002), and so do up to 200 of six lengths
// or fewer: with boards of one length first and then of all. Otherwise, or past
// twenty (two) million looks at a piece, the best found stands, and is proved only
// if it meets the bound.
//
// Pieces longer than every stock, and pieces of no length, are left out. Longer
// boards come first, of one length the fullest first, in each the longest piece
// first; equal pieces keep their order.
func Cutting(pieces []Piece, stocks []float64, kerf float64) (cuts []Cut, proved bool) {
	cuts, bound := cutting(pieces, stocks, kerf)
	return cuts, boughtIn(cuts) < bound+1e-3
}

// boughtIn is the length of the boards of some cuts, mm.
func boughtIn(cuts []Cut) float64 {
	all := 0.0
	for _, c := range cuts {
		all += c.Board
	}
	return all
}

// cutting is Cutting with the least length of boards that there could be, mm.
func cutting(pieces []Piece, stocks []float64, kerf float64) (cuts []Cut, bound float64) {
	s := sale{kerf: int64(math.Round(kerf * micron))}
	for _, l := range usable(stocks, micron) {
		s.lengths = append(s.lengths, int64(math.Round(l)))
	}
	if len(s.lengths) == 0 {
		return nil, 0
	}
	order := make([]int, 0, len(pieces))
	for i, p := range pieces {
		if p.Length > 0 && int64(math.Round(p.Length*micron)) <= s.longest() {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(pieces[b].Length, pieces[a].Length) })
	sizes := make([]int64, len(order))
	for i, o := range order {
		sizes[i] = int64(math.Round(pieces[o].Length*micron)) + s.kerf
	}
	boards, least := s.least(sizes)
	slices.SortStableFunc(boards, func(a, b board) int {
		return cmp.Or(cmp.Compare(b.length, a.length), cmp.Compare(load(sizes, b.pieces), load(sizes, a.pieces)), slices.Compare(a.pieces, b.pieces))
	})
	cuts = make([]Cut, len(boards))
	for i, board := range boards {
		for _, j := range board.pieces {
			cuts[i].Pieces = append(cuts[i].Pieces, pieces[order[j]])
		}
		cuts[i].Board = float64(board.length) / micron
		cuts[i].Waste = float64(max(0, board.length-load(sizes, board.pieces))) / micron
	}
	return cuts, float64(least) / micron
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
