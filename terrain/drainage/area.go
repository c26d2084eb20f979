package drainage

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// onEdge is how near a point must be to an edge, in metres, to lie on it. It
// covers rounding only.
const onEdge = 1e-9

// area is a polygon that paths are kept in.
type area struct{ polygon orb.Polygon }

// unbounded reports whether there is no polygon at all.
func (a area) unbounded() bool { return len(a.polygon) == 0 || len(a.polygon[0]) == 0 }

// contains reports whether a point lies in the polygon or on its edge.
func (a area) contains(p orb.Point) bool {
	if a.unbounded() || !isPlace(p) {
		return false
	}
	return a.parity(p) || a.onEdge(p)
}

// within reports whether a point lies in the polygon and not on its edge.
func (a area) within(p orb.Point) bool {
	return !a.unbounded() && isPlace(p) && a.parity(p) && !a.onEdge(p)
}

// parity reports whether the sides to the east of a point that is not on one are
// odd in number. A path asks it at every step, and the library's test works out
// the bound of every ring anew each time.
func (a area) parity(p orb.Point) bool {
	in := false
	for _, ring := range a.polygon {
		for i := range ring {
			c, d := ring[i], ring[(i+1)%len(ring)]
			if (c[1] > p[1]) != (d[1] > p[1]) && p[0] < c[0]+(p[1]-c[1])/(d[1]-c[1])*(d[0]-c[0]) {
				in = !in
			}
		}
	}
	return in
}

// isPlace tells that a point is finite.
func isPlace(p orb.Point) bool { return p[0]-p[0] == 0 && p[1]-p[1] == 0 }

func (a area) onEdge(p orb.Point) bool {
	for _, ring := range a.polygon {
		if _, distance := nearest(ring, p); distance <= onEdge {
			return true
		}
	}
	return false
}

// exit is where the straight way from p, which lies in the polygon, to q first
// leaves it, and what part of the way that is.
func (a area) exit(p, q orb.Point) (edge orb.Point, part float64, leaves bool) {
	if a.unbounded() {
		return q, 1, false
	}
	var buffer [8]float64
	marks := append(a.crossings(p, q, buffer[:0]), 1)
	slices.Sort(marks)
	shortest := onEdge / max(math.Hypot(q[0]-p[0], q[1]-p[1]), onEdge)
	start := 0.
	for _, end := range marks {
		if end-start <= shortest {
			continue
		}
		if !a.contains(between(p, q, (start+end)/2)) {
			return between(p, q, start), start, true
		}
		start = end
	}
	return q, 1, false
}

// crossings adds to parts those of the way from p to q at which it meets an
// edge.
func (a area) crossings(p, q orb.Point, parts []float64) []float64 {
	for _, ring := range a.polygon {
		for i := range ring {
			if part, ok := meets(p, q, ring[i], ring[(i+1)%len(ring)]); ok {
				parts = append(parts, part)
			}
		}
	}
	return parts
}

// meets is the part of the way from p to q at which it meets the side from c
// to d; never for parallel lines.
func meets(p, q, c, d orb.Point) (part float64, ok bool) {
	wayX, wayY := q[0]-p[0], q[1]-p[1]
	sideX, sideY := d[0]-c[0], d[1]-c[1]
	cross := wayX*sideY - wayY*sideX
	if cross == 0 {
		return 0, false
	}
	part = ((c[0]-p[0])*sideY - (c[1]-p[1])*sideX) / cross
	along := ((c[0]-p[0])*wayY - (c[1]-p[1])*wayX) / cross
	const slack = 1e-12 // a way through a corner meets at least one side
	return part, part >= 0 && part <= 1 && along >= -slack && along <= 1+slack
}

// nearest is how far round a ring, in metres from its first point, its nearest
// point to p is, and how far p is from there.
func nearest(ring orb.Ring, p orb.Point) (round, distance float64) {
	distance = math.Inf(1)
	var walked float64
	for i := range ring {
		c, d := ring[i], ring[(i+1)%len(ring)]
		length := math.Hypot(d[0]-c[0], d[1]-c[1])
		part := 0.
		if length > 0 {
			part = ((p[0]-c[0])*(d[0]-c[0]) + (p[1]-c[1])*(d[1]-c[1])) / (length * length)
			part = min(max(part, 0), 1)
		}
		foot := between(c, d, part)
		if far := math.Hypot(p[0]-foot[0], p[1]-foot[1]); far < distance {
			round, distance = walked+part*length, far
		}
		walked += length
	}
	return round, distance
}

// walk lists the corners of a ring passed on the shorter way round it from p to
// q, both of which lie on it; none when one of them does not.
func walk(ring orb.Ring, p, q orb.Point) []orb.Point {
	const on = 1e-6
	start, far1 := nearest(ring, p)
	end, far2 := nearest(ring, q)
	if far1 > on || far2 > on {
		return nil
	}
	total := planar.Length(ring)
	ahead := math.Mod(end-start+total, total)
	if ahead <= total/2 {
		return cornersPassed(ring, start, ahead, total)
	}
	back := cornersPassed(ring, end, total-ahead, total)
	slices.Reverse(back)
	return back
}

// cornersPassed lists the corners met going forward round a ring from start for
// a length, both in metres.
func cornersPassed(ring orb.Ring, start, length, total float64) []orb.Point {
	type passed struct {
		at    orb.Point
		ahead float64
	}
	var found []passed
	var walked float64
	for i := range len(ring) - 1 {
		if ahead := math.Mod(walked-start+total, total); ahead < length {
			found = append(found, passed{ring[i], ahead})
		}
		walked += math.Hypot(ring[i+1][0]-ring[i][0], ring[i+1][1]-ring[i][1])
	}
	slices.SortStableFunc(found, func(a, b passed) int { return cmp.Compare(a.ahead, b.ahead) })
	out := make([]orb.Point, len(found))
	for i, f := range found {
		out[i] = f.at
	}
	return out
}
