package siting

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/terrain"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// drawnBeds are the beds that stand in the plot's features, taken as the
// rectangle of least departure from the drawn corners.
func drawnBeds(p *geodata.Plot) []bed.Bed {
	var out []bed.Bed
	to := drawnTo
	if p.Site.Units == string(geodata.FeetAndInch) {
		to = drawnToInFeet
	}
	for i, f := range p.OfKind(geodata.BedKind) {
		poly, ok := f.Shape.(orb.Polygon)
		if !ok || len(poly) == 0 || len(poly[0]) < 5 {
			continue
		}
		name := f.Name
		if name == "" {
			name = fmt.Sprintf("drawn bed %d", i+1)
		}
		b := rectangle(name, poly[0], to)
		b.Pinned, b.Source = true, f.Source
		out = append(out, b)
	}
	return out
}

// drawnTo is what the sides of a drawn bed are rounded to, m: corners are not
// drawn to the millimetre, and a bed of 3.6001 m is meant to be cut from boards
// of 3.6 m. drawnToInFeet is the same, half an inch, for a plot in feet: 12 feet
// are 3.6576 m and would become 3.66 m, which no board of 12 feet reaches. Defaults
// of ours.
const (
	drawnTo       = 0.01
	drawnToInFeet = 0.0127
)

// rectangle reads a bed off four drawn corners, with its sides rounded: the means of
// opposite sides.
func rectangle(name string, ring orb.Ring, to float64) bed.Bed {
	mean := func(a, b, c, d orb.Point) (length float64, bearing terrain.Bearing) {
		e := ((b[0] - a[0]) + (c[0] - d[0])) / 2
		n := ((b[1] - a[1]) + (c[1] - d[1])) / 2
		return math.Round(math.Hypot(e, n)/to) * to, terrain.BearingOf(e, n)
	}
	first, along := mean(ring[0], ring[1], ring[2], ring[3])
	second, across := mean(ring[1], ring[2], ring[3], ring[0])
	centre, _ := planar.CentroidArea(ring)
	if second > first {
		first, second, along = second, first, across
	}
	return bed.New(name, centre, along, first, second)
}

// misplaced says why a drawn bed cannot stand where it is drawn, or "".
func misplaced(p *geodata.Plot, b bed.Bed, others []bed.Bed) string {
	outline := b.Footprint()[0]
	for _, c := range outline {
		if !planar.PolygonContains(p.Boundary, c) {
			return "it reaches outside the boundary"
		}
	}
	for _, o := range others {
		if overlap(outline, o.Footprint()[0]) {
			return "it lies over " + o.Name
		}
	}
	for _, f := range p.OfKind(geodata.NoGoKind) {
		if poly, ok := f.Shape.(orb.Polygon); ok && overlap(outline, poly[0]) {
			return "it lies in the no-go area " + f.Name
		}
	}
	for _, f := range p.OfKind(geodata.ObstacleKind) {
		if poly, ok := f.Shape.(orb.Polygon); ok && overlap(outline, poly[0]) {
			return "it lies over " + f.Name
		}
	}
	return ""
}

// overlap reports whether two rings share ground: their sides cross, or one
// lies within the other.
func overlap(a, b orb.Ring) bool {
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			if cross(a[i-1], a[i], b[j-1], b[j]) {
				return true
			}
		}
	}
	return planar.RingContains(a, b[0]) || planar.RingContains(b, a[0])
}

// cross reports whether two segments cross at a point inside both.
func cross(a, b, c, d orb.Point) bool {
	side := func(p, q, r orb.Point) float64 {
		return (q[0]-p[0])*(r[1]-p[1]) - (q[1]-p[1])*(r[0]-p[0])
	}
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}
