package takeoff

import (
	"cmp"
	"slices"
)

// lowerBound is L2 of Martello and Toth (Knapsack Problems, 1990, section
// 8.3): no packing of sizes has fewer bins. For each least size a to count,
// pieces over capacity - a share a bin with none of the counted ones, pieces
// over half a bin have a bin each, and the rest must fit into what those leave
// or into more bins. a = 0 gives the total over the capacity.
func lowerBound(sizes []int64, capacity int64) int {
	best := boundFrom(sizes, capacity, 0)
	for i, a := range sizes {
		if 2*a <= capacity && (i == 0 || a != sizes[i-1]) {
			best = max(best, boundFrom(sizes, capacity, a))
		}
	}
	return best
}

// boundFrom is the bound that counts pieces of a and over.
func boundFrom(sizes []int64, capacity, a int64) int {
	alone, large := 0, 0
	room, small := int64(0), int64(0)
	for _, s := range sizes {
		switch {
		case s > capacity-a:
			alone++
		case 2*s > capacity:
			large++
			room += capacity - s
		case s >= a:
			small += s
		}
	}
	more := 0
	if small > room {
		more = int((small - room + capacity - 1) / capacity)
	}
	return alone + large + more
}

// search looks for boards of no more than a length in all, and no more than a
// number, that hold all sizes.
type search struct {
	sale
	sizes  []int64
	steps  int             // looks at a piece left; under 0: given up
	boards []board         // filled so far
	failed map[string]bool // sets of pieces known not to come out of the boards left to them
}

// find is true where such boards were found: they are in search.boards.
func (s *search) find(length int64, number int) bool {
	s.boards, s.failed = nil, map[string]bool{}
	return s.fill(allOf(len(s.sizes)), length, number)
}

// fill cuts the pieces left (indices, ascending, so largest first) from boards of
// no more than a length in all and no more than a number. The first board takes the
// largest piece; then each length on sale and each set of others that may go with
// it is tried, fullest first.
func (s *search) fill(left []int, length int64, number int) bool {
	if len(left) == 0 {
		return true
	}
	rest := make([]int64, len(left))
	for i, j := range left {
		rest[i] = s.sizes[j]
	}
	s.steps -= len(rest) // the bound and the key look at each
	number = min(number, int(length/s.lengths[0]))
	waste := length + int64(number)*s.kerf - load(s.sizes, left) // the most that may be wasted
	if waste < 0 || lowerBound(rest, s.longest()+s.kerf) > number {
		return false
	}
	key := keyOf(rest, length, number)
	if s.failed[key] {
		return false
	}
	for _, f := range s.fillings(rest, length, waste) {
		pieces, others := split(left, f.set)
		s.boards = append(s.boards, board{f.length, pieces})
		if s.fill(others, length-f.length, number-1) {
			return true
		}
		s.boards = s.boards[:len(s.boards)-1]
		if s.steps < 0 {
			return false
		}
	}
	s.failed[key] = s.steps >= 0
	return false
}

// fillings are the ways to fill the next board, fullest first: a set that a shorter
// board holds as well is cut from that.
func (s *search) fillings(rest []int64, length, waste int64) []filling {
	var out []filling
	shorter := int64(0)
	for _, l := range s.lengths {
		if l > length {
			break
		}
		if capacity := l + s.kerf; rest[0] <= capacity {
			for _, f := range s.completions(rest, capacity, waste) {
				if capacity-f.room > shorter {
					f.length = l
					out = append(out, f)
				}
			}
			shorter = capacity
		}
	}
	slices.SortStableFunc(out, func(a, b filling) int {
		return cmp.Or(cmp.Compare(a.room, b.room), cmp.Compare(b.length, a.length), slices.Compare(a.set, b.set))
	})
	return out
}

// keyOf names a list of sizes and the boards left to them.
func keyOf(sizes []int64, length int64, number int) string {
	b := make([]byte, 0, 8*(len(sizes)+2))
	for _, v := range append(sizes[:len(sizes):len(sizes)], length, int64(number)) {
		for shift := 0; shift < 64; shift += 8 {
			b = append(b, byte(v>>shift))
		}
	}
	return string(b)
}

// split parts the pieces left by a set of positions in it, ascending.
func split(left, set []int) (bin, others []int) {
	others = make([]int, 0, len(left)-len(set))
	for i, j := range left {
		if len(set) > 0 && set[0] == i {
			bin, set = append(bin, j), set[1:]
			continue
		}
		others = append(others, j)
	}
	return bin, others
}

// completions are the sets of positions in sizes (descending) that fill a board
// with the first piece and waste no more than allowed. Sets are left out when
// another one must do as well: if a piece left out fits in the place of smaller ones
// taken (one, or two whose sum it reaches), boards with the set can be changed into
// boards with the larger piece (Martello and Toth's dominance).
func (s *search) completions(sizes []int64, capacity, allowed int64) []filling {
	c := completing{sizes: sizes, after: make([]int64, len(sizes)+1), allowed: allowed, set: []int{0}, steps: &s.steps}
	for i := len(sizes) - 1; i >= 0; i-- {
		c.after[i] = c.after[i+1] + sizes[i]
	}
	c.choose(1, capacity-sizes[0])
	return c.found
}

// filling is one way to fill a board, the room it leaves, and the board's length.
type filling struct {
	set          []int
	room, length int64
}

type completing struct {
	sizes   []int64
	after   []int64 // after[i] is the sum of sizes from position i on
	allowed int64
	set     []int
	found   []filling
	steps   *int // of the search
}

// choose decides on the pieces from position i on; of equal pieces it takes
// the first ones.
func (c *completing) choose(i int, room int64) {
	if *c.steps--; *c.steps < 0 || room-c.after[i] > c.allowed {
		return
	}
	if i == len(c.sizes) {
		if room <= c.allowed && !c.dominated(room) {
			c.found = append(c.found, filling{set: slices.Clone(c.set), room: room})
		}
		return
	}
	if c.sizes[i] <= room {
		c.set = append(c.set, i)
		c.choose(i+1, room-c.sizes[i])
		c.set = c.set[:len(c.set)-1]
	}
	next := i + 1 // leaving this piece out leaves its equals out
	for next < len(c.sizes) && c.sizes[next] == c.sizes[i] {
		next++
	}
	c.choose(next, room)
}

// dominated is true when a piece left out could take the room alone, or the
// place of one or two smaller pieces taken.
func (c *completing) dominated(room int64) bool {
	*c.steps -= len(c.sizes) // it looks at each piece left out
	taken := 1
	for i := 1; i < len(c.sizes); i++ {
		if taken < len(c.set) && c.set[taken] == i {
			taken++
			continue
		}
		if c.replaces(c.sizes[i], room) {
			return true
		}
	}
	return false
}

// replaces is true when a piece x fits into the room, or into the room and the
// place of one smaller piece, or of two that are together no larger than x.
func (c *completing) replaces(x, room int64) bool {
	if x <= room {
		return true
	}
	for a := 1; a < len(c.set); a++ {
		one := c.sizes[c.set[a]]
		if one < x && x <= room+one {
			return true
		}
		for b := a + 1; b < len(c.set); b++ {
			two := one + c.sizes[c.set[b]]
			if two <= x && x <= room+two {
				return true
			}
		}
	}
	return false
}
