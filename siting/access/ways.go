package access

import (
	"math"
	"slices"

	"crossfall/siting/bed"
	"crossfall/siting/near"

	"github.com/paulmach/orb"
)

// Ways finds how each of some beds is reached while all of them stand, in the
// order given. The ways are the gentlest there are; see Limits and Way for what
// they keep to and what they exceed.
func (g *Ground) Ways(beds []bed.Bed) []Way {
	if len(beds) == 0 {
		return nil
	}
	stand := make([]barrier, len(beds))
	for i, b := range beds {
		stand[i] = ofBed(b)
	}
	v := g.empty.with(stand)
	half := g.limits.Width / 2
	seeds := v.seeds(half)
	goals := make([][]int, len(beds))
	for i := range beds {
		goals[i] = v.beside(len(g.stands)+i, half)
	}
	s, reached := v.wheel(seeds, goals)
	out := make([]Way, len(beds))
	for i, b := range beds {
		w := &out[i]
		w.Bed, w.Means = b.Name, ByBarrow
		if reached[i] >= 0 {
			v.follow(w, seeds, s.trace(reached[i]))
			continue
		}
		w.InTheWay, w.Gap = v.blocked(len(g.stands)+i, half)
		v.onFoot(w, s, seeds, len(g.stands)+i)
	}
	return out
}

// beside lists the cells from which a bed is at hand for what is so wide each
// side: their places lie next to it with nothing in between.
func (v *view) beside(own int, half float64) []int {
	shape := v.barriers[own].shape
	var out []int
	v.around(shape.Bound.Pad(half+2*v.cell), func(i int) {
		if float64(v.clear[i]) < half-tight || shape.EdgeDistance(v.at[i]) > half+v.cell+same {
			return
		}
		_, foot := shape.Distance(near.Of(v.at[i]))
		if v.sees(v.at[i], foot, own) {
			out = append(out, i)
		}
	})
	return out
}

// sees tells whether nothing but one barrier lies between two places.
func (v *view) sees(p, q orb.Point, but int) bool {
	const pace = 0.1
	length := math.Hypot(q[0]-p[0], q[1]-p[1])
	n := math.Max(1, math.Ceil(length/pace))
	for k := 0.0; k <= n; k++ {
		at := orb.Point{p[0] + k/n*(q[0]-p[0]), p[1] + k/n*(q[1]-p[1])}
		for b := range v.barriers {
			if b != but && !outside(v.barriers[b].shape.Bound, at, pace/2+v.barriers[b].grow) && v.barriers[b].clearance(at) < pace/2 {
				return false
			}
		}
	}
	return true
}

// follow fills in a way that goes over some cells.
func (v *view) follow(w *Way, seeds []seed, cells []int) {
	first := slices.IndexFunc(seeds, func(d seed) bool { return d.cell == cells[0] })
	for k, d := range seeds {
		if d.cell == cells[0] && d.way < seeds[first].way {
			first = k
		}
	}
	w.Start = seeds[first].start
	line := orb.LineString{v.starts[w.Start].At}
	for _, i := range cells {
		line = append(line, v.at[i])
	}
	v.measure(w, line)
}
