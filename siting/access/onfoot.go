package access

import (
	"math"
	"slices"

	"github.com/paulmach/orb/planar"
)

// byHandWeight is what a metre carried in the hand counts in metres of barrow
// way: a default of ours.
const byHandWeight = 10.0

// onFoot finds the way to a bed that no barrow gets to: with the barrow as far
// as may be, and on by a side path. It leaves NoWay where there is none.
func (v *view) onFoot(w *Way, s *search, seeds []seed, own int) {
	w.Means = NoWay
	half := FootWidth / 2
	n := len(v.moves)
	cost := make([]float32, v.count())
	before := make([]int, v.count()) // the cell walked from, or -1 where the barrow is left
	state := make([]int, v.count())
	var q queue
	for i := range cost {
		cost[i], before[i], state[i] = float32(math.Inf(1)), -1, -1
		for h := range v.moves {
			if c := s.cost[i*n+h]; c < cost[i] {
				cost[i], state[i] = c, i*n+h
			}
		}
		if state[i] >= 0 {
			q.put(cost[i], int32(i))
		}
	}
	byFoot := v.seeds(half)
	for _, d := range byFoot {
		if c := float32(byHandWeight * d.way); c < cost[d.cell] {
			cost[d.cell], state[d.cell] = c, -1
			q.put(c, int32(d.cell))
		}
	}
	goals := v.beside(own, half)
	for len(q) > 0 {
		c, item := q.take()
		i := int(item)
		if c > cost[i] {
			continue
		}
		if slices.Contains(goals, i) {
			v.walked(w, s, seeds, byFoot, before, state, i)
			return
		}
		for _, d := range directions {
			j, ok := v.step(i, int(d[0]), int(d[1]))
			if !ok {
				continue
			}
			if to := c + float32(byHandWeight*planar.Distance(v.at[i], v.at[j])); to < cost[j] && v.passable(i, j, half) {
				cost[j], before[j], state[j] = to, i, -1
				q.put(to, int32(j))
			}
		}
	}
}

// walked fills in a way that ends on foot in a cell.
func (v *view) walked(w *Way, s *search, seeds, byFoot []seed, before, state []int, i int) {
	w.Means = OnFoot
	cells := []int{i}
	for before[i] >= 0 {
		w.ByHand += planar.Distance(v.at[i], v.at[before[i]])
		i = before[i]
		cells = append(cells, i)
	}
	slices.Reverse(cells)
	if state[i] < 0 { // on foot from the start
		v.follow(w, byFoot, cells)
		w.ByHand = w.Length
		return
	}
	v.follow(w, seeds, append(s.trace(state[i]), cells[1:]...))
}
