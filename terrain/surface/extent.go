package surface

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// extent is how far a set of points reaches: its hull, the median distance to
// the nearest neighbour at another place, and the greatest distance across.
type extent struct {
	hull     []orb.Point // anticlockwise, not closed
	spacing  float64
	diameter float64
}

// newExtent measures the points, which must not all be in one line.
func newExtent(points []orb.Point) extent {
	e := extent{hull: convexHull(points), spacing: medianSpacing(points)}
	for i, a := range e.hull {
		for _, b := range e.hull[i+1:] {
			e.diameter = math.Max(e.diameter, planar.Distance(a, b))
		}
	}
	return e
}

// outside is the distance from p to the hull; 0 inside.
func (e extent) outside(p orb.Point) float64 {
	in, d := true, math.Inf(1)
	for i, a := range e.hull {
		b := e.hull[(i+1)%len(e.hull)]
		if turn(a, b, p) < 0 {
			in = false
		}
		d = math.Min(d, planar.DistanceFromSegment(a, b, p))
	}
	if in {
		return 0
	}
	return d
}

// turn is over 0 when a, b, c turn left.
func turn(a, b, c orb.Point) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}

// convexHull is the hull by monotone chains (Andrew 1979, Information
// Processing Letters 9, 216-219, from memory), anticlockwise from the west.
func convexHull(points []orb.Point) []orb.Point {
	ps := distinct(points)
	chain := func(ps []orb.Point) []orb.Point {
		var h []orb.Point
		for _, p := range ps {
			for len(h) > 1 && turn(h[len(h)-2], h[len(h)-1], p) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, p)
		}
		return h[:len(h)-1]
	}
	lower := chain(ps)
	slices.Reverse(ps)
	return append(lower, chain(ps)...)
}

// distinct is the points without repeats, from west to east, then south to north.
func distinct(points []orb.Point) []orb.Point {
	ps := slices.Clone(points)
	slices.SortFunc(ps, westToEast)
	return slices.Compact(ps)
}

// westToEast orders points from west to east, then south to north.
func westToEast(a, b orb.Point) int {
	return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
}

// medianSpacing is the median distance from a place to its nearest other place.
// The places are swept along the longer side of their bound, so that only near
// ones are looked at.
func medianSpacing(points []orb.Point) float64 {
	b := orb.MultiPoint(points).Bound()
	axis := 0
	if b.Max[1]-b.Min[1] > b.Max[0]-b.Min[0] {
		axis = 1
	}
	ps := distinct(points)
	slices.SortStableFunc(ps, func(p, q orb.Point) int { return cmp.Compare(p[axis], q[axis]) })
	nearest := make([]float64, len(ps))
	for i, p := range ps {
		best := math.Inf(1)
		for j := i - 1; j >= 0 && p[axis]-ps[j][axis] < best; j-- {
			best = math.Min(best, planar.Distance(p, ps[j]))
		}
		for j := i + 1; j < len(ps) && ps[j][axis]-p[axis] < best; j++ {
			best = math.Min(best, planar.Distance(p, ps[j]))
		}
		nearest[i] = best
	}
	return median(nearest)
}

// median is the middle value, or the mean of the middle two; it sorts a copy.
func median(v []float64) float64 {
	s := slices.Clone(v)
	slices.Sort(s)
	n := len(s)
	if n%2 == 1 {
		return s[n/2]
	}
	return (s[n/2-1] + s[n/2]) / 2
}

// vagueHeight is the standard deviation of a height under which ground is not
// called unknown, metres; a default of ours.
const vagueHeight = 0.050

// beyond says that p lies too far outside the heights, or that the variance of
// its height is too great; a point that is not finite is beyond.
func (s *survey) beyond(p orb.Point, variance float64) bool {
	out := s.extent.outside(s.local(p))
	sd := math.Sqrt(variance)
	return !(out <= s.extent.spacing/2) || !(sd <= math.Max(3*s.tau, vagueHeight))
}
