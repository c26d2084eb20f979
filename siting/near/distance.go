package near

import (
	"math"

	"github.com/paulmach/orb"
)

// Distance is the shortest plan distance from s to o, metres, and the point of
// s where it is met (the first of several in drawing order). It is 0 where
// the two touch or cross or one lies inside the other, and NaN when either is
// not Measurable: compare so that NaN falls on the careful side.
func (s Shape) Distance(o Shape) (metres float64, at orb.Point) {
	if !s.Measurable() || !o.Measurable() {
		return math.NaN(), orb.Point{}
	}
	if p, ok := s.overlap(o); ok {
		return 0, p
	}
	square, at := s.scan(o, math.Inf(1))
	return math.Sqrt(square), at
}

// scan looks for edges nearer to each other than a limit, and gives the least
// distance found and its place on s, or the limit itself when there are none.
// Limit and distance are squared: a root for every pair of edges would be most
// of the work.
func (s Shape) scan(o Shape, limit float64) (square float64, at orb.Point) {
	square = limit
	for _, a := range s.lines {
		for _, b := range o.lines {
			if !(boxGap(a, b) < square) {
				continue
			}
			if d, p := a.square(b); d < square {
				square, at = d, p
			}
		}
	}
	return square, at
}

// Closer is true when the two are less than metres apart (touching counts as
// 0 m), or when that cannot be told.
func (s Shape) Closer(o Shape, metres float64) bool {
	if !s.Measurable() || !o.Measurable() || math.IsNaN(metres) {
		return true
	}
	if !(BoundGap(s.Bound, o.Bound) < metres) {
		return false
	}
	if _, ok := s.overlap(o); ok {
		return true
	}
	square, _ := s.scan(o, metres*metres)
	return square < metres*metres
}

// overlap finds a point of one shape inside an area of the other. Shapes whose
// edges cross are left to the edges.
func (s Shape) overlap(o Shape) (orb.Point, bool) {
	for _, p := range s.heads {
		if o.Covers(p) {
			return p, true
		}
	}
	for _, p := range o.heads {
		if s.Covers(p) {
			return p, true
		}
	}
	return orb.Point{}, false
}

// square is the squared shortest distance between two edges, and its place on a.
func (a line) square(b line) (float64, orb.Point) {
	if p, ok := a.crossing(b); ok {
		return 0, p
	}
	at := a.from
	best := apart(a.from, b.nearest(a.from))
	if d := apart(a.to, b.nearest(a.to)); d < best {
		best, at = d, a.to
	}
	for _, p := range [2]orb.Point{b.from, b.to} {
		q := a.nearest(p)
		if d := apart(p, q); d < best {
			best, at = d, q
		}
	}
	return best, at
}

// crossing is where two edges properly cross. Edges that only touch are found
// by their ends.
func (a line) crossing(b line) (orb.Point, bool) {
	s, t := side(a, b.from), side(a, b.to)
	u, v := side(b, a.from), side(b, a.to)
	if (s > 0) == (t > 0) || (u > 0) == (v > 0) || s == 0 || t == 0 || u == 0 || v == 0 {
		return orb.Point{}, false
	}
	f := u / (u - v)
	return orb.Point{
		a.from[0] + f*(a.to[0]-a.from[0]),
		a.from[1] + f*(a.to[1]-a.from[1]),
	}, true
}

// side is over 0 for p on the left of the edge, under 0 on its right.
func side(l line, p orb.Point) float64 {
	return (l.to[0]-l.from[0])*(p[1]-l.from[1]) - (l.to[1]-l.from[1])*(p[0]-l.from[0])
}

// nearest is the point of the edge nearest to p.
func (a line) nearest(p orb.Point) orb.Point {
	e, n := a.to[0]-a.from[0], a.to[1]-a.from[1]
	square := e*e + n*n
	if square == 0 {
		return a.from
	}
	f := ((p[0]-a.from[0])*e + (p[1]-a.from[1])*n) / square
	f = max(0, min(1, f))
	return orb.Point{a.from[0] + f*e, a.from[1] + f*n}
}

// apart is the squared distance of two points.
func apart(p, q orb.Point) float64 {
	e, n := p[0]-q[0], p[1]-q[1]
	return e*e + n*n
}

// boxGap is the squared distance between the upright boxes round two edges,
// which is never over that of the edges.
func boxGap(a, b line) float64 {
	e := intervalGap(a.from[0], a.to[0], b.from[0], b.to[0])
	n := intervalGap(a.from[1], a.to[1], b.from[1], b.to[1])
	return e*e + n*n
}

func intervalGap(a, b, c, d float64) float64 {
	if a > b {
		a, b = b, a
	}
	if c > d {
		c, d = d, c
	}
	return max(0, c-b, a-d)
}

// BoundGap is the distance between two upright boxes, 0 when they touch.
func BoundGap(a, b orb.Bound) float64 {
	e := intervalGap(a.Min[0], a.Max[0], b.Min[0], b.Max[0])
	n := intervalGap(a.Min[1], a.Max[1], b.Min[1], b.Max[1])
	return math.Sqrt(e*e + n*n)
}
