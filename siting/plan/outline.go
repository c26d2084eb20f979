package plan

import (
	"math"

	"github.com/paulmach/orb"
)

// outlined is a line of a width as rings that run the same way round: a box for
// each piece and a disc at each bend, so that joints are round and ends flat.
func outlined(pts []orb.Point, width float64) [][]orb.Point {
	var out [][]orb.Point
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		if a == b {
			continue
		}
		u := unit(orb.Point{b[0] - a[0], b[1] - a[1]})
		x, y := -u[1]*width/2, u[0]*width/2
		out = append(out, []orb.Point{{a[0] + x, a[1] + y}, {a[0] - x, a[1] - y}, {b[0] - x, b[1] - y}, {b[0] + x, b[1] + y}})
	}
	bends := pts[min(1, len(pts)):max(0, len(pts)-1)]
	if n := len(pts); n > 2 && pts[0] == pts[n-1] {
		bends = pts[1:]
	}
	for _, p := range bends {
		out = append(out, disc(p, width/2))
	}
	return out
}

// dashed cuts a line into strokes by lengths of stroke and gap in turn; no
// lengths, or none over 0, leave it whole.
func dashed(pts []orb.Point, lengths []float64) [][]orb.Point {
	whole := 0.0
	for _, l := range lengths {
		whole += l
	}
	if whole <= 0 || len(pts) < 2 {
		return [][]orb.Point{pts}
	}
	w := newWalk(pts)
	var out [][]orb.Point
	for i, from := 0, 0.0; from < w.length(); i++ {
		to := math.Min(w.length(), from+lengths[i%len(lengths)])
		if i%2 == 0 && to > from {
			out = append(out, w.part(from, to))
		}
		from += lengths[i%len(lengths)]
	}
	return out
}
