package frame_test

import (
	"math"
	"testing"

	"crossfall/siting/frame"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A published worked sheet for a short free-headed pile in clay (Broms 1964, read in
// the sheet):
// 13.6 kN at 7.5 m above the ground on a pile 0.75 m wide in clay of 50 kPa
// needs 2.346 m, with a greatest moment of 117.57 kNm.
func TestClayPublishedPile(t *testing.T) {
	assert.InDelta(t, 2.346, frame.ClayDepth(13.6, 7.5, .75, 50), .0005)
	assert.InDelta(t, 117.57, frame.ClayMoment(13.6, 7.5, .75, 50), .01)
	assert.InEpsilon(t, 13.6, frame.ClayCapacity(2.346, 7.5, .75, 50), .001)
}

// Broms 1964 in closed form, worked by hand: E = e + 1.5 b, D = d - 1.5 b, f =
// sqrt((2E + D)^2 + D^2) - (2E + D), 9 cu b f. The first: E .125, D .225, f .05060,
// 9 x 10 x .05 x .05060 = .2277 kN; its moment H (e + 1.5 b + f/2) = .0342 kNm.
func TestClayCapacity(t *testing.T) {
	for _, c := range []struct{ d, b, e, cu, want float64 }{
		{.30, .05, .05, 10, .2277}, {.25, .05, .10, 20, .2556}, {.45, .075, .10, 15, .7225},
	} {
		got := frame.ClayCapacity(c.d, c.e, c.b, c.cu)
		assert.InEpsilon(t, c.want, got, half)
		assert.InEpsilon(t, balancedClay(c.d, c.e, c.b, c.cu), got, 1e-6)
	}
	assert.InEpsilon(t, .0342, frame.ClayMoment(.2277, .05, .05, 10), half)
	assert.InEpsilon(t, .2812, frame.ClayDepth(.20, .05, .05, 10), half)
	assert.Zero(t, frame.ClayCapacity(.075, .05, .05, 10), "no hold in the top one and a half widths")
	assert.InDelta(t, .075, frame.Neglected(.05), 1e-12)
	assert.InDelta(t, .05, frame.Neglected(.02), 1e-12)
}

// balancedClay finds the load by force and moment balance alone: uniform
// pressure 9 cu b below z that turns about at depth x below z, load outwards.
func balancedClay(d, e, b, cu float64) float64 {
	z := frame.Neglected(b)
	p, depth := 9*cu*b, d-z
	lo, hi := depth/2, depth // where the pressure changes side
	for range 200 {
		x := (lo + hi) / 2
		// Moments about the load: front pressure against back pressure.
		front := p * x * (e + z + x/2)
		back := p * (depth - x) * (e + z + (x+depth)/2)
		if front > back {
			hi = x
		} else {
			lo = x
		}
	}
	return p * (2*lo - depth)
}

// Sand by Broms 1964, from memory: .5 gamma b d^3 Kp / (e + d), with the moment H (e +
// 2f/3) where f = sqrt(2H / (3 gamma b Kp)). Worked by hand, the first: .5 x 16 x .05 x
// .027 x 3 / .35 = .09257 kN, f .1604, moment .01452 kNm.
func TestSandCapacity(t *testing.T) {
	assert.InEpsilon(t, .09257, frame.SandCapacity(.30, .05, .05, 16, 3), half)
	assert.InEpsilon(t, .01452, frame.SandMoment(.09257, .05, .05, 16, 3), half)
	kp := frame.Passive(rad(30), .15)
	assert.InEpsilon(t, .07983, frame.SandCapacity(.40, .10, .06, 9, kp), half)
	assert.InEpsilon(t, .01898, frame.SandMoment(.07983, .10, .06, 9, kp), half)
	assert.InEpsilon(t, .2256, frame.SandDepth(.05, .05, .05, 16, 3), half)
	assert.Zero(t, frame.SandCapacity(0, .05, .05, 16, 3))
	assert.Zero(t, frame.SandDepth(0, .05, .05, 16, 3))
}

// What a peg holds that only turns, by the pressures of Broms 1964 on both its faces,
// worked by hand: 2.25 cu b (d - 1.5 b)^2 = 2.25 x 10 x .05 x .105^2 = .01240 kNm in
// clay, (1 - 1/sqrt 2) Kp gamma b d^3 = .29289 x 3 x 16 x .05 x .18^3 = .004100 in sand.
func TestCouples(t *testing.T) {
	assert.InEpsilon(t, .01240, frame.ClayCouple(.18, .05, 10), half)
	assert.InEpsilon(t, .04134, frame.ClayCouple(.25, .05, 12), half)
	assert.InEpsilon(t, .004100, frame.SandCouple(.18, .05, 16, 3), half)
	assert.InEpsilon(t, .015816, frame.SandCouple(.30, .05, 16, 2.5), half)
	assert.Zero(t, frame.ClayCouple(.07, .05, 10))
}

// Every depth gives back its load, and no depth is less for a greater load,
// higher up, in weaker or steeper ground.
func TestDepthInvertsCapacityAndOnlyGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := rapid.Float64Range(.001, 5).Draw(t, "load")
		e := rapid.Float64Range(0, 1).Draw(t, "arm")
		slope := rapid.Float64Range(0, .33).Draw(t, "slope")
		word := rapid.SampledFrom(soil.Words()).Draw(t, "ground")
		size := rapid.Float64Range(.02, .15).Draw(t, "size")
		more := rapid.Float64Range(1, 1.5).Draw(t, "more")
		g, _ := soil.Named(word)
		p := frame.Peg{Size: size, Ground: g, Slope: slope}
		d, c := p.Depth(load, e), p.CoupleDepth(load*e)
		assert.InEpsilon(t, load, p.Capacity(d, e), 1e-6)
		assert.InDelta(t, load*e, p.Couple(c), 1e-6*math.Max(load*e, 1e-6))
		assert.GreaterOrEqual(t, p.Depth(load*more, e), d)
		assert.GreaterOrEqual(t, p.Depth(load, e*more), d*(1-1e-12))
		steep, weak := p, p
		steep.Slope = math.Min(.4, slope*more)
		weak.Ground = g.Weak()
		assert.GreaterOrEqual(t, steep.Depth(load, e), d*(1-1e-12))
		assert.GreaterOrEqual(t, steep.CoupleDepth(load*e), c*(1-1e-12))
		assert.Greater(t, weak.Depth(load, e), d)
	})
}

// Two published worked sheets of Equation 18-1 of the International Building Code (read
// in the sheets) give its A: 30 000 lbf 3 ft up
// on a post 4.5 ft wide with 55.32 kPa of bearing, 13.50 ft; 3000 lbf on a post
// 1 ft wide with 150 psf a foot at a third of 6 ft and 1.33 times, 17.6 ft. The
// depth that follows from A must come out where the bearing at a third of it is
// that of the sheet.
func TestPoleDepthPublishedSheets(t *testing.T) {
	const foot, pound = .3048, .0044482216 // m, kN
	for _, c := range []struct{ load, h, b, s1, a, tolerance float64 }{
		{30000 * pound, 3 * foot, 4.5 * foot, 55.32, 13.50 * foot, .001},
		{3000 * pound, 3 * foot, foot, 150 * 6 / 3 * 1.33 * pound / (foot * foot), 17.6 * foot, .003},
	} {
		a := 2.34 * c.load / (c.s1 * c.b)
		assert.InEpsilon(t, c.a, a, c.tolerance)
		d := a / 2 * (1 + math.Sqrt(1+4.36*c.h/a))
		assert.InEpsilon(t, d, frame.PoleDepth(c.load, c.h, c.b, 3*c.s1/d), .001)
	}
}

// Equation 18-1 of the International Building Code with its S1 put in is d^3 = k (d +
// 1.09 h), k = 7.02 P / (s b): the depths are its root by hand. The first: k .2675 and
// .5426^3 = .2675 (.5426 + .0545).
func TestPoleDepthSatisfiesTheCodeEquation(t *testing.T) {
	for _, c := range []struct{ load, h, b, bearing, want float64 }{
		{.0423, .05, .0707, 15.7, .5426}, {.11, .039, .0707, 31.4, .6100},
		{.30, .15, .0707, 23.6, 1.1977}, {1.0, .6, .10, 15.7, 2.3867},
	} {
		d := frame.PoleDepth(c.load, c.h, c.b, c.bearing)
		assert.InEpsilon(t, c.want, d, half)
		// Equation 18-1 as the code prints it.
		a := 2.34 * c.load / (c.bearing * d / 3 * c.b)
		assert.InEpsilon(t, a/2*(1+math.Sqrt(1+4.36*c.h/a)), d, 1e-4)
	}
}

// International Building Code 2012, table 1806.2, in pounds per square foot a foot:
// 1200, 400, 200, 150, 100.
func TestCodeBearings(t *testing.T) {
	psf := []float64{1200, 400, 200, 150, 100}
	for i, b := range frame.CodeBearings() {
		assert.InEpsilon(t, psf[i]*0.04788/.3048, b.Lateral, half, b.Ground)
	}
}

// The formula of the International Building Code is an upper bound for a garden peg
// in clay.
func TestPoleDepthIsAnUpperBound(t *testing.T) {
	g, _ := soil.Named(soil.DefaultWord)
	p := frame.Peg{Size: .05, Ground: g, Slope: .10}
	for _, load := range []float64{.04, .11, .25} {
		assert.Greater(t, frame.PoleDepth(load, .05, .0707, 15.7), p.Depth(2*load, .05))
	}
}
