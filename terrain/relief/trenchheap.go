package relief

import "cmp"

// trenchHeap is a queue of trenches, the cheapest first, then the shortest,
// then by node.
type trenchHeap []trench

func (a trench) before(b trench) bool {
	return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.length, b.length), cmp.Compare(a.node, b.node)) < 0
}

func (h *trenchHeap) push(t trench) {
	q := append(*h, t)
	i := len(q) - 1
	for i > 0 && t.before(q[(i-1)/2]) {
		q[i] = q[(i-1)/2]
		i = (i - 1) / 2
	}
	q[i] = t
	*h = q
}

func (h *trenchHeap) pop() (first trench, ok bool) {
	q := *h
	if len(q) == 0 {
		return trench{}, false
	}
	first = q[0]
	last := q[len(q)-1]
	q = q[:len(q)-1]
	i := 0
	for {
		child := 2*i + 1
		if child+1 < len(q) && q[child+1].before(q[child]) {
			child++
		}
		if child >= len(q) || !q[child].before(last) {
			break
		}
		q[i] = q[child]
		i = child
	}
	if len(q) > 0 {
		q[i] = last
	}
	*h = q
	return first, true
}
