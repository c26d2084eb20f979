package sun

import (
	"math"

	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// Taken adds to taken, one figure for each node of places, the hours of direct sun
// of a clear day that a round thing standing at that node would take from a patch
// of ground, the mean over its points. places holds the height of the ground at
// each node where the thing may stand, and NaN elsewhere; the thing's own centre
// is not looked at. What is already in the way of the sun is taken into account:
// the figure is the same, but for rounding, as that of Hours without the thing less
// that of Hours with it.
func (s *Scene) Taken(d Day, points []orb.Point, thing Obstacle, places *terrain.Grid, taken []float64) {
	if len(d.Sun) == 0 || len(points) == 0 || thing.Passes >= 1 {
		return
	}
	top := math.Inf(-1)
	for _, z := range places.Z {
		if z > top { // not NaN
			top = z
		}
	}
	each := d.Length * (1 - thing.Passes) / float64(len(points)*len(d.Sun))
	for _, p := range points {
		z, _ := s.ground.HeightAt(p)
		for _, sun := range d.Sun {
			share := s.passes(p, z, sun)
			if share == 0 {
				continue
			}
			e, n, rise := s.toward(sun)
			b := beam{p, z, e, n, rise}
			b.takenBy(thing, places, top+thing.Height, each*share, taken)
		}
	}
}

// beam is a line from a point of the ground to the sun.
type beam struct {
	from       orb.Point
	z          float64
	e, n, rise float64 // its direction, and its rise per metre
}

// takenBy adds hours to the nodes at which a thing hides the sun. highest is the
// greatest height that its top has anywhere.
func (b beam) takenBy(thing Obstacle, places *terrain.Grid, highest, hours float64, taken []float64) {
	r := thing.Radius
	far := r + math.Max(0, highest-b.z)/b.rise // nothing hides from farther off
	for row := range places.Rows {
		dy := places.Origin[1] + float64(row)*places.Cell - b.from[1]
		low, high := within(b.n, -dy*b.e, r)                      // |dx n - dy e| < r
		low2, high2 := within(b.e, dy*b.n-(far-r)/2, (far+r)/2+r) // -r < dx e + dy n < far, and a little more
		low, high = math.Max(low, low2), math.Min(high, high2)
		if !(low <= high) {
			continue
		}
		first := max(0, int(math.Ceil((b.from[0]+low-places.Origin[0])/places.Cell-1e-9)))
		last := min(places.Cols-1, int(math.Floor((b.from[0]+high-places.Origin[0])/places.Cell+1e-9)))
		for col := first; col <= last; col++ {
			i := row*places.Cols + col
			c := crown{places.Node(col, row), r, places.Z[i] + thing.Height, thing.Passes}
			if c.hides(b.from, b.z, b.e, b.n, b.rise) { // never where the height is NaN
				taken[i] += hours
			}
		}
	}
}

// within is where |k x + c| < r; empty, low over high, where it is nowhere.
func within(k, c, r float64) (low, high float64) {
	if math.Abs(k) < 1e-12 {
		if math.Abs(c) < r {
			return math.Inf(-1), math.Inf(1)
		}
		return 1, -1
	}
	a, b := (-r-c)/k, (r-c)/k
	return math.Min(a, b), math.Max(a, b)
}
