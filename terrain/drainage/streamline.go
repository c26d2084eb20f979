package drainage

import (
	"math"

	"github.com/paulmach/orb"
)

// Downhill follows the steepest descent from a point: the way water takes on a
// smooth surface. The path is integrated with the fourth-order Runge-Kutta
// rule in steps of equal length; a step that would turn by more than 60
// degrees is halved. It ends at the edge of the plot exactly, and at other
// ends to within a step.
func Downhill(f Field, from orb.Point, opt Options) Path { return follow(f, from, opt, -1) }

// Uphill follows the steepest ascent from a point: where the water that passes
// there came from. It is followed and ends as Downhill is.
func Uphill(f Field, from orb.Point, opt Options) Path { return follow(f, from, opt, +1) }

const (
	// mostTurn is the cosine of the largest turn in one step, 60 degrees.
	mostTurn = .5
	// finest is the smallest part of a step that halving goes down to.
	finest = 1. / 1024
)

// tracer follows one path.
type tracer struct {
	field Field
	opt   Options
	sense float64 // -1 down, +1 up
	plot  area
	path  Path
	step  float64 // metres, shortened in bends
}

func follow(f Field, from orb.Point, opt Options, sense float64) Path {
	opt = opt.resolved()
	t := &tracer{field: f, opt: opt, sense: sense, plot: area{opt.Plot}, step: opt.Step}
	t.path.Points = append(t.path.Points, from)
	if !t.plot.unbounded() && !t.plot.contains(from) {
		t.path.End = StartsOutside
		return t.path
	}
	for range opt.MaxSteps {
		if t.advance() {
			return t.path
		}
	}
	t.path.End = TooLong
	return t.path
}

// advance takes one step and reports whether the path ended.
func (t *tracer) advance() (ended bool) {
	p := t.here()
	g, ok := t.field.GradientAt(p)
	if !ok {
		return t.end(GroundUnknown)
	}
	v, fall, ok := along(g, t.sense)
	if !ok || !(fall >= t.opt.least(p)) {
		return t.end(t.stillness(p))
	}
	for step := t.step; step >= t.opt.Step*finest; step /= 2 {
		q, turn, ok := t.rungeKutta(p, v, step)
		if ok && turn >= mostTurn {
			t.step = min(2*step, t.opt.Step)
			return t.reach(q, step)
		}
	}
	return t.stuck(p, v)
}

// stuck decides at a point from which no step could be made. Where the ground
// ahead is unknown it may only be that the plot ends there: a straight step
// shows. Where it is known, the path turns however short the step, as it does
// at the bottom of a hollow.
func (t *tracer) stuck(p orb.Point, v vector) (ended bool) {
	short := 2 * t.opt.Step * finest
	ahead := v.from(p, short)
	if edge, part, leaves := t.plot.exit(p, ahead); leaves {
		return t.leave(edge, part*short)
	}
	if _, ok := t.field.GradientAt(ahead); !ok {
		return t.end(GroundUnknown)
	}
	return t.end(t.stillness(p))
}

// rungeKutta is the place a step away from p, where the direction is v, and
// the cosine of the turn on the way. ok is false where the ground is unknown.
func (t *tracer) rungeKutta(p orb.Point, v vector, step float64) (q orb.Point, turn float64, ok bool) {
	v2, _, ok2 := steepest(t.field, v.from(p, step/2), t.sense)
	if !ok2 {
		return q, 0, false
	}
	v3, _, ok3 := steepest(t.field, v2.from(p, step/2), t.sense)
	if !ok3 {
		return q, 0, false
	}
	v4, _, ok4 := steepest(t.field, v3.from(p, step), t.sense)
	if !ok4 {
		return q, 0, false
	}
	mean := vector{
		(v.east + 2*v2.east + 2*v3.east + v4.east) / 6,
		(v.north + 2*v2.north + 2*v3.north + v4.north) / 6,
	}
	return mean.from(p, step), min(v.dot(v2), v.dot(v3), v.dot(v4)), true
}

// reach walks to q, step metres along the path, unless something on the way
// ends it.
func (t *tracer) reach(q orb.Point, step float64) (ended bool) {
	p := t.here()
	edge, part, leaves := t.plot.exit(p, q)
	if leaves {
		q, step = edge, part*step
	}
	if t.opt.Enters != nil && t.opt.Enters(q) && !t.opt.Enters(p) {
		part := entry(t.opt.Enters, p, q)
		t.add(between(p, q, part), part*step)
		return t.end(EntersRegion)
	}
	if leaves {
		return t.leave(q, step)
	}
	t.add(q, step)
	return false
}

// leave ends the path at the edge of the plot, length metres on.
func (t *tracer) leave(edge orb.Point, length float64) bool {
	if length > 0 {
		t.add(edge, length)
	}
	return t.end(LeavesPlot)
}

func (t *tracer) here() orb.Point { return t.path.Points[len(t.path.Points)-1] }

func (t *tracer) add(q orb.Point, length float64) {
	t.path.Points = append(t.path.Points, q)
	t.path.Length += length
}

func (t *tracer) end(why EndReason) bool {
	t.path.End = why
	return true
}

// stillness tells a hollow or a top, round which the ground rises or falls on
// all sides a step away, from ground without a clear direction.
func (t *tracer) stillness(p orb.Point) EndReason {
	const around = 16
	for k := range around {
		angle := 2 * math.Pi * float64(k) / around
		out := vector{math.Sin(angle), math.Cos(angle)}
		v, fall, ok := steepest(t.field, out.from(p, t.opt.Step), t.sense)
		if !ok || fall < t.opt.least(p) || v.dot(out) >= 0 {
			return DirectionUnclear
		}
	}
	if t.sense < 0 {
		return ReachesHollow
	}
	return ReachesTop
}

// entry is the part of the way from p to q at which a region is entered, found
// by halving to a millionth of the way.
func entry(inside func(orb.Point) bool, p, q orb.Point) float64 {
	out, in := 0., 1.
	for range 20 {
		if middle := (out + in) / 2; inside(between(p, q, middle)) {
			in = middle
		} else {
			out = middle
		}
	}
	return in
}

// between is the point a part, 0 to 1, of the way from p to q.
func between(p, q orb.Point, part float64) orb.Point {
	return orb.Point{p[0] + part*(q[0]-p[0]), p[1] + part*(q[1]-p[1])}
}
