package access

import (
	"math"

	"github.com/paulmach/orb"
)

// DistanceField is how far compost has to be carried from the start to every
// place of a plot without beds: the length of the shortest way that rises and
// falls no more than the greatest gradient, to and fro where the ground is
// steeper. It is made once for a plot and costs nothing to ask.
type DistanceField struct {
	g      *Ground
	metres []float32
}

// Distances makes the field. Ways go in sixteen directions, so a distance is
// long by up to 1 part in 25.
func (g *Ground) Distances() *DistanceField {
	f := &DistanceField{g: g, metres: make([]float32, g.count())}
	for i := range f.metres {
		f.metres[i] = float32(math.Inf(1))
	}
	v := g.empty
	var q queue
	reach := func(i int, d float32) {
		if d < f.metres[i] {
			f.metres[i] = d
			q.put(d, int32(i))
		}
	}
	for _, s := range g.from {
		start := g.starts[s.start].At
		reach(s.cell, float32(v.length(start, v.at[s.cell], g.heightAt(g.near(start), start), v.high[s.cell])))
	}
	for len(q) > 0 {
		d, item := q.take()
		i := int(item)
		if d > f.metres[i] {
			continue
		}
		v.neighbours(i, func(j int) { reach(j, d+float32(v.carried(i, j))) })
		if v.clear[i] < v.open {
			continue
		}
		for k := range knights {
			if j, ok := v.stride(i, &knights[k]); ok {
				reach(j, d+float32(v.carried(i, j)))
			}
		}
	}
	return f
}

// carried is the length of way between two places, to and fro where it is
// steeper than the greatest gradient.
func (v *view) carried(i, j int) float64 {
	return v.length(v.at[i], v.at[j], v.high[i], v.high[j])
}

// length is that between two places of known heights.
func (g *Ground) length(p, q orb.Point, low, high float64) float64 {
	return math.Max(math.Hypot(q[0]-p[0], q[1]-p[1]), math.Abs(high-low)/g.limits.Gradient)
}

// At is the metres to carry to a place; ok is false outside the plot and where
// no barrow gets to the place or beside it.
func (f *DistanceField) At(p orb.Point) (metres float64, ok bool) {
	if !f.g.inside.Covers(p) {
		return 0, false
	}
	best := math.Inf(1)
	near := f.g.near(p)
	for north := -1; north <= 1; north++ {
		for east := -1; east <= 1; east++ {
			i, in := f.g.step(near, east, north)
			if !in || math.IsInf(float64(f.metres[i]), 1) {
				continue
			}
			at := f.g.empty.at[i]
			rest := f.g.length(at, p, f.g.heightAt(i, at), f.g.heightAt(near, p))
			best = math.Min(best, float64(f.metres[i])+rest)
		}
	}
	return best, !math.IsInf(best, 1)
}

// Starts are where the loads come from.
func (g *Ground) Starts() []Start { return g.starts }
