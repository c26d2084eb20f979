package walk

import (
	"math"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// firstNodes is about how many places along the plot's longer side are looked at
// for the first readings.
const firstNodes = 24

// Farthest is the place inside the boundary, its corners among them, that is
// farthest from every reading so far, or from the middle of the plot while there
// is none: where to read while there is no ground to judge by yet. The first
// readings then fall near the corners and the middle of the sides, which tells a
// plane best. ok is false without a boundary.
func Farthest(p *geodata.Plot) (at orb.Point, away float64, ok bool) {
	if len(p.Boundary) == 0 || len(p.Boundary[0]) < 4 {
		return orb.Point{}, 0, false
	}
	middle, _ := planar.CentroidArea(p.Boundary)
	consider := func(q orb.Point) {
		d := nearestReading(p.Spots, q)
		if len(p.Spots) == 0 {
			d = planar.Distance(middle, q)
		}
		if !ok || d > away*(1+1e-9) {
			at, away, ok = q, d, true
		}
	}
	for _, corner := range p.Boundary[0][1:] {
		consider(inwards(corner, middle))
	}
	b := p.Boundary.Bound()
	cell := math.Max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) / firstNodes
	for y := b.Min[1] + cell/2; y < b.Max[1]; y += cell {
		for x := b.Min[0] + cell/2; x < b.Max[0]; x += cell {
			if q := (orb.Point{x, y}); planar.PolygonContains(p.Boundary, q) {
				consider(q)
			}
		}
	}
	return at, away, ok
}

// offCorner is how far from a corner the staff is put, m: clear of its post.
const offCorner = 0.5

// inwards moves a corner a little towards the middle.
func inwards(corner, middle orb.Point) orb.Point {
	d := planar.Distance(corner, middle)
	if d <= offCorner {
		return corner
	}
	t := offCorner / d
	return orb.Point{corner[0] + t*(middle[0]-corner[0]), corner[1] + t*(middle[1]-corner[1])}
}
