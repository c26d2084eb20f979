package access

import (
	"cmp"
	"math"
	"slices"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Start is where loads come from.
type Start struct {
	At      orb.Point
	Said    string // "the gate", "the heap \"compost\""
	Assumed bool   // nothing was drawn, and this was taken
}

// seed is a cell that a start gives on to.
type seed struct {
	start int
	cell  int
	way   float64 // from the start to the cell's place, m
}

// startReach is how far from a gate or heap the first free cell may lie, m: a
// default of ours.
const startReach = 1.5

// starts are the heaps of a plot, or else its gates, or else one place that is
// assumed: the end of a drawn path by the boundary, or the lowest place along
// the boundary, from which the most must be carried uphill.
func starts(p *geodata.Plot, g *Ground) []Start {
	var out []Start
	for _, kind := range []geodata.Kind{geodata.HeapKind, geodata.GateKind} {
		for _, f := range p.OfKind(kind) {
			if at, ok := f.Shape.(orb.Point); ok {
				out = append(out, Start{At: at, Said: said(f)})
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	if at, ok := pathEnd(p, g); ok {
		return []Start{{At: at, Said: "the end of the path by the boundary", Assumed: true}}
	}
	if at, ok := g.lowestByBoundary(); ok {
		return []Start{{At: at, Said: "the lowest place along the boundary", Assumed: true}}
	}
	return nil
}

// pathEnd is the end of a drawn path that lies nearest to the boundary.
func pathEnd(p *geodata.Plot, g *Ground) (orb.Point, bool) {
	var best orb.Point
	least := startReach
	for _, f := range p.OfKind(geodata.PathKind) {
		line, ok := f.Shape.(orb.LineString)
		if !ok || len(line) < 2 {
			continue
		}
		for _, end := range []orb.Point{line[0], line[len(line)-1]} {
			if d := g.inside.EdgeDistance(end); d < least {
				best, least = end, d
			}
		}
	}
	return best, least < startReach
}

// lowestByBoundary is the lowest place along the boundary that a barrow can
// stand at, of those from which most of the plot can be reached.
func (g *Ground) lowestByBoundary() (orb.Point, bool) {
	part, largest := g.empty.parts()
	best := -1
	for i, k := range part {
		if k != largest || g.inside.EdgeDistance(g.centre(i)) > startReach {
			continue
		}
		if best < 0 || g.z[i] < g.z[best]-1e-6 { // of places as low as one another the first
			best = i
		}
	}
	if best < 0 {
		return orb.Point{}, false
	}
	return g.empty.at[best], true
}

// parts numbers the cells by the part of the plot that can be wheeled over from
// them, from 0, and gives the largest; cells that a barrow cannot stand in are -1.
func (v *view) parts() (part []int, largest int) {
	part = make([]int, v.count())
	for i := range part {
		part[i] = -1
	}
	most, number := 0, 0
	var stack []int
	for i := range part {
		if part[i] >= 0 || float64(v.clear[i]) < v.limits.Width/2-tight {
			continue
		}
		size := 0
		part[i] = number
		for stack = append(stack[:0], i); len(stack) > 0; size++ {
			at := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			v.neighbours(at, func(j int) {
				if part[j] < 0 {
					part[j] = number
					stack = append(stack, j)
				}
			})
		}
		if size > most {
			most, largest = size, number
		}
		number++
	}
	return part, largest
}

// neighbours calls f with every neighbour that a barrow can be wheeled to.
func (v *view) neighbours(i int, f func(j int)) {
	for k, d := range directions {
		if v.links[i]&(1<<k) != 0 {
			f(i + int(d[1])*v.cols + int(d[0]))
		}
	}
}

// seeds are the cells that the starts give on to: of those near, the nearest
// that nothing parts from it, and its neighbours.
// half is the room needed each side.
func (v *view) seeds(half float64) []seed {
	var out []seed
	for k, s := range v.starts {
		var found []seed
		b := orb.Bound{Min: s.At, Max: s.At}.Pad(startReach + v.cell)
		v.around(b, func(i int) {
			d := planar.Distance(s.At, v.at[i])
			if d <= startReach && float64(v.clear[i]) >= half-tight && v.given(s.At, v.at[i], half) {
				found = append(found, seed{k, i, d})
			}
		})
		slices.SortStableFunc(found, func(a, b seed) int { return cmp.Compare(math.Round(a.way*1e6), math.Round(b.way*1e6)) })
		if len(found) == 0 {
			continue
		}
		out = append(out, found[0])
		v.neighbours(found[0].cell, func(j int) { // so that the first step is no detour
			if v.given(s.At, v.at[j], half) {
				out = append(out, seed{k, j, planar.Distance(s.At, v.at[j])})
			}
		})
	}
	return out
}

// given tells whether one can step from a start to a place without going
// through anything but the boundary or what a gate opens, and past the gate with
// the room needed each side.
func (v *view) given(from, to orb.Point, half float64) bool {
	var room [16]int
	close := v.among(from, startReach+v.cell, room[:0])
	n := math.Max(1, math.Ceil(planar.Distance(from, to)/0.1))
	for k := 0.0; k <= n; k++ {
		p := orb.Point{from[0] + k/n*(to[0]-from[0]), from[1] + k/n*(to[1]-from[1])}
		atGate := v.atGate(p)
		needed := 0.05
		if planar.Distance(p, from) > gateHalf {
			needed = half - tight
		}
		for _, b := range close {
			if atGate && v.barriers[b].opens {
				continue
			}
			if v.barriers[b].clearance(p) < needed && (b >= len(v.stands) || v.barriers[b].clearance(from) > 0) { // a heap may lie in a bay, not under a bed
				return false
			}
		}
	}
	return true
}
