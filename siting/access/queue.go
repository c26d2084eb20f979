package access

// queue gives back what was put in, cheapest first; of equal cost the lower
// number first. It is a heap of four branches in one slice.
type queue []queued

type queued struct {
	cost float32
	item int32
}

func (a queued) before(b queued) bool {
	return a.cost < b.cost || (a.cost == b.cost && a.item < b.item)
}

func (q *queue) put(cost float32, item int32) {
	e := queued{cost, item}
	h := append(*q, e)
	i := len(h) - 1
	for i > 0 {
		up := (i - 1) / 4
		if !e.before(h[up]) {
			break
		}
		h[i], i = h[up], up
	}
	h[i] = e
	*q = h
}

// take must not be called on an empty queue.
func (q *queue) take() (cost float32, item int32) {
	h := *q
	top, e := h[0], h[len(h)-1]
	h = h[:len(h)-1]
	i := 0
	for {
		least, first := -1, 4*i+1
		for k := first; k < min(first+4, len(h)); k++ {
			if least < 0 || h[k].before(h[least]) {
				least = k
			}
		}
		if least < 0 || !h[least].before(e) {
			break
		}
		h[i], i = h[least], least
	}
	if len(h) > 0 {
		h[i] = e
	}
	*q = h
	return top.cost, top.item
}
