package drainage

import (
	"math"

	"github.com/paulmach/orb"
)

// SpecificCatchment follows the steepest descent from a point at the upper end
// of a slope (a plot edge, a wall, a crest) and gives, for every point of the
// path, the specific catchment area: square metres of ground above per metre
// of contour, in metres, 0 at the start. On a plane that is the length of the
// path so far. It is the exact value along a flow line, da/ds = 1 - a div n
// with n the direction of flow: Gallant & Hutchinson 2011, Water Resources
// Research 47 W05535, in the form derived from the width of a stream tube.
//
// The list is shorter than the path where the bend of the ground is unknown or
// the area grows past all bounds. A flow line that starts on a crest or in a
// gully is exact only as far as its start truly has nothing above it.
func SpecificCatchment(f Field, from orb.Point, opt Options) (Path, []float64) {
	path := Downhill(f, from, opt)
	areas := []float64{0}
	spread, ok := spreading(f, path.Points[0])
	for i := 1; ok && i < len(path.Points); i++ {
		p, q := path.Points[i-1], path.Points[i]
		middle, ok1 := spreading(f, between(p, q, .5))
		end, ok2 := spreading(f, q)
		if !ok1 || !ok2 {
			break
		}
		a := widen(areas[i-1], math.Hypot(q[0]-p[0], q[1]-p[1]), spread, middle, end)
		if math.IsInf(a, 0) || math.IsNaN(a) {
			break
		}
		areas = append(areas, a)
		spread = end
	}
	return path, areas
}

// widen carries a specific area over a step by the fourth-order Runge-Kutta
// rule, from the spreading at the step's start, middle and end.
func widen(a, step, start, middle, end float64) float64 {
	k1 := 1 - a*start
	k2 := 1 - (a+step/2*k1)*middle
	k3 := 1 - (a+step/2*k2)*middle
	k4 := 1 - (a+step*k3)*end
	return a + step/6*(k1+2*k2+2*k3+k4)
}

// spreading is the divergence of the direction of flow at a point, 1/m, by
// central differences; positive where paths part. At the rim of the known
// ground one side is used.
func spreading(f Field, p orb.Point) (float64, bool) {
	const h = 1e-3 // metres; small against any bend, large against rounding
	east, okEast := slopeOf(f, p, vector{1, 0}, h)
	north, okNorth := slopeOf(f, p, vector{0, 1}, h)
	return east + north, okEast && okNorth
}

// slopeOf is the rate at which the part of the flow direction along an axis
// changes on that axis.
func slopeOf(f Field, p orb.Point, axis vector, h float64) (float64, bool) {
	before, _, ok1 := steepest(f, axis.from(p, -h), -1)
	after, _, ok2 := steepest(f, axis.from(p, h), -1)
	span := 2 * h
	if !ok1 || !ok2 {
		here, _, ok := steepest(f, p, -1)
		if !ok || (!ok1 && !ok2) {
			return 0, false
		}
		span = h
		if !ok1 {
			before = here
		} else {
			after = here
		}
	}
	return (after.dot(axis) - before.dot(axis)) / span, true
}
