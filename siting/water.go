package siting

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/siting/rain"
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
	// A path shorter than this says nothing that the arrows do not.
	pathShortest = 2.0 // m
)

// describeWater fills the water part of an Assessment.
func describeWater(p *geodata.Plot, winter *rain.Winter, burst rain.Burst) Water {
	w := Water{
		DesignRain: burst.Rate, DesignSource: burst.Source, DesignSaid: burst.Said,
		Storm: "not run", Paths: []Path{},
	}
	if winter != nil {
		total := winter.Total
		w.WinterRain, w.WinterMonths, w.WinterSource = &total, winter.Months, winter.Source
	}
	return w
}

// runoffPaths follows water from the edge where it comes in. On uneven ground
// of which not enough is known there are none, and elsewhere a path ends where
// the fall is under twice its standard error.
func (j judge) runoffPaths(beds []decision) []Path {
	out := []Path{}
	if j.fit.Uneven {
		return out
	}
	p, field := j.plot, j.field
	opt := drainage.Options{Plot: p.Boundary, LeastFall: func(q orb.Point) float64 {
		e, _ := j.quick.errors.HeightAt(q)
		if math.IsNaN(e) {
			return 0
		}
		return 2 * e
	}}
	for _, start := range inflow(p.Boundary, field) {
		path := drainage.Downhill(field, start, opt)
		if path.Length < pathShortest {
			continue
		}
		name := fmt.Sprintf("path %d", len(out)+1)
		out = append(out, Path{
			Name: name, Points: thinned(path.Points, 0.5), Length: path.Length,
			Said: j.pathSaid(path, beds),
		})
		if len(out) == pathsMost {
			break
		}
	}
	return out
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
	return in, ok && planar.PolygonContains(boundary, in) && g.Along(normal) < 0
}

// pathSaid tells a path in words.
func (j judge) pathSaid(path drainage.Path, beds []decision) string {
	p := j.plot
	first, last := path.Points[0], path.Points[len(path.Points)-1]
	said := fmt.Sprintf("from the %s (%s)", sideOf(first, p.Frame, p.Boundary), placeSaid(first))
	if met := bedsMet(path.Points, beds); len(met) > 0 {
		said += " through the place of " + strings.Join(met, ", then ")
	}
	pond := j.pondAt(last)
	switch {
	case path.End == drainage.LeavesPlot:
		said += fmt.Sprintf(", leaves by the %s (%s)", sideOf(last, p.Frame, p.Boundary), placeSaid(last))
	case pond != "":
		said += fmt.Sprintf(", gathers in %s (%s)", pond, placeSaid(last))
	case path.End == drainage.ReachesHollow:
		said += fmt.Sprintf(", stands in a dip (%s)", placeSaid(last))
	default:
		said += fmt.Sprintf(", followed as far as %s: %s", placeSaid(last), path.End)
	}
	return said
}

// pondAt names the hollow whose water a point stands under, or "".
func (j judge) pondAt(q orb.Point) string {
	for _, h := range j.ponds {
		if outline, ok := h.Shape.(orb.Polygon); ok && planar.PolygonContains(outline, q) {
			return h.Name
		}
	}
	return ""
}

// bedsMet names the beds whose place a path crosses, in order.
func bedsMet(points []orb.Point, beds []decision) []string {
	var out []string
	for _, q := range points {
		for _, d := range beds {
			if planar.PolygonContains(d.bed.Footprint(), q) && (len(out) == 0 || out[len(out)-1] != d.bed.Name) {
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
