package export

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// evenOdd sorts rings that bound an area by the even-odd rule into polygons, each an
// outer ring followed by its holes. Rings may touch, themselves or one another, at
// their corners, but not cross.
func evenOdd(rings [][]orb.Point) [][][]orb.Point {
	var all []orb.Ring
	for _, r := range rings {
		all = append(all, simple(r)...)
	}
	parents := make([]int, len(all)) // the ring right around each, itself for an outer one
	for i, r := range all {
		parents[i] = i
		around, at := 0, insideOf(r)
		for j, q := range all {
			if j == i || !planar.RingContains(q, at) {
				continue
			}
			around++
			if parents[i] == i || math.Abs(planar.Area(q)) < math.Abs(planar.Area(all[parents[i]])) {
				parents[i] = j
			}
		}
		if around%2 == 0 {
			parents[i] = i
		}
	}
	var out [][][]orb.Point
	for i, r := range all {
		if parents[i] != i {
			continue
		}
		polygon := [][]orb.Point{r}
		for j, hole := range all {
			if j != i && parents[j] == i {
				polygon = append(polygon, hole)
			}
		}
		out = append(out, polygon)
	}
	return out
}

// simple cuts a ring where it comes back to one of its corners, so that none of the
// parts touches itself.
func simple(ring []orb.Point) (out []orb.Ring) {
	if n := len(ring); n > 1 && ring[0] == ring[n-1] {
		ring = ring[:n-1]
	}
	var way []orb.Point
	for _, p := range ring {
		if i := slices.Index(way, p); i >= 0 {
			out = append(out, closed(way[i:]))
			way = way[:i]
		}
		way = append(way, p)
	}
	if len(way) > 0 {
		out = append(out, closed(way))
	}
	return slices.DeleteFunc(out, func(r orb.Ring) bool { return len(r) < 4 })
}

func closed(way []orb.Point) orb.Ring {
	return append(slices.Clone(orb.Ring(way)), way[0])
}

// insideOf is a place just inside a ring, by the middle of its first side.
func insideOf(r orb.Ring) orb.Point {
	const part = 1e-3 // of the side's length
	side := orb.Point{r[1][0] - r[0][0], r[1][1] - r[0][1]}
	left := math.Copysign(part, float64(r.Orientation())) // counterclockwise is 1
	return orb.Point{r[0][0] + side[0]/2 - left*side[1], r[0][1] + side[1]/2 + left*side[0]}
}
