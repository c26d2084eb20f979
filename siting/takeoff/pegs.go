package takeoff

import (
	"cmp"
	"math"
	"slices"
)

// stake is the length that pegs are cut from, mm (common practice, no source).
const stake = 2400.0

// PegsFrom is how many pegs come out of one stake; all arguments in the same
// unit, peg over 0.
func PegsFrom(stake, peg, kerf float64) int {
	return int(math.Max(0, math.Floor((stake+kerf)/(peg+kerf)+1e-9)))
}

// countPegs gathers pegs of one length and size, shortest first, and the stakes
// that they are cut from.
func countPegs(list *List, beds []BedInput, kerf float64) {
	for _, b := range beds {
		if b.Pegs == 0 {
			continue
		}
		i := slices.IndexFunc(list.Pegs, func(p PegLine) bool { return p.Length == b.PegLength && p.Size == b.PegSize })
		if i < 0 {
			i = len(list.Pegs)
			list.Pegs = append(list.Pegs, PegLine{Length: b.PegLength, Size: b.PegSize})
		}
		list.Pegs[i].Count += b.Pegs
	}
	for i := range list.Pegs {
		p := &list.Pegs[i]
		if n := PegsFrom(stake, p.Length, kerf); n > 0 {
			p.Stake, p.FromStake, p.Stakes = stake, n, (p.Count+n-1)/n
		}
	}
	slices.SortFunc(list.Pegs, func(p, q PegLine) int {
		return cmp.Or(cmp.Compare(p.Length, q.Length), cmp.Compare(p.Size, q.Size))
	})
}

// Screws (common practice, no source).
const (
	screwsPerPeg    = 2 // through each course
	screwsPerCorner = 3 // through each course
	screwsPerCross  = 2 // for each cross board
)

// countScrews counts two screws for each peg and course, three for each corner
// and course, and two for each cross board. Courses are those of the downhill
// side for pegs, and of each side for its two corners.
func countScrews(list *List, said *lines, beds []BedInput, heights []float64) {
	for _, b := range beds {
		up, down := len(courses(b.BoardUphill, heights)), len(courses(b.BoardDownhill, heights))
		list.Screws += screwsPerPeg*b.Pegs*max(1, up, down) + screwsPerCorner*2*(up+down)
		if down > 0 {
			list.Screws += screwsPerCross * max(b.CrossBoards, b.BaysAcross-1)
		}
	}
	if list.Screws > 0 {
		said.add("screws: two for each peg and board, three for each corner and board, two for each cross board; 6 mm, stainless or coated, long enough to go 40 mm into the peg (common practice)")
	}
}
