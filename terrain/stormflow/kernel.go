package stormflow

import "math"

// dry is the depth under which nothing moves, m.
const dry = 1e-7

// pushed and resisted work open ground: the new discharge of a row of n faces between cells 1 and 2.
//
// With the bed slope in the water levels w, and the depth over the higher ground
// of the two (the sill), q is pushed by gravity over the step and then slowed by
// friction taken at its end:
//
//	x (1 + a sqrt(x² + t²)) = |q0 - g h dt dw/dx|,  a = g n² dt / h^(7/3),
//
// t being the mean of the four nearest discharges across (t1 to t4), and n the
// roughness of the cell with the higher water: a mean of both would spoil steps
// from a plane into a channel. The square root is replaced by its tangent at the
// discharge before, which leaves a quadratic and no error where flow is steady
// or has no part across; where the discharge changes by over a tenth of the
// whole in one step, the equation itself is solved.
//
// It is done in two loops, which a processor overlaps better than one: pushed
// finds the right side as force, a as friction, and 1/h, of each face.
func pushed(force, friction, perDepth, q0, w1, w2, sill, r1, r2 []float64, push, dt float64) {
	n := len(force)
	friction, perDepth, q0 = friction[:n], perDepth[:n], q0[:n]
	w1, w2, sill, r1, r2 = w1[:n], w2[:n], sill[:n], r1[:n], r2[:n]
	for i := range n {
		// which is higher cannot be foretold along a contour, so no branch on it
		// but where roughness changes
		h, r := max(w1[i], w2[i])-sill[i], r1[i]
		if r != r2[i] && w2[i] > w1[i] {
			r = r2[i]
		}
		if h <= dry {
			force[i] = 0
			continue
		}
		// y = h^(-1/3): a guess within 4 % by a shift of the exponent, times the
		// series of (1-e)^(-1/3): to 2e-8
		y := math.Float64frombits(0x553ef0ff289dd796 - math.Float64bits(h)/3)
		e := 1 - (h*y)*(y*y)
		ee := e * e
		y += (y * e) * ((1.0/3 + e*(2.0/9)) + ee*((14.0/81+e*(35.0/243))+ee*(91.0/729+e*(728.0/6561))))
		y3 := y * y * y
		perDepth[i] = y3
		friction[i] = r * dt * y3 * y3 * y
		force[i] = q0[i] - push*h*(w2[i]-w1[i])
	}
}

// resisted works the discharges of the same faces, and gives their greatest
// speed.
func resisted(qNew, q0, force, friction, perDepth, t1, t2, t3, t4 []float64) float64 {
	n := len(qNew)
	q0, force, friction, perDepth = q0[:n], force[:n], friction[:n], perDepth[:n]
	t1, t2, t3, t4 = t1[:n], t2[:n], t3[:n], t4[:n]
	fastest := 0.0
	for i := range n {
		f, a := math.Abs(force[i]), friction[i]
		if f == 0 {
			qNew[i] = 0
			continue
		}
		t := 0.25 * (t1[i] + t2[i] + t3[i] + t4[i])
		tt, x0 := t*t, math.Abs(q0[i])
		s := x0*x0 + tt
		x := 0.0
		if tt <= 1e-12*s {
			x = 2 * f / (1 + math.Sqrt(1+4*a*f))
		} else {
			u := 1 / math.Sqrt(s)
			b := 1 + a*tt*u
			x = 2 * f / (b + math.Sqrt(b*b+4*a*x0*u*f))
			if d := x - x0; d*d > 0.01*s {
				x = slowed(f, a, tt)
			}
		}
		if u := x * perDepth[i]; u > fastest {
			fastest = u
		}
		qNew[i] = math.Copysign(x, force[i])
	}
	return fastest
}

// slowed is the root x of x (1 + a sqrt(x² + tt)) = force: two steps of Newton's
// method from the root for tt = 0, which lies above it.
func slowed(force, a, tt float64) float64 {
	x := 2 * force / (1 + math.Sqrt(1+4*a*force))
	for range 2 {
		s := x*x + tt
		m := math.Sqrt(s)
		x -= (x*(m+a*s) - force*m) / (m + a*(s+x*x))
	}
	return x
}

// openFace is the same for one face of depth h with the water falling by drop
// over a cell, without flow across.
func openFace(q0, h, drop, roughness, push, dt float64) float64 {
	if h <= dry {
		return 0
	}
	q := q0 + push*h*drop
	a := roughness * dt / (h * h * math.Cbrt(h))
	return math.Copysign(2*math.Abs(q)/(1+math.Sqrt(1+4*a*math.Abs(q))), q)
}

// overBoard is the discharge over a board's crest between two water levels: a
// weir, drowned by the level below it (Villemonte 1947, Engineering News-Record
// 139, from memory), but never more than the same water would run over open
// ground at the crest: the law of a drowned weir has an endless slope at equal
// levels, and would drive flow in a lake at rest.
func overBoard(w1, w2, crest, weir, r1, r2, q0, push, dt float64) float64 {
	up, down, rough, way := w1, w2, r1, 1.0
	if w2 > w1 {
		up, down, rough, way = w2, w1, r2, -1
	}
	head := up - crest
	if head <= dry || up-down < 1e-12 {
		return 0
	}
	q := weir * head * math.Sqrt(head)
	if under := down - crest; under > 0 {
		s := under / head
		q *= math.Pow(1-s*math.Sqrt(s), 0.385)
	}
	return way * math.Min(q, math.Max(0, openFace(way*q0, head, up-down, rough, push, dt)))
}
