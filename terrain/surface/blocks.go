package surface

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// mostReadings is the number of heights over which they are merged into
// blocks for a smooth surface, whose cost grows with their cube.
const mostReadings = 2000

// blocks merges the readings of each square of a grid into their weighted mean
// at their weighted mean position, the squares just large enough to leave at
// most mostReadings. The noise of a mean is 1 over the sum of its weights.
func (r readings) blocks(limit int) readings {
	if len(r.at) <= limit {
		return r
	}
	bound := orb.MultiPoint(r.at).Bound()
	w, h := bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1]
	cell := math.Max(math.Sqrt(w*h/float64(limit)), math.Max(w, h)/float64(limit))
	for {
		if out := r.merged(bound.Min, cell); len(out.at) <= limit {
			return out
		}
		cell *= 1.1
	}
}

// merged is the mean of each occupied square, row by row from the south-west.
func (r readings) merged(corner orb.Point, cell float64) readings {
	type place struct{ row, col, index int }
	places := make([]place, len(r.at))
	for i, p := range r.at {
		places[i] = place{int((p[1] - corner[1]) / cell), int((p[0] - corner[0]) / cell), i}
	}
	slices.SortFunc(places, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.col, b.col), cmp.Compare(a.index, b.index))
	})
	var out readings
	var x, y, z, sum float64
	for k, p := range places {
		i := p.index
		w := 1 / r.noise[i]
		x, y, z, sum = x+w*r.at[i][0], y+w*r.at[i][1], z+w*r.z[i], sum+w
		last := k == len(places)-1
		if last || places[k+1].row != p.row || places[k+1].col != p.col {
			out.at = append(out.at, orb.Point{x / sum, y / sum})
			out.z = append(out.z, z/sum)
			out.noise = append(out.noise, 1/sum)
			x, y, z, sum = 0, 0, 0, 0
		}
	}
	return out
}
