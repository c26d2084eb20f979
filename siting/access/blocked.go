package access

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// narrowWeight is what each metre that is wanting in half the width counts in
// metres of way when what stands in the way is looked for: a default of ours, so
// large that the least is gone through.
const narrowWeight = 1000.0

// through is the room each side, m, under which one is said to go through
// something and not past it.
const through = 0.025

// narrow is one place that is too narrow.
type narrow struct {
	half float64 // clear each side, m; under 0 inside something
	at   orb.Point
}

// blocked follows the way to a bed that goes through least, and names what
// leaves too little room on it, with the width of the narrowest place.
func (v *view) blocked(own int, half float64) (names []string, gap float64) {
	goal := v.near(v.barriers[own].shape.Bound.Center())
	cost := make([]float32, v.count())
	before := make([]int, v.count())
	for i := range cost {
		cost[i], before[i] = float32(math.Inf(1)), -1
	}
	var q queue
	for _, i := range v.begin() {
		cost[i] = 0
		q.put(0, int32(i))
	}
	for len(q) > 0 {
		c, item := q.take()
		i := int(item)
		if i == goal {
			break
		}
		if c > cost[i] {
			continue
		}
		for _, d := range directions {
			j, ok := v.step(i, int(d[0]), int(d[1]))
			if !ok {
				continue
			}
			to := c + float32(planar.Distance(v.at[i], v.at[j])+squeeze(v.narrowest(i, j, own, half), half))
			if to < cost[j] {
				cost[j], before[j] = to, i
				q.put(to, int32(j))
			}
		}
	}
	least := half
	for i := goal; before[i] >= 0; i = before[i] {
		at := v.narrowest(before[i], i, own, half)
		if at.half >= half-tight {
			continue
		}
		if at.half >= through {
			at.half = v.roomiest(before[i], i, own, half)
		}
		least = math.Min(least, at.half)
		for _, n := range v.pinching(at, own) {
			if !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
	}
	slices.Reverse(names)
	if least < through || len(names) == 0 {
		least = 0
	}
	return names, 2 * least
}

// squeeze is what going through a narrow place counts: all that goes through
// something counts alike, so that the straightest way through is looked at.
func squeeze(n narrow, half float64) float64 {
	if n.half < through {
		return narrowWeight
	}
	return narrowWeight * math.Max(0, half-tight-n.half)
}

// begin are the cells by the starts, whether or not one can stand in them.
func (v *view) begin() []int {
	var out []int
	for _, s := range v.seeds(FootWidth / 2) {
		out = append(out, s.cell)
	}
	for k := 0; k < len(v.starts) && len(out) == 0; k++ {
		out = append(out, v.near(v.starts[k].At))
	}
	return out
}

// narrowest is the narrowest place between the places of two neighbouring cells,
// as far as it is narrower than half each side, but for one bed.
func (v *view) narrowest(i, j, own int, half float64) narrow {
	p, q := v.at[i], v.at[j]
	length := planar.Distance(p, q)
	if v.clear[i] >= v.open && v.clear[j] >= v.open {
		return narrow{half: half, at: p}
	}
	var room [16]int
	close := v.among(p, half+length, room[:0])
	close = slices.DeleteFunc(close, func(k int) bool { return k == own })
	out := narrow{half: half, at: p}
	n := math.Max(1, math.Ceil(length/0.02))
	for k := 0.0; k <= n; k++ {
		at := orb.Point{p[0] + k/n*(q[0]-p[0]), p[1] + k/n*(q[1]-p[1])}
		if d, _ := v.clearanceAmong(at, close); d < out.half {
			out = narrow{d, at}
		}
	}
	return out
}

// roomiest is the room each side at the narrowest place between the places of two
// cells when one keeps to the middle: at each pace the widest place across the
// way, up to half a cell off it.
func (v *view) roomiest(i, j, own int, half float64) float64 {
	p, q := v.at[i], v.at[j]
	length := planar.Distance(p, q)
	if length == 0 {
		return half
	}
	across := orb.Point{-(q[1] - p[1]) / length, (q[0] - p[0]) / length}
	var room [16]int
	close := slices.DeleteFunc(v.among(p, half+length+v.cell, room[:0]), func(k int) bool { return k == own })
	least := half
	const paces, places = 20, 25
	for a := range paces + 1 {
		t, widest := float64(a)/paces, math.Inf(-1)
		for b := range places + 1 {
			off := v.cell * (float64(b)/places - 0.5)
			at := orb.Point{p[0] + t*(q[0]-p[0]) + off*across[0], p[1] + t*(q[1]-p[1]) + off*across[1]}
			d, _ := v.clearanceAmong(at, close)
			widest = math.Max(widest, d)
		}
		least = math.Min(least, widest)
	}
	return least
}

// pinching names what stands nearest to a narrow place: the nearest, and what is
// hardly farther.
func (v *view) pinching(n narrow, own int) []string {
	const hardly = 0.05
	limit := n.half + hardly
	if n.half < through {
		limit = through
	}
	var out []string
	if d := v.inside.EdgeDistance(n.at); (v.drawn || !v.inside.Covers(n.at)) && !v.atGate(n.at) && d < limit {
		out = append(out, "the boundary")
	}
	for k := range v.barriers {
		if k != own && v.barriers[k].clearance(n.at) < limit && !(v.barriers[k].opens && v.atGate(n.at)) {
			out = append(out, v.barriers[k].said)
		}
	}
	return out
}
