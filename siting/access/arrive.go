package access

import (
	"cmp"
	"math"
	"slices"
)

// arrivals are the states in which the beds are come to, one for each, or -1. A
// barrow that has just been turned has to be pushed straight for its own length
// before it stands with its wheel at the bed: ways that end so go before others,
// unless they cost more than detour beside the cheapest.
type arrivals struct {
	state  []int // -1: none yet
	spare  []int // the cheapest that ends in a leg too short
	until  []int // bucket up to which a better one is waited for
	wanted [][]int
	left   int
}

// detour is what a way that ends in a leg as long as the barrow may cost more, m; a
// default of ours.
const detour = 2 * BarrowLength

func newArrivals(cells int, goals [][]int) *arrivals {
	a := &arrivals{wanted: make([][]int, cells), left: len(goals)}
	for b, of := range goals {
		for _, c := range of {
			a.wanted[c] = append(a.wanted[c], b)
		}
	}
	none := slices.Repeat([]int{-1}, len(goals))
	a.state, a.spare, a.until = none, slices.Clone(none), slices.Clone(none)
	return a
}

// run looks at states until every bed that can be reached is.
func (s *search) run(goals [][]int) []int {
	a := newArrivals(s.count(), goals)
	var met []int // states in wanted cells
	for at := 0; s.waiting > 0 && a.left > 0; at++ {
		met = met[:0]
		for list := &s.ring[at%buckets]; len(*list) > 0; {
			state := int((*list)[len(*list)-1])
			*list = (*list)[:len(*list)-1]
			s.waiting--
			if s.by[state]&lookedAt != 0 {
				continue
			}
			if a.wanted[state/len(s.moves)] != nil {
				met = append(met, state)
			}
			s.look(state)
		}
		slices.SortFunc(met, func(a, b int) int {
			return cmp.Or(cmp.Compare(s.cost[a], s.cost[b]), cmp.Compare(a, b))
		})
		s.arrive(a, met, at)
	}
	for b, state := range a.spare {
		if a.state[b] < 0 {
			a.state[b] = state
		}
	}
	return a.state
}

// arrive takes the states met in one bucket.
func (s *search) arrive(a *arrivals, met []int, at int) {
	for _, state := range met {
		for _, b := range a.wanted[state/len(s.moves)] {
			switch {
			case a.state[b] >= 0:
			case s.rolled(state) >= BarrowLength-1e-9:
				a.state[b], a.left = state, a.left-1
			case a.spare[b] < 0:
				a.spare[b], a.until[b] = state, at+int(detour/bucket)
			}
		}
	}
	for b, state := range a.spare {
		if a.state[b] < 0 && state >= 0 && at >= a.until[b] {
			a.state[b], a.left = state, a.left-1
		}
	}
}

// rolled is how far a barrow has gone since it was last turned on the spot by more
// than onTheSpot, m; where it never was it came straight in from outside.
func (s *search) rolled(state int) float64 {
	n := len(s.moves)
	length, turned := 0.0, 0.0
	for turned <= onTheSpot {
		i, h := state/n, state%n
		switch s.by[state] & howReached {
		case wheeled:
			length, turned = length+s.moves[h].length*s.cell, 0
			i -= s.moves[h].north*s.cols + s.moves[h].east
		case turnedLeft:
			h = (h + n - 1) % n
			turned += float64(s.turn[h]) / turnWeight
		case turnedRight:
			turned += float64(s.turn[h]) / turnWeight
			h = (h + 1) % n
		default:
			return math.Inf(1)
		}
		state = i*n + h
	}
	return length
}
