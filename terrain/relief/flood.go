package relief

import (
	"math"

	"crossfall/terrain"
)

// flood is the state of a priority flood (Barnes, Lehman & Mulla 2014,
// Computers & Geosciences 62:117-127): water rises from the outlets inwards,
// always at the lowest cell of the shore, so that every cell is reached over
// the lowest sill there is. Cells of equal height are taken in the order in
// which they were reached.
type flood struct {
	grid   *terrain.Grid
	level  []float64 // water level of a cell, metres; its own height where dry
	from   []int32   // the cell it was reached from; itself at an outlet
	turn   []int32   // when it was reached, from 1; 0 not yet
	turns  int32
	shore  shore
	filled []int32 // raised cells whose neighbours are still to be looked at
}

func newFlood(g *terrain.Grid, nodataIsWall bool) *flood {
	n := len(g.Z)
	f := &flood{grid: g, level: append([]float64(nil), g.Z...), from: make([]int32, n), turn: make([]int32, n)}
	for i := range n {
		if known(g.Z[i]) && f.isOutlet(i, nodataIsWall) {
			f.reach(i, i)
			f.shore.push(shoreCell{g.Z[i], f.turns, int32(i)})
		}
	}
	return f
}

// isOutlet reports whether water can leave at a cell: at the grid's edge and,
// unless that is a wall, beside a cell without a height.
func (f *flood) isOutlet(i int, nodataIsWall bool) bool {
	var around [8]int
	near := neighbours(f.grid, i, &around)
	if len(near) < 8 {
		return true
	}
	if nodataIsWall {
		return false
	}
	for _, k := range near {
		if !known(f.grid.Z[k]) {
			return true
		}
	}
	return false
}

func (f *flood) reach(i, from int) {
	f.turns++
	f.turn[i] = f.turns
	f.from[i] = int32(from)
}

// run floods the whole grid. Raised cells wait in a plain queue: they all lie
// at the level of the shore cell in hand, so no ordering is needed.
func (f *flood) run() {
	for {
		if len(f.filled) > 0 {
			c := f.filled[0]
			f.filled = f.filled[1:]
			f.spread(int(c))
			continue
		}
		c, ok := f.shore.pop()
		if !ok {
			return
		}
		f.spread(int(c.cell))
	}
}

// spread reaches the unreached neighbours of a cell.
func (f *flood) spread(c int) {
	var around [8]int
	for _, k := range neighbours(f.grid, c, &around) {
		if f.turn[k] != 0 || !known(f.grid.Z[k]) {
			continue
		}
		f.reach(k, c)
		if f.grid.Z[k] < f.level[c] {
			f.level[k] = f.level[c]
			f.filled = append(f.filled, int32(k))
			continue
		}
		f.shore.push(shoreCell{f.grid.Z[k], f.turns, int32(k)})
	}
}

// neighbours lists the cells round a cell, at most eight, row by row from the
// south, in the given buffer.
func neighbours(g *terrain.Grid, i int, buffer *[8]int) []int {
	col, row := i%g.Cols, i/g.Cols
	if n := g.Cols; col > 0 && row > 0 && col < n-1 && row < g.Rows-1 {
		*buffer = [8]int{i - n - 1, i - n, i - n + 1, i - 1, i + 1, i + n - 1, i + n, i + n + 1}
		return buffer[:]
	}
	out := buffer[:0]
	for r := max(row-1, 0); r <= min(row+1, g.Rows-1); r++ {
		for c := max(col-1, 0); c <= min(col+1, g.Cols-1); c++ {
			if k := r*g.Cols + c; k != i {
				out = append(out, k)
			}
		}
	}
	return out
}

// depth is the water over a cell, metres; 0 where dry or unknown.
func (f *flood) depth(i int) float64 {
	d := f.level[i] - f.grid.Z[i]
	if math.IsNaN(d) {
		return 0
	}
	return d
}
