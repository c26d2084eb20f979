package surface

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"crossfall/geodata"
)

// tidy drops repeated points; nil for a line of one place.
func tidy(line orb.LineString) orb.LineString {
	out := slices.CompactFunc(slices.Clone(line), func(a, b orb.Point) bool { return planar.Distance(a, b) <= snap })
	if len(out) < 2 {
		return nil
	}
	return out
}

// closed tells whether a line comes back to its beginning.
func closed(line orb.LineString) bool {
	return len(line) > 3 && planar.Distance(line[0], line[len(line)-1]) <= snap
}

// extended is lines with each end that stops inside the boundary carried on,
// the way its last piece points, to the boundary, a hole in it or the first line met: ground
// cannot be joined round the end of a wall and parted beside it.
func extended(lines []orb.LineString, boundary orb.Polygon) []orb.LineString {
	out := make([]orb.LineString, len(lines))
	for i, l := range lines {
		out[i] = slices.Clone(l)
		if closed(l) {
			continue
		}
		end := len(l) - 1
		if p, ok := reach(l[1], l[0], lines, boundary); ok {
			out[i] = slices.Insert(out[i], 0, p)
		}
		if p, ok := reach(l[end-1], l[end], lines, boundary); ok {
			out[i] = append(out[i], p)
		}
	}
	return out
}

// reach is where a line from a past its end b first meets something; ok is
// false for an end outside, or that meets something as it is.
func reach(a, b orb.Point, lines []orb.LineString, boundary orb.Polygon) (orb.Point, bool) {
	if !geodata.Inside(boundary[0], b) || inHole(boundary, b) {
		return orb.Point{}, false
	}
	size := boundary.Bound()
	far := planar.Distance(size.Min, size.Max) + 1
	d := planar.Distance(a, b)
	beyond := orb.Point{b[0] + (b[0]-a[0])/d*far, b[1] + (b[1]-a[1])/d*far}
	nearest, at := math.Inf(1), orb.Point{}
	edges := slices.Clone(lines)
	for _, r := range boundary {
		edges = append(edges, orb.LineString(r))
	}
	for _, l := range edges {
		for i := 1; i < len(l); i++ {
			c, e := l[i-1], l[i]
			if planar.DistanceFromSegment(c, e, b) <= snap {
				if c != a && e != a { // not the piece that ends here
					return orb.Point{}, false
				}
				continue
			}
			// Carried a trace past a corner, so that none is slipped by.
			if p, ok := crossing(b, beyond, longer(e, c), longer(c, e)); ok && planar.Distance(b, p) < nearest {
				nearest, at = planar.Distance(b, p), p
			}
		}
	}
	return at, !math.IsInf(nearest, 1)
}

// longer is e carried on a trace from c.
func longer(c, e orb.Point) orb.Point {
	d := planar.Distance(c, e)
	if d == 0 {
		return e
	}
	return orb.Point{e[0] + (e[0]-c[0])/d*snap/2, e[1] + (e[1]-c[1])/d*snap/2}
}
