package takeoff

import (
	"math"
	"slices"
)

// sale is the lengths on sale, ascending, and what a saw takes, micrometres.
type sale struct {
	lengths []int64
	kerf    int64
}

// board is a board bought and what is cut from it: indices into the sizes.
type board struct {
	length int64
	pieces []int
}

func (s sale) longest() int64 { return s.lengths[len(s.lengths)-1] }

// holding is the shortest length on sale that holds sizes of so much in all; each
// size has its saw cut with it, and a board cut up without a rest one cut fewer.
func (s sale) holding(size int64) int64 {
	for _, l := range s.lengths {
		if size <= l+s.kerf {
			return l
		}
	}
	return math.MaxInt64
}

// least cuts sizes, in descending order and none longer than the longest board,
// from the boards of the least length in all that it finds; bound is a length that
// no boards can be under.
func (s sale) least(sizes []int64) (boards []board, bound int64) {
	if len(sizes) == 0 {
		return nil, 0
	}
	bound = s.bound(sizes)
	for _, l := range s.lengths {
		if sizes[0] > l+s.kerf {
			continue
		}
		one, _ := sale{[]int64{l}, s.kerf}.better(sizes, firstFit(sizes, l, s.kerf), 0)
		for i, b := range one {
			one[i].length = s.holding(load(sizes, b.pieces))
		}
		if boards == nil || lessBoard(one, boards) {
			boards = one
		}
	}
	boards, proved := s.better(sizes, boards, bound)
	if proved {
		bound = bought(boards)
	}
	return boards, bound
}

// better searches for less board, and then for fewer boards of as much, as long as
// stepsFor allows; proved is true where there is no less.
func (s sale) better(sizes []int64, boards []board, bound int64) (best []board, proved bool) {
	bound = max(bound, s.bound(sizes))
	look := search{sizes: sizes, sale: s, steps: stepsFor(sizes)}
	unit := s.unit()
	for bought(boards) > bound && look.steps > 0 {
		less := (bought(boards) - 1) / unit * unit
		if !look.find(less, int(less/s.lengths[0])) {
			proved = look.steps >= 0
			break
		}
		boards = look.boards
	}
	proved = proved || bought(boards) <= bound
	for proved && look.steps > 0 && look.find(bought(boards), len(boards)-1) {
		boards = look.boards
	}
	return boards, proved
}

// unit is the greatest length of which all lengths on sale are whole numbers.
func (s sale) unit() int64 {
	g := int64(0)
	for _, l := range s.lengths {
		for g != 0 {
			l, g = g, l%g
		}
		g = l
	}
	return g
}

// bound is a length that no boards for these sizes can be under: the number of
// boards is no less than the bound of Martello and Toth for the longest, and they
// hold the sizes; and each piece over half the longest has a board of its own.
func (s sale) bound(sizes []int64) int64 {
	all, longest := int64(0), s.longest()+s.kerf
	own := int64(0)
	for _, v := range sizes {
		all += v
		if 2*v > longest {
			own += s.holding(v)
		}
	}
	least := int64(math.MaxInt64)
	for n := int64(lowerBound(sizes, longest)); n <= int64(len(sizes)); n++ {
		least = min(least, max(n*s.lengths[0], all-n*s.kerf))
	}
	unit := s.unit()
	return (max(own, least) + unit - 1) / unit * unit
}

func bought(boards []board) int64 {
	all := int64(0)
	for _, b := range boards {
		all += b.length
	}
	return all
}

func lessBoard(a, b []board) bool {
	x, y := bought(a), bought(b)
	return x < y || x == y && len(a) < len(b)
}

// firstFit puts each size, largest first, into the first board that holds it.
func firstFit(sizes []int64, length, kerf int64) []board {
	var boards []board
	var room []int64
	for i, size := range sizes {
		b := slices.IndexFunc(room, func(r int64) bool { return r >= size })
		if b < 0 {
			b = len(boards)
			boards, room = append(boards, board{length: length}), append(room, length+kerf)
		}
		boards[b].pieces, room[b] = append(boards[b].pieces, i), room[b]-size
	}
	return boards
}
