package geodata

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// leastArea is the area under which a ring counts as having none, m²: a strip
// of a millimetre beside a metre of string. A default of ours.
const leastArea = 1e-3

// RingFault is what is wrong with a ring.
type RingFault struct {
	Code    string // "too-few-corners", "not-finite", "no-area", "crosses-itself", "too-many-corners"
	Corner  int    // index of the corner at which it shows
	Message string // what is wrong, to be put behind the name of the shape
	Want    string
}

// CloseRing gives a closed ring of the corners: the first is repeated at the
// end unless it stands there, and a corner that only repeats the one before it
// is left out.
func CloseRing(corners []orb.Point) orb.Ring {
	ring := make(orb.Ring, 0, len(corners)+1)
	for _, c := range corners {
		if len(ring) == 0 || c != ring[len(ring)-1] {
			ring = append(ring, c)
		}
	}
	if len(ring) > 0 && ring[0] != ring[len(ring)-1] {
		ring = append(ring, ring[0])
	}
	return ring
}

// CheckRing tells what keeps a closed ring (metres) from being the outline of
// an area; nil when nothing does. Crossing and touching sides are decided
// exactly, in rational arithmetic where floating point could err.
func CheckRing(ring orb.Ring) []RingFault {
	for i, c := range ring {
		if math.IsNaN(c[0]+c[1]) || math.IsInf(c[0], 0) || math.IsInf(c[1], 0) {
			return []RingFault{{"not-finite", i, "has a corner that is not a place", "give a number for x and for y"}}
		}
	}
	corners := len(ring) - 1
	switch {
	case corners < 3:
		return []RingFault{{
			"too-few-corners", 0, fmt.Sprintf("has %s", count(max(corners, 0), "corner")),
			"give at least three corners, one after the other along the edge",
		}}
	case corners > MostCorners:
		return []RingFault{{
			"too-many-corners", MostCorners, fmt.Sprintf("has %d corners", corners),
			fmt.Sprintf("leave out corners that lie along straight sides, down to %d", MostCorners),
		}}
	}
	if i, j, crosses := crossing(ring); crosses {
		return []RingFault{{
			"crosses-itself", j,
			fmt.Sprintf("crosses or touches itself: the side from corner %d meets the side from corner %d", i+1, j+1),
			"give the corners one after the other along the edge",
		}}
	}
	if a := math.Abs(SignedArea(ring)); a < leastArea {
		return []RingFault{{"no-area", 0, "encloses no area", "give corners that go round an area"}}
	}
	return nil
}

// SignedArea is the area of a closed ring in square metres, positive when it
// goes counterclockwise (half the sum of cross products).
func SignedArea(ring orb.Ring) float64 {
	sum := 0.0
	for i := 1; i+1 < len(ring); i++ {
		a, b := sub(ring[i], ring[0]), sub(ring[i+1], ring[0])
		sum += a[0]*b[1] - a[1]*b[0]
	}
	return sum / 2
}

// Hull is the convex hull of some points as a closed counterclockwise ring
// that begins at its westmost, then southmost corner, by Andrew's monotone
// chain (1979). Fewer than three points that are not in one line give nil.
func Hull(points []orb.Point) orb.Ring {
	sorted := slices.Clone(points)
	slices.SortFunc(sorted, func(a, b orb.Point) int {
		return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
	})
	sorted = slices.Compact(sorted)
	if len(sorted) < 3 {
		return nil
	}
	lower := chain(sorted)
	slices.Reverse(sorted)
	upper := chain(sorted)
	ring := orb.Ring(append(lower[:len(lower)-1], upper...))
	if len(ring) < 4 {
		return nil
	}
	return ring
}

// chain is one half of the hull of sorted points.
func chain(sorted []orb.Point) []orb.Point {
	var out []orb.Point
	for _, p := range sorted {
		for len(out) > 1 && side(out[len(out)-2], out[len(out)-1], p) <= 0 {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	return out
}

// Inside tells whether a point lies in a closed ring or on its edge, by
// counting the sides to the east of it (even-odd rule).
func Inside(ring orb.Ring, p orb.Point) bool {
	in := false
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if onSegment(a, b, p) {
			return true
		}
		if (a[1] > p[1]) != (b[1] > p[1]) && (side(a, b, p) > 0) == (b[1] > a[1]) {
			in = !in
		}
	}
	return in
}

// RingsMeet tells whether two closed rings share a point of their areas.
func RingsMeet(a, b orb.Ring) bool {
	if len(a) < 4 || len(b) < 4 || !a.Bound().Intersects(b.Bound()) {
		return false
	}
	if Inside(a, b[0]) || Inside(b, a[0]) {
		return true
	}
	for j := 1; j < len(b); j++ {
		if EdgeMeets(a, b[j-1], b[j]) {
			return true
		}
	}
	return false
}

// EdgeMeets tells whether a segment shares a point with the edge of a closed
// ring.
func EdgeMeets(ring orb.Ring, from, to orb.Point) bool {
	for i := 1; i < len(ring); i++ {
		if segmentsMeet(ring[i-1], ring[i], from, to) {
			return true
		}
	}
	return false
}

// crossing finds the first two sides of a closed ring that meet elsewhere than
// at the corner they share.
func crossing(ring orb.Ring) (i, j int, crosses bool) {
	n := len(ring) - 1
	for i := range n {
		for j := i + 1; j < n; j++ {
			if sidesMeet(ring, n, i, j) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

func sidesMeet(ring orb.Ring, n, i, j int) bool {
	a, b, c, d := ring[i], ring[i+1], ring[j], ring[j+1]
	switch {
	case j == i+1: // they share b; they meet again when d turns straight back, or a lies on the second
		return onSegment(a, b, d) || onSegment(c, d, a)
	case i == 0 && j == n-1: // they share a
		return onSegment(a, b, c) || onSegment(c, d, b)
	}
	return segmentsMeet(a, b, c, d)
}

// segmentsMeet tells whether two segments share a point.
func segmentsMeet(a, b, c, d orb.Point) bool {
	if max(a[0], b[0]) < min(c[0], d[0]) || max(c[0], d[0]) < min(a[0], b[0]) ||
		max(a[1], b[1]) < min(c[1], d[1]) || max(c[1], d[1]) < min(a[1], b[1]) {
		return false
	}
	return side(a, b, c)*side(a, b, d) <= 0 && side(c, d, a)*side(c, d, b) <= 0
}

// onSegment tells whether p lies on the segment from a to b.
func onSegment(a, b, p orb.Point) bool {
	return p[0] >= min(a[0], b[0]) && p[0] <= max(a[0], b[0]) &&
		p[1] >= min(a[1], b[1]) && p[1] <= max(a[1], b[1]) && side(a, b, p) == 0
}

func sub(a, b orb.Point) orb.Point { return orb.Point{a[0] - b[0], a[1] - b[1]} }

// count is a number with its word, in the plural unless it is one.
func count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
