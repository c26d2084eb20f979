package relief

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Defaults of ours for what a spade and a day will do.
const (
	DefaultMaxCut    = .5 // metres
	DefaultMaxLength = 10 // metres
)

// BreachOptions says how far a cut may go to let a hollow drain.
type BreachOptions struct {
	MaxCut    float64 // deepest cut, metres; default .5
	MaxLength float64 // longest way from bottom to outlet in plan, metres; default 10
}

func (o BreachOptions) resolved() BreachOptions {
	if !(o.MaxCut > 0) {
		o.MaxCut = DefaultMaxCut
	}
	if !(o.MaxLength > 0) {
		o.MaxLength = DefaultMaxLength
	}
	return o
}

// Cut is a trench that would let a hollow drain.
type Cut struct {
	Nodes  []int          // from the hollow's bottom to where it drains to, row times Cols plus column
	Line   orb.LineString // through the same nodes, metres
	Level  float64        // of the trench's floor, metres
	Depth  float64        // at its deepest, metres
	Length float64        // of the line, metres in plan
	Volume float64        // of ground taken out, m3, one spacing wide
	// Whole tells that the hollow would drain to its bottom; else the ground
	// where the cut ends lets it drain to Level only.
	Whole bool
}

// Breach cuts through the sills of hollows where that can be done within the
// limits, along the way from a hollow's bottom to ground from which water leaves
// freely on which the depths cut add up to least (after Lindsay 2016, Hydrological
// Processes 30, from memory; found by Dijkstra's method). The floor of a cut is
// level, at the height of the bottom; where the only outlet within reach is
// higher, at the height of that outlet, and the hollow keeps what lies lower.
// Hollows out of reach stay as they are.
//
// Lower hollows are worked before higher ones, those of one height from the
// south-west row by row. The way of least cutting is kept if it is short
// enough: a longer look for one that cuts more but is shorter is not taken. The
// error is that of Raster.Check.
func Breach(r *Raster, opt BreachOptions, nodataIsWall bool) (*Raster, []Cut, error) {
	flooded, err := Flood(r, nodataIsWall)
	if err != nil {
		return nil, nil, err
	}
	b := &breacher{
		ground: r.like(slices.Clone(r.Z)), opt: opt.resolved(), wall: nodataIsWall,
		best: map[int]trench{}, water: flooded.Level.Z,
	}
	var cuts []Cut
	for _, i := range b.bottoms() {
		if !b.isBottom(i) { // an earlier cut may drain it
			continue
		}
		if c, ok := b.breach(i); ok {
			cuts = append(cuts, c)
		}
	}
	return b.ground, cuts, nil
}

// breacher holds a copy of the ground and the state of one search.
type breacher struct {
	ground *Raster
	opt    BreachOptions
	wall   bool
	queue  trenchHeap
	best   map[int]trench
	water  []float32 // level to which a node is flooded, never too low
}

// trench is a node reached by a search.
type trench struct {
	node, from   int
	cost, length float64 // metres cut so far, summed over nodes; metres in plan
	settled      bool
}

// bottoms lists a node of every hollow's bottom, and of every lesser one
// within it, lowest first.
func (b *breacher) bottoms() []int {
	var out []int
	seen := make([]bool, len(b.ground.Z))
	for i, z := range b.ground.Z {
		if seen[i] || !known32(z) || b.hasLower(i) {
			continue
		}
		flat, bottom := b.levelGround(i)
		for _, k := range flat {
			seen[k] = true
		}
		if bottom {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(i, k int) int { return cmp.Compare(b.ground.Z[i], b.ground.Z[k]) })
	return out
}

func (b *breacher) isBottom(i int) bool {
	_, bottom := b.levelGround(i)
	return bottom
}

func (b *breacher) hasLower(i int) bool {
	var around [8]int
	near := neighbours(latticeOf(b.ground), i, &around)
	return slices.ContainsFunc(near, func(k int) bool { return b.ground.Z[k] < b.ground.Z[i] })
}

// levelGround lists the nodes of one height round a node. It is a bottom when
// water can leave none of them.
func (b *breacher) levelGround(i int) (flat []int, bottom bool) {
	lattice := latticeOf(b.ground)
	var around [8]int
	seen := map[int]bool{i: true}
	flat, bottom = []int{i}, true
	for at := 0; at < len(flat); at++ {
		bottom = bottom && !b.isOutlet(flat[at]) && !b.hasLower(flat[at])
		for _, k := range neighbours(lattice, flat[at], &around) {
			if b.ground.Z[k] == b.ground.Z[i] && !seen[k] {
				seen[k] = true
				flat = append(flat, k)
			}
		}
	}
	return flat, bottom
}

// isOutlet reports whether water can leave at a node, as in Flood.
func (b *breacher) isOutlet(i int) bool {
	var around [8]int
	near := neighbours(latticeOf(b.ground), i, &around)
	if len(near) < 8 {
		return true
	}
	return !b.wall && slices.ContainsFunc(near, func(k int) bool { return !known32(b.ground.Z[k]) })
}

// breach drains the hollow with a bottom at i, to its bottom if it can, or
// else as far as the lowest outlet within reach allows.
func (b *breacher) breach(i int) (Cut, bool) {
	level := float64(b.ground.Z[i])
	if end, ok := b.search(i, level); ok {
		return b.cut(i, end, level, true), true
	}
	outlet, ok := b.lowestOutlet(i)
	if !ok || !(outlet > level && outlet < float64(b.water[i])) {
		return Cut{}, false
	}
	end, ok := b.search(i, outlet)
	if !ok {
		return Cut{}, false
	}
	c := b.cut(i, end, outlet, false)
	return c, c.Depth > 0
}

// lowestOutlet is the height of the lowest outlet that lies within the length
// of a cut.
func (b *breacher) lowestOutlet(i int) (lowest float64, ok bool) {
	r := b.ground
	reach := int(b.opt.MaxLength / r.Cell)
	col, row := i%r.Cols, i/r.Cols
	for y := max(0, row-reach); y <= min(r.Rows-1, row+reach); y++ {
		for x := max(0, col-reach); x <= min(r.Cols-1, col+reach); x++ {
			k := y*r.Cols + x
			if z := float64(r.Z[k]); known(z) && (!ok || z < lowest) && b.isOutlet(k) {
				lowest, ok = z, true
			}
		}
	}
	return lowest, ok
}

// search finds the way of least cutting from a node to one from which water
// leaves without ever standing above a level.
func (b *breacher) search(i int, level float64) (end int, ok bool) {
	clear(b.best)
	b.queue = b.queue[:0]
	b.offer(trench{node: i, from: i})
	var around [8]int
	for {
		t, ok := b.next()
		if !ok {
			return 0, false
		}
		if float64(b.water[t.node]) <= level {
			return t.node, true
		}
		for _, k := range neighbours(latticeOf(b.ground), t.node, &around) {
			z := float64(b.ground.Z[k])
			step := b.ground.Cell
			if apart := abs(k%b.ground.Cols-t.node%b.ground.Cols) + abs(k/b.ground.Cols-t.node/b.ground.Cols); apart == 2 {
				step *= math.Sqrt2
			}
			if length := t.length + step; known(z) && z-level <= b.opt.MaxCut && length <= b.opt.MaxLength+1e-9 {
				b.offer(trench{node: k, from: t.node, cost: t.cost + max(0, z-level), length: length})
			}
		}
	}
}

func abs(i int) int { return max(i, -i) }

// offer keeps a way to a node if none better is known.
func (b *breacher) offer(t trench) {
	old, known := b.best[t.node]
	if known && (old.settled || old.cost < t.cost || (old.cost == t.cost && old.length <= t.length)) {
		return
	}
	b.best[t.node] = t
	b.queue.push(t)
}

// next settles the node of least cost.
func (b *breacher) next() (trench, bool) {
	for {
		t, ok := b.queue.pop()
		if !ok {
			return t, false
		}
		if best := b.best[t.node]; !best.settled && best.cost == t.cost && best.length == t.length {
			best.settled = true
			b.best[t.node] = best
			return best, true
		}
	}
}

// cut digs the way found by the last search.
func (b *breacher) cut(from, end int, level float64, whole bool) Cut {
	c := Cut{Level: level, Whole: whole, Length: b.best[end].length}
	for i := end; ; i = b.best[i].from {
		c.Nodes = append(c.Nodes, i)
		if i == from {
			break
		}
	}
	slices.Reverse(c.Nodes)
	for _, i := range c.Nodes {
		c.Line = append(c.Line, b.ground.Node(i%b.ground.Cols, i/b.ground.Cols))
		b.water[i] = min(b.water[i], float32(level))
		if depth := float64(b.ground.Z[i]) - level; depth > 0 {
			c.Depth = max(c.Depth, depth)
			c.Volume += depth * b.ground.Cell * b.ground.Cell
			b.ground.Z[i] = float32(level)
		}
	}
	return c
}

// Text says in a sentence what a cut would do.
func (c Cut) Text() string {
	if c.Whole {
		return fmt.Sprintf("it would drain if a trench %.1f m long and up to %.2f m deep were cut", c.Length, c.Depth)
	}
	return fmt.Sprintf("it would drain in part, down to %.2f m, if a trench %.1f m long and up to %.2f m deep were cut", c.Level, c.Length, c.Depth)
}
