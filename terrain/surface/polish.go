package surface

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Limits of the polishing of hyperparameters, defaults of ours.
const (
	polishSteps = 12
	// probeStep is the step in a logarithm by which the bend of the likelihood
	// is felt for, longestStep the most that one step moves a logarithm.
	probeStep   = 0.05
	longestStep = 1.5
)

// logs are ln Range, ln Variance and ln NoiseFactor.
type logs [3]float64

func logsOf(h Hyper) logs {
	return logs{math.Log(h.Range), math.Log(h.Variance), math.Log(h.NoiseFactor)}
}

func (x logs) hyper() Hyper {
	return Hyper{Range: math.Exp(x[0]), Variance: math.Exp(x[1]), NoiseFactor: math.Exp(x[2])}
}

// clamped brings x into the bounds.
func (b limits) clamped(x logs) logs {
	for i := range x {
		x[i] = math.Max(b.low[i], math.Min(b.high[i], x[i]))
	}
	return x
}

// bend is minus the second derivatives of a likelihood at x, by differences of
// its gradient.
func (of likelihood) bend(x logs, b limits) (m [3][3]float64, ok bool) {
	_, g, ok := of(x.hyper(), true)
	if !ok {
		return m, false
	}
	for i := range b.dims() {
		y, step := x, probeStep
		if y[i]+step > b.high[i] {
			step = -step
		}
		y[i] += step
		_, h, ok := of(y.hyper(), true)
		if !ok {
			return m, false
		}
		for j := range 3 {
			m[i][j] += (g[j] - h[j]) / (2 * step)
			m[j][i] += (g[j] - h[j]) / (2 * step)
		}
	}
	return m, true
}

// scaled is a bend for so many times the heights.
func scaled(m [3][3]float64, by float64) [3][3]float64 {
	for i := range m {
		for j := range m[i] {
			m[i][j] *= by
		}
	}
	return m
}

// polish goes up a likelihood from x by quasi-Newton steps (the update of
// Broyden, Fletcher, Goldfarb and Shanno; Nocedal and Wright 2006, Numerical
// Optimization, chapter 6, from memory) inside the bounds, starting with a bend
// known from fewer heights: that saves the costly steps by which a search feels
// for it. It ends when a step promises less than gain. ok is false where the
// bend is no hill's.
func (of likelihood) polish(b limits, x logs, m [3][3]float64, gain float64) (best logs, ok bool) {
	x = b.clamped(x)
	l, g, ok := of(x.hyper(), true)
	for range polishSteps {
		if !ok || math.IsNaN(l-l) {
			return x, false
		}
		p, ok := b.ascent(x, m, g)
		if !ok {
			return x, false
		}
		promise := 0.0
		for i := range p {
			promise += p[i] * g[i] / 2
		}
		if promise < gain {
			return x, true
		}
		y, ly, gy, ok := of.step(b, x, p, l)
		if !ok {
			return x, true // no higher to be found that way
		}
		m = updated(m, x, y, g, gy)
		x, l, g = y, ly, gy
	}
	return x, true
}

// ascent is the Newton step in the directions free to move.
func (b limits) ascent(x logs, m [3][3]float64, g [3]float64) (p logs, ok bool) {
	var free []int
	for i := range b.dims() {
		atLow, atHigh := x[i] <= b.low[i]+1e-9 && g[i] <= 0, x[i] >= b.high[i]-1e-9 && g[i] >= 0
		if !atLow && !atHigh {
			free = append(free, i)
		}
	}
	if len(free) == 0 {
		return p, true
	}
	a, r := mat.NewSymDense(len(free), nil), mat.NewVecDense(len(free), nil)
	for k, i := range free {
		r.SetVec(k, g[i])
		for l, j := range free {
			a.SetSym(k, l, m[i][j])
		}
	}
	var c mat.Cholesky
	var s mat.VecDense
	if !c.Factorize(a) || c.SolveVecTo(&s, r) != nil {
		return p, false
	}
	longest := 0.0
	for k, i := range free {
		p[i] = s.AtVec(k)
		longest = math.Max(longest, math.Abs(p[i]))
	}
	if longest > longestStep {
		for i := range p {
			p[i] *= longestStep / longest
		}
	}
	return p, true
}

// step goes along p, half as far each time, until the likelihood is higher.
func (of likelihood) step(b limits, x, p logs, l float64) (y logs, ly float64, gy [3]float64, ok bool) {
	for range 6 {
		y = b.clamped(logs{x[0] + p[0], x[1] + p[1], x[2] + p[2]})
		if ly, gy, ok = of(y.hyper(), true); ok && ly > l {
			return y, ly, gy, true
		}
		for i := range p {
			p[i] /= 2
		}
	}
	return x, l, gy, false
}

// updated is the bend learnt from one more step.
func updated(m [3][3]float64, x, y logs, gx, gy [3]float64) [3][3]float64 {
	var s, d, ms [3]float64 // step, fall of the gradient, bend times step
	sd, sms := 0.0, 0.0
	for i := range s {
		s[i], d[i] = y[i]-x[i], gx[i]-gy[i]
		sd += s[i] * d[i]
	}
	for i := range ms {
		for j := range s {
			ms[i] += m[i][j] * s[j]
		}
		sms += s[i] * ms[i]
	}
	if !(sd > 1e-9) || !(sms > 1e-12) {
		return m
	}
	for i := range m {
		for j := range m {
			m[i][j] += d[i]*d[j]/sd - ms[i]*ms[j]/sms
		}
	}
	return m
}
