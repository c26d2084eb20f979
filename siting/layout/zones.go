package layout

import (
	"context"
	"math"

	"github.com/paulmach/orb"
)

// cut is a straight path that parts a plot in two zones, each with rows of its
// own direction.
type cut struct {
	at     orb.Point
	normal orb.Point // unit vector
}

// sides tells which places lie wholly on the left and on the right of a cut, with
// half a path to it, so that no bed of one zone conflicts with one of the other.
func (f *field) sides(c cut) (left, right []bool) {
	left, right = make([]bool, len(f.sites)), make([]bool, len(f.sites))
	long, short := (f.length+f.path)/2, (f.width+f.path)/2
	for i, s := range f.sites {
		d := f.directions[s.direction]
		reach := long*math.Abs(c.normal[0]*d.east+c.normal[1]*d.north) + short*math.Abs(c.normal[1]*d.east-c.normal[0]*d.north)
		off := (s.x-c.at[0])*c.normal[0] + (s.y-c.at[1])*c.normal[1]
		left[i], right[i] = off >= reach-hair, off <= -reach+hair
	}
	return left, right
}

// parted is a layout in two zones.
type parted struct {
	cut         cut
	left, right bestRows
	beds        [2]int // on either side
	value       float64
}

// inZones is the best layout of the most beds, up to a number, over all cuts;
// ok is false where no cut leaves room for a bed on both sides. For one cut it is
// exact: the best of every sharing out of the beds between the zones.
func (f *field) inZones(ctx context.Context, cuts []cut, want demands, usable []bool, most int) (best parted, ok bool, err error) {
	for _, c := range cuts {
		left, right := f.sides(c)
		for i := range left {
			left[i] = left[i] && (usable == nil || usable[i])
			right[i] = right[i] && (usable == nil || usable[i])
		}
		p := parted{cut: c}
		if p.left, err = f.allRows(ctx, want, left, most); err != nil {
			return best, false, err
		}
		if p.right, err = f.allRows(ctx, want, right, most); err != nil {
			return best, false, err
		}
		if !p.share(most) {
			continue
		}
		n, have := p.beds[0]+p.beds[1], best.beds[0]+best.beds[1]
		if !ok || n > have || n == have && p.value > best.value+hair {
			best, ok = p, true
		}
	}
	return best, ok, nil
}

// share finds the best sharing out of the most beds that can be shared.
func (p *parted) share(most int) bool {
	p.value = math.Inf(-1)
	for n := min(most, p.left.fits()+p.right.fits()); n > 1 && math.IsInf(p.value, -1); n-- {
		for k := 1; k < n; k++ {
			if v := p.left.at(k) + p.right.at(n-k); v > p.value {
				p.value, p.beds = v, [2]int{k, n - k}
			}
		}
	}
	return !math.IsInf(p.value, -1)
}

// at is the value of k beds.
func (b bestRows) at(k int) float64 {
	if k >= len(b.value) {
		return math.Inf(-1)
	}
	return b.value[k]
}

// traceZones is the sites of a layout in two zones.
func (f *field) traceZones(p parted, want demands, usable []bool) []int {
	left, right := f.sides(p.cut)
	for i := range left {
		left[i] = left[i] && (usable == nil || usable[i])
		right[i] = right[i] && (usable == nil || usable[i])
	}
	return append(f.traceRows(p.left, p.beds[0], want, left), f.traceRows(p.right, p.beds[1], want, right)...)
}

// cutsOf are the cuts that are tried of a boundary: along both sides of every
// corner that turns inwards, and through the middle along and square to the
// longest side.
func cutsOf(boundary orb.Polygon) []cut {
	var out []cut
	add := func(at orb.Point, east, north float64) {
		size := math.Hypot(east, north)
		if size < hair {
			return
		}
		c := cut{at, orb.Point{-north / size, east / size}}
		for _, o := range out {
			parallel := math.Abs(c.normal[0]*o.normal[1]-c.normal[1]*o.normal[0]) < 0.02
			if parallel && math.Abs((c.at[0]-o.at[0])*o.normal[0]+(c.at[1]-o.at[1])*o.normal[1]) < 0.1 {
				return
			}
		}
		if len(out) < mostCuts {
			out = append(out, c)
		}
	}
	ring := openRing(boundary[0])
	turn := 1.0
	if ringArea(ring) < 0 {
		turn = -1
	}
	longest := orb.Point{}
	for i, p := range ring {
		before, after := ring[(i+len(ring)-1)%len(ring)], ring[(i+1)%len(ring)]
		a := orb.Point{p[0] - before[0], p[1] - before[1]}
		b := orb.Point{after[0] - p[0], after[1] - p[1]}
		if math.Hypot(b[0], b[1]) > math.Hypot(longest[0], longest[1])+hair {
			longest = b
		}
		if sine := turn * (a[0]*b[1] - a[1]*b[0]) / (math.Hypot(a[0], a[1]) * math.Hypot(b[0], b[1])); sine < -0.2 {
			add(p, a[0], a[1])
			add(p, b[0], b[1])
		}
	}
	middle := boundary.Bound().Center()
	add(middle, longest[0], longest[1])
	add(middle, -longest[1], longest[0])
	return out
}

// mostCuts is how many cuts are tried; a default of ours.
const mostCuts = 8

// openRing is a ring without its last point where that repeats the first, and
// without points that repeat the one before.
func openRing(r orb.Ring) []orb.Point {
	var out []orb.Point
	for i, p := range r {
		if i == 0 || p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	if len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	return out
}

// ringArea is twice the area of a ring, positive anticlockwise.
func ringArea(r []orb.Point) float64 {
	sum := 0.0
	for i, p := range r {
		q := r[(i+1)%len(r)]
		sum += p[0]*q[1] - q[0]*p[1]
	}
	return sum
}
