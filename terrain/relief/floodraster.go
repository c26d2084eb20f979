package relief

// Flooded is a raster with every hollow filled to its spill level, and the way
// that water standing there finds out.
type Flooded struct {
	Level *Raster // ground, or water level where that is higher, metres
	// To is, by node, the neighbour from which the flood reached it: going
	// that way never rises above Level and always ends at a node whose way is
	// Out. It is not the steepest way down. Nowhere where there is no height
	// or no way out.
	To []Way
}

// Flood fills the hollows of a raster by priority flood (Barnes, Lehman &
// Mulla 2014, Computers & Geosciences 62:117-127) and keeps the ways that the
// flood came. Water leaves at the raster's edge and, unless nodataIsWall,
// beside nodes without a height; nodes shut in by walls stay as they are. The
// error is that of Raster.Check.
//
// Levels are the same whatever the order of the work. The ways depend on it:
// waiting nodes of equal height are taken in the order in which they began to
// wait, the neighbours of a node in the order of Way.
func Flood(r *Raster, nodataIsWall bool) (*Flooded, error) {
	if err := r.Check(); err != nil {
		return nil, err
	}
	f := newBigFlood(r)
	f.startAtOutlets(nodataIsWall)
	f.run()
	return f.result(r), nil
}

// bigFlood works on a copy of the heights with a ring of unknown nodes round
// it, so that every node has eight neighbours.
//
// Most nodes need not wait in the queue: one that lies no lower than a reached
// neighbour is dry, and so is all that rises on from there. Such nodes are
// followed upward at once, and only those that have a lower neighbour not yet
// reached, nor about to be from lower ground, wait for the flood to come up to
// their height (the idea is that of Zhou, Sun & Fu 2016, Computers &
// Geosciences 90, from memory).
type bigFlood struct {
	cols, rows int      // of the padded grid
	level      []uint32 // sortable heights
	to         []Way
	steps      [ways]int
	queue      radixHeap
	rising     []uint32 // dry nodes whose neighbours are still to be looked at
	wet        []uint32 // nodes at the level in hand, likewise, first in first out
}

func newBigFlood(r *Raster) *bigFlood {
	cols, rows := r.Cols+2, r.Rows+2
	f := &bigFlood{cols: cols, rows: rows, steps: stepsOf(cols)}
	f.level, f.to = make([]uint32, cols*rows), make([]Way, cols*rows)
	for i := range f.to {
		f.to[i] = Nowhere
	}
	for row := range r.Rows {
		at := (row+1)*cols + 1
		for i, z := range r.Z[row*r.Cols : (row+1)*r.Cols] {
			if known32(z) {
				f.level[at+i], f.to[at+i] = sortable(z), unseen
			}
		}
	}
	return f
}

// startAtOutlets puts the nodes where water leaves in the queue.
func (f *bigFlood) startAtOutlets(nodataIsWall bool) {
	for row := 1; row < f.rows-1; row++ {
		for col := 1; col < f.cols-1; col++ {
			i := row*f.cols + col
			if row == 1 || col == 1 || row == f.rows-2 || col == f.cols-2 {
				f.startAt(i)
			}
			if f.to[i] == Nowhere && !nodataIsWall {
				for _, step := range f.steps {
					f.startAt(i + step)
				}
			}
		}
	}
}

func (f *bigFlood) startAt(i int) {
	if f.to[i] == unseen {
		f.to[i] = Out
		f.queue.push(f.level[i], uint32(i))
	}
}

func (f *bigFlood) run() {
	for {
		i, ok := f.queue.pop()
		if !ok {
			return
		}
		f.spread(i)
		for at := 0; at < len(f.wet); at++ {
			f.spread(f.wet[at])
		}
		f.wet = f.wet[:0]
	}
}

// spread reaches the neighbours of a node to whose level the flood has come.
func (f *bigFlood) spread(i uint32) {
	level := f.level[i]
	for w, step := range f.steps {
		n := int(i) + step
		if f.to[n] != unseen {
			continue
		}
		f.to[n] = Way(w).Back()
		if f.level[n] > level {
			f.rising = append(f.rising, uint32(n))
			continue
		}
		f.level[n] = level
		f.wet = append(f.wet, uint32(n))
	}
	for len(f.rising) > 0 {
		last := len(f.rising) - 1
		next := f.rising[last]
		f.rising = f.rising[:last]
		f.climb(next)
	}
}

// climb reaches the neighbours of a dry node that are not lower than it, and
// lets it wait if others depend on it.
func (f *bigFlood) climb(i uint32) {
	level := f.level[i]
	wait := false
	for w, step := range f.steps {
		n := int(i) + step
		if f.to[n] != unseen {
			continue
		}
		if f.level[n] < level {
			wait = wait || !f.hasLower(n, level)
			continue
		}
		f.to[n] = Way(w).Back()
		f.rising = append(f.rising, uint32(n))
	}
	if wait {
		f.queue.push(level, i)
	}
}

// hasLower reports whether a node not yet reached has a reached neighbour lower
// than a level. The flood will then come to it from there, or from one lower
// still, and nobody higher need wait for it.
func (f *bigFlood) hasLower(i int, level uint32) bool {
	for _, step := range f.steps {
		if n := i + step; f.level[n] < level && f.to[n] < Nowhere {
			return true
		}
	}
	return false
}

// result takes the padding off.
func (f *bigFlood) result(r *Raster) *Flooded {
	level := make([]float32, len(r.Z))
	for row := range r.Rows {
		from, at := (row+1)*f.cols+1, row*r.Cols
		copy(f.to[at:at+r.Cols], f.to[from:from+r.Cols]) // moves down only
		for i := range r.Cols {
			level[at+i] = r.Z[at+i]
			if w := f.to[at+i]; w < Nowhere {
				level[at+i] = fromSortable(f.level[from+i])
			} else {
				f.to[at+i] = Nowhere
			}
		}
	}
	return &Flooded{Level: r.like(level), To: f.to[:len(r.Z)]}
}
