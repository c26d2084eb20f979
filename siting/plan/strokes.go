package plan

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// walk is a line on paper that can be measured from its start.
type walk struct {
	pts []orb.Point
	run []float64 // distance from the start at each point
}

func newWalk(pts []orb.Point) walk {
	w := walk{pts: pts, run: make([]float64, len(pts))}
	for i := 1; i < len(pts); i++ {
		w.run[i] = w.run[i-1] + math.Hypot(pts[i][0]-pts[i-1][0], pts[i][1]-pts[i-1][1])
	}
	return w
}

func (w walk) length() float64 {
	if len(w.run) == 0 {
		return 0
	}
	return w.run[len(w.run)-1]
}

// at is the point at a distance from the start, kept to the line's ends.
func (w walk) at(d float64) orb.Point {
	for i := 1; i < len(w.pts); i++ {
		if d > w.run[i] && i < len(w.pts)-1 {
			continue
		}
		step := w.run[i] - w.run[i-1]
		if step == 0 {
			continue
		}
		t := math.Min(1, math.Max(0, (d-w.run[i-1])/step))
		return orb.Point{
			w.pts[i-1][0] + t*(w.pts[i][0]-w.pts[i-1][0]),
			w.pts[i-1][1] + t*(w.pts[i][1]-w.pts[i-1][1]),
		}
	}
	return w.pts[0]
}

// direction is the way the line runs about a distance from its start.
func (w walk) direction(d, reach float64) orb.Point {
	a, b := w.at(d-reach), w.at(d+reach)
	return orb.Point{b[0] - a[0], b[1] - a[1]}
}

// part is the line between two distances.
func (w walk) part(from, to float64) []orb.Point {
	out := []orb.Point{w.at(from)}
	for i, r := range w.run {
		if r > from && r < to {
			out = append(out, w.pts[i])
		}
	}
	return append(out, w.at(to))
}

// every gives distances along the line: one at first, then one each step; a
// line shorter than that gives its middle.
func (w walk) every(first, step float64) []float64 {
	if w.length() < 2*first {
		return []float64{w.length() / 2}
	}
	var out []float64
	for d := first; d < w.length()-first/2; d += step {
		out = append(out, d)
	}
	return out
}

// maxHatch bounds the strokes of one hatch, whatever was drawn.
const maxHatch = 4000

// hatch gives parallel strokes at an angle (degrees, clockwise on paper) inside
// rings taken by the even-odd rule. Strokes of all hatches of one angle and
// spacing lie on the same rulings, so that overlapping strips do not blot.
func hatch(rings [][]orb.Point, angle, spacing float64) [][2]orb.Point {
	s, c := math.Sincos(-angle * math.Pi / 180)
	turn := func(p orb.Point) orb.Point { return orb.Point{p[0]*c - p[1]*s, p[0]*s + p[1]*c} }
	back := func(p orb.Point) orb.Point { return orb.Point{p[0]*c + p[1]*s, -p[0]*s + p[1]*c} }
	low, high := math.Inf(1), math.Inf(-1)
	turned := make([][]orb.Point, len(rings))
	for i, r := range rings {
		for _, p := range r {
			q := turn(p)
			turned[i] = append(turned[i], q)
			low, high = math.Min(low, q[1]), math.Max(high, q[1])
		}
	}
	var out [][2]orb.Point
	for y := math.Ceil(low/spacing) * spacing; y < high && len(out) < maxHatch; y += spacing {
		xs := crossings(turned, y)
		for i := 0; i+1 < len(xs); i += 2 {
			out = append(out, [2]orb.Point{back(orb.Point{xs[i], y}), back(orb.Point{xs[i+1], y})})
		}
	}
	return out
}

// crossings are where a level line meets the rings, in order.
func crossings(rings [][]orb.Point, y float64) []float64 {
	var xs []float64
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a[1] <= y) != (b[1] <= y) {
				xs = append(xs, a[0]+(y-a[1])/(b[1]-a[1])*(b[0]-a[0]))
			}
		}
	}
	slices.Sort(xs)
	return xs
}

// hatching draws a hatch, cut at the drawing's frame.
func (p *painter) hatching(rings [][]orb.Point, angle, spacing float64, s Style) {
	for _, l := range hatch(rings, angle, spacing) {
		p.line(areaLayer, l[:], s)
	}
}
