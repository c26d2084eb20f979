package siting

import (
	"fmt"
	"math"
	"slices"

	"crossfall/terrain"
	"crossfall/terrain/drainage"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Paths are drawn from starts this far apart along the edge where water comes
// in, and no more of them than pathsMost; defaults of ours.
const (
	pathsApart = 4.0 // m
	pathsMost  = 8
	// along is the sine of the angle to the edge under which water runs along it
	// rather than in.
	along = 0.05
	// A path shorter than this says nothing that the arrows do not.
	pathShortest = 2.0 // m
)

// runoffPaths follows water from the edge where it comes in: over the ground
// as it is, and over the same ground with the beds built. On uneven ground of
// which not enough is known there are none, and elsewhere a path ends where the
// fall is under twice its standard error.
func (j judge) runoffPaths(beds []decision) (bare, built []Path) {
	bare, built = []Path{}, []Path{}
	if j.fit.Uneven {
		return bare, built
	}
	frames := turning(beds)
	for _, start := range inflow(j.plot.Boundary, j.field) {
		path := drainage.Downhill(j.field, start, j.pathOptions())
		if path.Length < pathShortest {
			continue
		}
		name := fmt.Sprintf("path %d", len(bare)+1)
		bare = append(bare, j.pathOf(name, course{Path: path}, beds))
		if c := j.withBeds(start, frames); len(frames) > 0 {
			built = append(built, j.pathOf(name, c, beds))
		}
		if len(bare) == pathsMost {
			break
		}
	}
	return bare, built
}

// pathOptions are those of every path followed down the plot.
func (j judge) pathOptions() drainage.Options {
	return drainage.Options{Plot: j.plot.Boundary, LeastFall: func(q orb.Point) float64 {
		e, _ := j.quick.errors.HeightAt(q)
		if math.IsNaN(e) {
			return 0
		}
		return 2 * e
	}}
}

// pathOf is a followed path as the Assessment carries it.
func (j judge) pathOf(name string, c course, beds []decision) Path {
	crossed := []string{}
	for _, name := range bedsMet(c.Points, beds) {
		if name != c.against && !slices.Contains(c.turnedBy, name) { // the course runs along their sides
			crossed = append(crossed, name)
		}
	}
	return Path{
		Name: name, Points: thinned(c.Points, 0.5), Length: c.Length, End: string(c.End),
		Crosses: crossed, TurnedBy: append([]string{}, c.turnedBy...), Said: j.pathSaid(c, crossed),
	}
}

// inflow are points just inside the boundary, evenly spaced along it, where
// the ground falls inwards.
func inflow(boundary orb.Polygon, field drainage.Field) []orb.Point {
	var out []orb.Point
	ring := boundary[0]
	spacing := math.Max(pathsApart, planar.Length(ring)/float64(4*pathsMost))
	left := spacing / 2
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		side := planar.Distance(a, b)
		for ; left < side; left += spacing {
			t := left / side
			q := orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
			if in, ok := inward(q, a, b, boundary, field); ok {
				out = append(out, in)
			}
		}
		left -= side
	}
	return out
}

// inward steps 50 mm off the boundary, and is ok where water goes on inwards
// from there.
func inward(q, a, b orb.Point, boundary orb.Polygon, field drainage.Field) (orb.Point, bool) {
	normal := terrain.BearingOf(-(b[1] - a[1]), b[0]-a[0])
	in := normal.Step(q, 0.05)
	if !planar.PolygonContains(boundary, in) {
		normal = terrain.Bearing(float64(normal) + math.Pi).Normal()
		in = normal.Step(q, 0.05)
	}
	g, ok := field.GradientAt(in)
	return in, ok && planar.PolygonContains(boundary, in) && g.Along(normal) < -along*g.Fall()
}

// bedsMet names the beds whose place a path crosses, in order.
func bedsMet(points []orb.Point, beds []decision) []string {
	var out []string
	places := placesOf(beds)
	for _, q := range points {
		for i, d := range beds {
			if places[i].holds(q) && (len(out) == 0 || out[len(out)-1] != d.bed.Name) {
				out = append(out, d.bed.Name)
			}
		}
	}
	return out
}

// thinned keeps a point each spacing metres, and both ends.
func thinned(points []orb.Point, spacing float64) []orb.Point {
	out := []orb.Point{points[0]}
	for _, q := range points[1:] {
		if planar.Distance(out[len(out)-1], q) >= spacing {
			out = append(out, q)
		}
	}
	if last := points[len(points)-1]; out[len(out)-1] != last {
		out = append(out, last)
	}
	return out
}
