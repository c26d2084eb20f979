package access

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// What is nearest to a cell, beside the index of a barrier.
const (
	byNothing  = -1
	byBoundary = -2
)

// view is the plot with some beds on it: the place that stands for each cell,
// how far it is from everything, and from what.
type view struct {
	*Ground
	barriers []barrier // those of the ground, then the beds
	at       []orb.Point
	high     []float64 // height there
	clear    []float32 // m, at most reach
	owner    []int16
	links    []uint8 // for each cell, the neighbours that a barrow can be wheeled to
}

// reach is the greatest clearance that is told: from there on nothing is asked
// more closely.
func (g *Ground) reach() float64 { return float64(g.open) }

// newView is the plot without beds.
func newView(g *Ground) *view {
	v := &view{
		Ground: g, barriers: g.stands,
		at: make([]orb.Point, g.count()), high: make([]float64, g.count()), clear: make([]float32, g.count()), owner: make([]int16, g.count()),
	}
	for i := range v.at {
		v.settle(i)
	}
	v.links = make([]uint8, g.count())
	for i := range v.links {
		v.link(i)
	}
	return v
}

// with is the plot with beds; nil where there are none adds nothing.
func (v *view) with(beds []barrier) *view {
	if len(beds) == 0 {
		return v
	}
	w := &view{
		Ground: v.Ground, barriers: append(slices.Clip(slices.Clone(v.barriers)), beds...),
		at: slices.Clone(v.at), high: slices.Clone(v.high), clear: slices.Clone(v.clear), owner: slices.Clone(v.owner), links: slices.Clone(v.links),
	}
	touched := make([]bool, v.count())
	for _, b := range beds {
		w.around(b.shape.Bound.Pad(v.reach()), func(i int) { touched[i] = true })
	}
	for i, t := range touched {
		if t {
			w.settle(i)
		}
	}
	// A cell's links change with its own place and with those of its neighbours,
	// which lie beyond the beds' reach and are open there.
	for i, t := range touched {
		if t {
			w.link(i)
		}
	}
	for i, t := range touched {
		if !t {
			w.relink(i, touched)
		}
	}
	return w
}

// clearanceAmong is how far a point is from the boundary and from some barriers,
// under 0 where nobody can stand, at most reach, and what is nearest.
func (v *view) clearanceAmong(p orb.Point, among []int) (float64, int) {
	best, by := v.reach(), byNothing
	atGate := v.atGate(p)
	switch inside := v.inside.Covers(p); {
	case !inside:
		best, by = -v.inside.EdgeDistance(p), byBoundary
	case v.drawn && !atGate:
		if d := v.inside.EdgeDistance(p); d < best {
			best, by = d, byBoundary
		}
	}
	for _, k := range among {
		b := &v.barriers[k]
		if atGate && b.opens || outside(b.shape.Bound, p, math.Max(best, 0)+b.grow) {
			continue
		}
		if d := b.clearance(p); d < best {
			best, by = d, k
		}
	}
	return best, by
}

// outside tells whether a point is farther than d from a bound along either axis.
func outside(b orb.Bound, p orb.Point, d float64) bool {
	return p[0] < b.Min[0]-d || p[0] > b.Max[0]+d || p[1] < b.Min[1]-d || p[1] > b.Max[1]+d
}

func (v *view) atGate(p orb.Point) bool {
	for _, g := range v.gates {
		if math.Hypot(p[0]-g[0], p[1]-g[1]) <= gateHalf {
			return true
		}
	}
	return false
}

// among lists the barriers that matter within so many metres of a point.
func (v *view) among(p orb.Point, metres float64, into []int) []int {
	into = into[:0]
	for k := range v.barriers {
		if !outside(v.barriers[k].shape.Bound, p, metres+v.barriers[k].grow) {
			into = append(into, k)
		}
	}
	return into
}

// settle finds the place that stands for a cell: its middle where nothing is
// near, else the place in the cell that is farthest from everything, found by
// steps of a quarter of the cell and its halves.
func (v *view) settle(i int) {
	c := v.centre(i)
	var room [16]int
	close := v.among(c, v.reach()+0.75*v.cell, room[:0])
	best, by := v.clearanceAmong(c, close)
	at := c
	if best < float64(v.open) && best > -v.cell && (len(close) > 1 || by == byBoundary || len(close) == 1 && best < v.limits.Width/2) {
		for step := v.cell / 4; step > v.cell/40; step /= 2 {
			from := at
			for _, d := range directions {
				p := orb.Point{from[0] + step*d[0], from[1] + step*d[1]}
				if got, k := v.clearanceAmong(p, close); got > best+same {
					best, by, at = got, k, p
				}
			}
		}
		best = math.Min(best, float64(v.open)-1e-6) // only middles are open: long steps rest on it
	}
	v.at[i], v.high[i], v.clear[i], v.owner[i] = at, v.heightAt(i, at), float32(best), int16(by)
	if math.IsNaN(v.z[i]) {
		v.clear[i], v.owner[i] = -1, byNothing
	}
}

// same is a difference of length that is none, m.
const same = 1e-9

var directions = [8]orb.Point{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}}

// tight is how much of the half width may be wanting between two places, m: the
// places are found to about a hundredth of a metre.
const tight = 0.015

// link finds the neighbours to the east and north that a barrow can be wheeled
// to from a cell, and notes it for both.
func (v *view) link(i int) {
	for k := range 4 {
		j, ok := v.step(i, int(directions[k][0]), int(directions[k][1]))
		if !ok {
			continue
		}
		v.join(i, j, k, v.passable(i, j, v.limits.Width/2))
	}
}

// relink does so for the links of a cell that was not touched to those that were.
func (v *view) relink(i int, touched []bool) {
	for k := range 4 {
		if j, ok := v.step(i, int(directions[k][0]), int(directions[k][1])); ok && touched[j] {
			v.join(i, j, k, v.passable(i, j, v.limits.Width/2))
		}
	}
}

func (v *view) join(i, j, k int, passable bool) {
	v.links[i] &^= 1 << k
	v.links[j] &^= 1 << (k + 4)
	if passable {
		v.links[i] |= 1 << k
		v.links[j] |= 1 << (k + 4)
	}
}

// passable tells whether what is so wide each side can pass between the places
// of two neighbouring cells.
func (v *view) passable(i, j int, half float64) bool {
	least := float64(min(v.clear[i], v.clear[j]))
	if least < half-tight {
		return false
	}
	p, q := v.at[i], v.at[j]
	length := math.Hypot(q[0]-p[0], q[1]-p[1])
	if least*least >= half*half+length*length/4 {
		return true
	}
	var room [16]int
	middle := orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}
	close := v.among(middle, half+length, room[:0])
	for _, t := range [3]float64{0.5, 0.25, 0.75} {
		at := orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])}
		if d, _ := v.clearanceAmong(at, close); d < half-tight {
			return false
		}
	}
	return true
}
