package access

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/paulmach/orb/simplify"
)

// A way is drawn with corners that are outOfLine or more out of line, m, and
// looked at every pace; defaults of ours.
const (
	outOfLine = 0.02
	pace      = 0.25
)

// measure fills in what is told of a way along a line.
func (g *Ground) measure(w *Way, line orb.LineString) {
	w.Points = simplify.DouglasPeucker(outOfLine).LineString(bends(line))
	w.Hairpins = hairpins(w.Points)
	for _, p := range w.Points {
		w.Heights = append(w.Heights, g.known(p))
	}
	at := spaced(w.Points, pace)
	run, high := make([]float64, len(at)), make([]float64, len(at))
	for i, p := range at {
		high[i] = g.known(p)
		if i == 0 {
			continue
		}
		step := planar.Distance(at[i-1], p)
		run[i] = run[i-1] + step
		w.Climb += math.Max(0, high[i]-high[i-1])
		w.Descent += math.Max(0, high[i-1]-high[i])
		across := g.across(at[i-1], p)
		w.CrossFall = math.Max(w.CrossFall, across)
		if across > CrossFall {
			w.CrossFallOver += step
		}
	}
	w.Length = run[len(run)-1]
	g.stretches(w, at, run, high)
}

// bends is a line without the points at which it does not turn. Simplifying splits
// it at the point farthest off a chord; of the many on a leg beside that chord, which
// are equally far off it, the last digit would choose one that is no corner.
func bends(line orb.LineString) orb.LineString {
	const inLine = 1e-6 // m
	out := orb.LineString{}
	for i, p := range line {
		if n := len(out); n > 0 && i < len(line)-1 && planar.DistanceFromSegment(out[n-1], line[i+1], p) < inLine {
			continue
		}
		out = append(out, p)
	}
	return out
}

// known is the height of the ground; where it is not known, that of the nearest
// cell, and 0 without one.
func (g *Ground) known(p orb.Point) float64 {
	z, ok := g.heights.HeightAt(p)
	if !ok {
		if z = g.z[g.near(p)]; math.IsNaN(z) {
			return 0
		}
	}
	return z
}

// across is the fall of the ground square to a step.
func (g *Ground) across(p, q orb.Point) float64 {
	slope := g.slope[g.near(orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2})]
	length := planar.Distance(p, q)
	if length == 0 {
		return 0
	}
	return math.Abs(slope.East*(q[1]-p[1])-slope.North*(q[0]-p[0])) / length
}

// alike is a difference of gradient that is none: of stretches as steep as one
// another the first is told.
const alike = 1e-7

// stretches finds the steepest pieces of a way, and how much of it is over the limit.
func (g *Ground) stretches(w *Way, at []orb.Point, run, high []float64) {
	last := len(at) - 1
	over := make([]bool, len(at)) // the step that ends here
	for i, k := 0, 0; i < last; i++ {
		for k < last && run[k]-run[i] < Stretch-1e-9 {
			k++
		}
		length := run[k] - run[i]
		if length == 0 || (length < Stretch-1e-9 && i > 0) {
			continue
		}
		rise := (high[k] - high[i]) / length
		if rise > w.Up.Gradient+alike {
			w.Up = Steep{Gradient: rise, From: at[i], To: at[k]}
		}
		if -rise > w.Down.Gradient+alike {
			w.Down = Steep{Gradient: -rise, From: at[i], To: at[k]}
		}
		for n := i + 1; n <= k && math.Abs(rise) > Within*g.limits.Gradient; n++ {
			over[n] = true
		}
	}
	piece := 0.0
	for n := 1; n <= last; n++ {
		if !over[n] {
			piece = 0
			continue
		}
		step := run[n] - run[n-1]
		w.OverLimit, piece = w.OverLimit+step, piece+step
		w.LongestOver = math.Max(w.LongestOver, piece)
	}
}

// hairpins counts how often a way turns back, seen over legs of half a landing
// or more.
func hairpins(line orb.LineString) int {
	n, have := 0, false
	var before float64
	for i := 1; i < len(line); i++ {
		if planar.Distance(line[i-1], line[i]) < Landing/2 {
			continue
		}
		bearing := math.Atan2(line[i][1]-line[i-1][1], line[i][0]-line[i-1][0])
		if have && math.Abs(math.Remainder(bearing-before, 2*math.Pi)) > hairpin {
			n++
		}
		before, have = bearing, true
	}
	return n
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
