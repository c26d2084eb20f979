package access

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// How a state of the search was come by.
const (
	notReached uint8 = iota
	wheeled          // from another cell, by the move of its heading
	turnedLeft       // on the spot, from the heading before
	turnedRight
	begun
)

// search is Dijkstra's method over cells and headings: a barrow goes straight
// on from cell to cell, or turns on the spot. States wait in a ring of buckets
// by their cost; within a bucket they are looked at until none gets cheaper.
type search struct {
	*view
	cost    []float32
	by      []uint8
	ring    [buckets][]int32
	waiting int
}

const (
	buckets    = 1024
	bucket     = 0.25                   // cost, m
	dearest    = bucket * (buckets - 2) // greatest cost of one move that is told apart
	lookedAt   = 0x80                   // in by: since it last got cheaper
	howReached = 0x7f
)

// wheel finds the cheapest ways from the seeds to the goals of each bed: the
// state at each goal reached, or -1.
func (v *view) wheel(seeds []seed, goals [][]int) (*search, []int) {
	s := &search{view: v, cost: make([]float32, v.count()*len(v.moves)), by: make([]uint8, v.count()*len(v.moves))}
	for i := range s.cost {
		s.cost[i] = float32(math.Inf(1))
	}
	for _, d := range seeds {
		start := v.starts[d.start].At
		z := v.heightAt(v.near(start), start)
		if math.IsNaN(z) {
			z = v.high[d.cell]
		}
		c := v.priced(start, v.at[d.cell], z, v.high[d.cell], d.cell, d.cell)
		for h := range v.moves {
			s.reach(d.cell*len(v.moves)+h, c+v.swung(start, v.at[d.cell], h), begun)
		}
	}
	return s, s.run(goals)
}

// swung is the cost of turning on the spot from the line between two places to a
// heading; nothing where they are one.
func (v *view) swung(p, q orb.Point, h int) float32 {
	east, north := q[0]-p[0], q[1]-p[1]
	if math.Hypot(east, north) < same {
		return 0
	}
	turn := math.Abs(math.Remainder(math.Atan2(north, east)-v.moves[h].bearing, 2*math.Pi))
	return float32(math.Round(turnWeight*turn*told) / told)
}

func (s *search) reach(state int, c float32, by uint8) {
	if c < s.cost[state] {
		s.cost[state], s.by[state] = c, by
		b := int(c/bucket) % buckets
		s.ring[b] = append(s.ring[b], int32(state))
		s.waiting++
	}
}

// look goes on from a state: on the spot to either side, unless that would turn
// back at once, and straight ahead.
func (s *search) look(state int) {
	n := len(s.moves)
	i, h := state/n, state%n
	c, by := s.cost[state], s.by[state]
	s.by[state] |= lookedAt
	if by != turnedRight {
		s.reach(i*n+(h+1)%n, c+s.turn[h], turnedLeft)
	}
	if by != turnedLeft {
		s.reach(i*n+(h+n-1)%n, c+s.turn[(h+n-1)%n], turnedRight)
	}
	if j, ok := s.ahead(i, h); ok {
		s.reach(j*n+h, c+s.priced(s.at[i], s.at[j], s.high[i], s.high[j], i, j), wheeled)
	}
}

// ahead is the cell that a barrow with a heading comes to next.
func (v *view) ahead(i, h int) (int, bool) {
	m := &v.moves[h]
	if m.side >= 0 { // to a neighbour
		return i + m.north*v.cols + m.east, v.links[i]&(1<<m.side) != 0
	}
	return v.stride(i, m)
}

// told is how many parts of a metre costs are told in, so that of ways that cost
// the same, wherever the plot lies, the same one is taken.
const told = 4096

// priced is the cost of wheeling between two places in or near two cells.
func (v *view) priced(p, q orb.Point, low, high float64, i, j int) float32 {
	east, north := q[0]-p[0], q[1]-p[1]
	square := east*east + north*north
	if square == 0 {
		return 0
	}
	length := math.Sqrt(square)
	along := (high - low) / length
	ratio := math.Abs(along) / v.limits.Gradient
	cost := 1 + climbWeight*ratio*ratio
	if !(v.paved[i] && v.paved[j]) {
		cost *= offPath
	}
	if ratio > gentle {
		cost += tooSteep * (ratio - gentle)
	}
	slope := v.slope[i]
	across := math.Abs(slope.East*north-slope.North*east) / length
	if across > CrossFall {
		cost += acrossWeight * (across/CrossFall - 1)
	}
	return float32(math.Round(math.Min(cost*length, dearest)*told) / told)
}

// trace is the cells of the way to a state, from its seed on.
func (s *search) trace(state int) []int {
	n := len(s.moves)
	cells := []int{state / n}
	for s.by[state]&howReached != begun {
		i, h := state/n, state%n
		switch s.by[state] & howReached {
		case wheeled:
			i -= s.moves[h].north*s.cols + s.moves[h].east
			cells = append(cells, i)
		case turnedLeft:
			h = (h + n - 1) % n
		case turnedRight:
			h = (h + 1) % n
		}
		state = i*n + h
	}
	slices.Reverse(cells)
	return cells
}
