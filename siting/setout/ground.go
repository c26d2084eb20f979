package setout

import (
	"math"

	"crossfall/siting/near"

	"github.com/paulmach/orb"
)

// ground is what tapes run over.
type ground struct {
	height  func(orb.Point) float64
	blocked []near.Shape
}

// heightAt is the height of the ground; 0 where it is taken as level.
func (g ground) heightAt(p orb.Point) float64 {
	if g.height == nil {
		return 0
	}
	return g.height(p)
}

// nearMark is how much of a tape beside its mark may touch what the mark stands
// on, such as the corner of a shed, m: a default of ours.
const nearMark = 0.10

// clear says whether a tape from a mark reaches a point past sheds, walls and
// hedges.
func (g ground) clear(mark, at orb.Point) bool {
	d := distance(mark, at)
	if len(g.blocked) == 0 || d <= nearMark {
		return true
	}
	u := unit(mark, at)
	from := orb.Point{mark[0] + u[0]*nearMark, mark[1] + u[1]*nearMark}
	tape := near.Of(orb.LineString{from, at})
	for _, b := range g.blocked {
		if b.Closer(tape, 1e-6) {
			return false
		}
	}
	return true
}

// taped is the distance between two points by a tape held level and by one
// pulled tight along the ground.
func (g ground) taped(a, b orb.Point) Taped {
	return Taped{distance(a, b), g.taut(a, b)}
}

// spacing is the distance at which the ground under a tape is looked at, m, and
// most the number of such places at the most.
const spacing, most = 2.0, 16

// taut is the length of a tape pulled tight between two points of the ground:
// straight through the air over hollow ground, and bent over what stands up
// between them (the upper convex hull of the ground's profile, by Andrew's
// monotone chain, 1979). Where ground stands up between two looks it is not
// seen; on a plane it is sqrt(level² + rise²).
func (g ground) taut(a, b orb.Point) float64 {
	d := distance(a, b)
	if g.height == nil || d == 0 {
		return d
	}
	n := min(most, 2*int(math.Ceil(d/(2*spacing)))) // even, so that the middle is seen
	hull := make([]orb.Point, 0, n+1)
	for i := range n + 1 {
		t := float64(i) / float64(n)
		p := orb.Point{t * d, g.height(orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])})}
		for len(hull) > 1 && turn(hull[len(hull)-2], hull[len(hull)-1], p) >= 0 {
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, p)
	}
	sum := 0.0
	for i := 1; i < len(hull); i++ {
		sum += distance(hull[i-1], hull[i])
	}
	if math.IsNaN(sum) {
		return d
	}
	return sum
}

// turn is over 0 where the way by three points turns left.
func turn(a, b, c orb.Point) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}
