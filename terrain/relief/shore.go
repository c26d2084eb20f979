package relief

// shoreCell is a cell waiting for the flood: its height, and when it was
// reached, which orders cells of the same height.
type shoreCell struct {
	height float64
	turn   int32
	cell   int32
}

// shore is a heap of cells, lowest first. container/heap would do the same
// through an interface and a boxed value a cell, at several times the cost.
type shore []shoreCell

func (a shoreCell) before(b shoreCell) bool {
	return a.height < b.height || (a.height == b.height && a.turn < b.turn)
}

func (s *shore) push(c shoreCell) {
	h := append(*s, c)
	i := len(h) - 1
	for i > 0 {
		up := (i - 1) / 2
		if !c.before(h[up]) {
			break
		}
		h[i] = h[up]
		i = up
	}
	h[i] = c
	*s = h
}

func (s *shore) pop() (first shoreCell, ok bool) {
	h := *s
	if len(h) == 0 {
		return shoreCell{}, false
	}
	first = h[0]
	last := h[len(h)-1]
	h = h[:len(h)-1]
	i := 0
	for {
		child := 2*i + 1
		if child >= len(h) {
			break
		}
		if child+1 < len(h) && h[child+1].before(h[child]) {
			child++
		}
		if !h[child].before(last) {
			break
		}
		h[i] = h[child]
		i = child
	}
	if len(h) > 0 {
		h[i] = last
	}
	*s = h
	return first, true
}
