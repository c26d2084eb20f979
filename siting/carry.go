package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// A way is looked at every waySample metres, and its gradient taken over
// wayWindow, about the run of a barrow before it stops; defaults of ours.
const (
	waySample = 0.5
	wayWindow = 2.0
)

// wayTo is the steepest rise, a ratio, of the way by which a barrow reaches a
// bed, and its length: from a gate straight to the bed, or along a drawn path
// where that is gentler. ok is false without a gate.
func (j judge) wayTo(b bed.Bed) (rise, length float64, ok bool) {
	rise = math.Inf(1)
	for _, gate := range j.plot.OfKind(geodata.GateKind) {
		from, _ := planar.CentroidArea(gate.Shape)
		ways := []orb.LineString{{from, b.Centre}}
		for _, p := range j.plot.OfKind(geodata.PathKind) {
			if line, isLine := p.Shape.(orb.LineString); isLine && len(line) > 1 {
				ways = append(ways, byPath(from, line, b.Centre))
			}
		}
		for _, w := range ways {
			points := spaced(w, waySample)
			if r := j.steepestRise(points); r < rise {
				rise, length, ok = r, planar.Length(w), true
			}
		}
	}
	if !ok {
		return 0, 0, false
	}
	return rise, length, true
}

// byPath is the way from a place by a drawn path to another.
func byPath(from orb.Point, path orb.LineString, to orb.Point) orb.LineString {
	points := spaced(path, waySample)
	nearest := func(q orb.Point) int {
		best := 0
		for i := range points {
			if planar.Distance(points[i], q) < planar.Distance(points[best], q) {
				best = i
			}
		}
		return best
	}
	way := orb.LineString{from}
	i, k := nearest(from), nearest(to)
	step := 1
	if k < i {
		step = -1
	}
	for ; i != k; i += step {
		way = append(way, points[i])
	}
	return append(way, points[k], to)
}

// spaced are points along a line, so many metres apart or a little less.
func spaced(line orb.LineString, step float64) []orb.Point {
	out := []orb.Point{line[0]}
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		n := max(1, int(math.Ceil(planar.Distance(a, b)/step)))
		for k := 1; k <= n; k++ {
			t := float64(k) / float64(n)
			out = append(out, orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])})
		}
	}
	return out
}

// steepestRise is the greatest gradient uphill over any wayWindow of a way, and
// 0 where it never rises.
func (j judge) steepestRise(points []orb.Point) float64 {
	run := make([]float64, len(points))
	height := make([]float64, len(points))
	for i, p := range points {
		height[i], _ = j.fit.HeightAt(p)
		if i > 0 {
			run[i] = run[i-1] + planar.Distance(points[i-1], p)
		}
	}
	most, last := 0.0, len(points)-1
	for i, k := 0, 0; i < last; i++ {
		for k < last && run[k]-run[i] < wayWindow {
			k++
		}
		if d := run[k] - run[i]; d > 0 && (d >= wayWindow || i == 0) {
			most = math.Max(most, (height[k]-height[i])/d)
		}
	}
	return most
}
