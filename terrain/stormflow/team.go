package stormflow

import "sync"

// team does the parts of a step on blocks of rows, one worker to a block. The
// caller is the first worker.
type team struct {
	s      *state
	blocks []span // of rows
	orders []chan int
	done   sync.WaitGroup
}

// cellsEach is the least number of cells that a worker is woken for.
const cellsEach = 1500

func newTeam(s *state, workers int) *team {
	workers = max(1, min(workers, s.m.cells/cellsEach, s.m.rows/4))
	t := &team{s: s}
	// rows 1 to rows-1: the last holds no cells, but the southern faces of the
	// northern rim
	from, cells := 1, 0
	for r := 1; r < s.m.rows; r++ {
		for _, n := range s.m.spans[r] {
			cells += n.to - n.from
		}
		if last := r == s.m.rows-1; last || cells*workers >= s.m.cells*(len(t.blocks)+1) && len(t.blocks) < workers-1 {
			t.blocks = append(t.blocks, span{from, r + 1})
			from = r + 1
		}
	}
	for _, b := range t.blocks[1:] {
		orders := make(chan int)
		t.orders = append(t.orders, orders)
		go func() {
			for p := range orders {
				s.part(p, b.from, b.to)
				t.done.Done()
			}
		}()
	}
	return t
}

// do is one part of a step on all rows.
func (t *team) do(part int) {
	t.done.Add(len(t.orders))
	for _, o := range t.orders {
		o <- part
	}
	t.s.part(part, t.blocks[0].from, t.blocks[0].to)
	t.done.Wait()
}

// dismiss ends the workers.
func (t *team) dismiss() {
	for _, o := range t.orders {
		close(o)
	}
}
