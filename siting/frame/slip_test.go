package frame_test

import (
	"math"
	"testing"

	"crossfall/siting/frame"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
)

// Plane sliding on cardboard over turf: friction 20 degrees, pore pressure 0.4,
// fill of 0.15 m and 8.7 kN/m3, all worked by hand.
func TestSlip(t *testing.T) {
	winter, drained, blocked := frame.Winter(compost(t)), frame.Drained(compost(t)), frame.Blocked(compost(t))
	for _, c := range []struct{ slope, factor, onBed, onLong float64 }{
		{.10, 2.184, 0, 0}, {.15, 1.456, 0, 0}, {.20, 1.092, .0388, .1165}, {.25, .874, .1144, .3432},
	} {
		assert.InEpsilon(t, c.factor, frame.SlipFactor(winter, c.slope), half)
		shear := frame.SlipShear(winter, .15, c.slope)
		assert.InDelta(t, c.onBed, 1.2*shear, 1e-4, "a bed 1.2 m down the slope")
		assert.InDelta(t, c.onLong, 3.6*shear, 2e-4, "a bed 3.6 m down the slope")
	}
	assert.InEpsilon(t, 1.456, frame.SlipFactor(drained, .25), half)
	assert.InEpsilon(t, .893, frame.SlipFactor(blocked, .15), half)
	assert.InEpsilon(t, .0663, 1.2*frame.SlipShear(blocked, .15, .15), half)
	assert.True(t, math.IsInf(frame.SlipFactor(winter, 0), 1))
}

// Worked by hand, (1 - r) tan delta / factor: drained tan 20 / 1.5 = .243, winter .6 tan
// 20 / 1.5 = .146, blocked half of tan 15 / 1.5 = .089. Frictions and pore pressures are
// defaults of ours.
func TestSlipSlopesThatReachAFactor(t *testing.T) {
	winter, drained, blocked := frame.Winter(compost(t)), frame.Drained(compost(t)), frame.Blocked(compost(t))
	for _, c := range []struct {
		lc               frame.LoadCase
		oneAndHalf, once float64
	}{{drained, .243, .364}, {winter, .146, .218}, {blocked, .089, .134}} {
		assert.InDelta(t, 1.5, frame.SlipFactor(c.lc, c.oneAndHalf), .01)
		assert.InDelta(t, 1.0, frame.SlipFactor(c.lc, c.once), .01)
	}
}

// The infinite slope (any text on the stability of slopes, from memory), worked by hand:
// (c + (gamma z + q - 9.81 m z) cos^2 a tan phi) / ((gamma z + q) sin a cos a). With no
// cohesion and water at the surface it fails at (gamma - 9.81)/gamma tan phi.
func TestWetSlope(t *testing.T) {
	for _, c := range []struct{ cohesion, phi, gamma, z, m, slope, q, want float64 }{
		{0, 28, 18, .3, 1, .25, 0, .968},
		{2, 28, 18, .3, 1, .25, 0, 2.542},
		{0, 28, 18, .3, 0, .25, 0, 2.127},
		{2, 25, 17, .25, 1, .33, 0, 2.179},
		{1, 25, 17, .3, 1, .15, 1.3, 2.744},
		{0, 28, 18, .3, 1, .20, 0, 1.210},
	} {
		w := frame.WetSlope{Cohesion: c.cohesion, Friction: rad(c.phi), UnitWeight: c.gamma,
			Thickness: c.z, Water: c.m, Slope: c.slope, Load: c.q}
		assert.InEpsilon(t, c.want, w.Factor(), half)
	}
	limit := (18 - soil.WaterWeight) / 18 * math.Tan(rad(28))
	w := frame.WetSlope{Friction: rad(28), UnitWeight: 18, Thickness: .3, Water: 1, Slope: limit}
	assert.InDelta(t, 1, w.Factor(), 1e-9)
	assert.InDelta(t, .242, limit, .0005)
	w.Slope = 0
	assert.True(t, math.IsInf(w.Factor(), 1))
}

// Worked by hand: a slot trodden firm again holds half (a default) of 2 cu c / (1 + g) =
// .5 x 2 x 10 x .04 / 1.1 = .3636 kN/m in clay, gamma Kp c^2 / 2 = 16 x 2.5217 x .04^2 / 2 =
// .03228 in sand.
func TestKeys(t *testing.T) {
	assert.InEpsilon(t, .3636, frame.ClayKey(.04, 10, .10, .5), half)
	assert.InEpsilon(t, .03228, frame.SandKey(.04, 16, frame.Passive(rad(30), .10)), half)
	loose, _ := soil.Named("loose sandy soil")
	assert.InEpsilon(t, .03228, frame.Key(loose, .04, .10), half)
	turf, _ := soil.Named(soil.DefaultWord) // 15 kPa: half as much again as 10
	assert.InEpsilon(t, 1.5*.3636, frame.Key(turf, .04, .10), half)
}

// Sunken depth, mm, at which the key takes one and a half times the thrust on a
// 10 % slope, worked apart from this code: 38 and 60 mm in dry loose sand for 150 mm of compost drained and in
// winter, 76 and 121 mm for 300 mm; 3, 8, 13 and 32 mm in clay of 10 kPa.
func TestKeyDepths(t *testing.T) {
	loose, _ := soil.Named("loose sandy soil")
	weak, _ := soil.Named(soil.DefaultWord)
	weak.Undrained = 10
	c := compost(t)
	for _, r := range []struct {
		h          float64
		lc         frame.LoadCase
		sand, clay float64
	}{
		{.15, frame.Drained(c), 38, 3}, {.15, frame.Winter(c), 60, 8},
		{.30, frame.Drained(c), 76, 13}, {.30, frame.Winter(c), 121, 32},
	} {
		want := 1.5 * r.lc.Thrust(r.h, .10).Force
		assert.InDelta(t, want, frame.Key(loose, r.sand/1000, .10), .02*want)
		assert.InDelta(t, want, frame.Key(weak, r.clay/1000, .10), .11*want, "whole millimetres of so little are coarse")
	}
}

// Two and a half times the roughness, 10 mm for scour up to 5 % and 10 more each 5 %, and
// the rest of a level board's fall, between 30 and 100 mm: defaults of ours, by hand.
func TestSunkenDepth(t *testing.T) {
	for _, c := range []struct {
		name                       string
		residual, roughness, slope float64
		want                       float64
		over                       bool
	}{
		{"lawn, edge follows the ground", 0, .006, .10, .035, false},
		{"rougher and steeper", 0, .008, .20, .060, false},
		{"never under 30 mm", 0, .005, .04, .030, false},
		{"level board on falling ground", .054, .010, .12, .100, true},
		{"over 20 %", 0, .006, .24, .065, false},
	} {
		got, over := frame.SunkenDepth(c.residual, c.roughness, c.slope)
		assert.InDelta(t, c.want, got, 1e-9, c.name)
		assert.Equal(t, c.over, over, c.name)
	}
	for slope, scour := range map[float64]float64{
		.01: .01, .05: .01, .051: .02, .10: .02, .101: .03, .15: .03, .151: .04, .20: .04, .201: .05, .33: .05,
	} {
		got, _ := frame.SunkenDepth(0, .010, slope)
		assert.InDelta(t, .025+scour, got, 1e-9, "%g", slope)
	}
}

// Lane 1935: weighted creep length, the depth twice and a third of the thickness, not
// under ratio times head; worked by hand.
func TestCreepDepth(t *testing.T) {
	for _, c := range []struct{ ratio, head, thickness, want float64 }{
		{3, .05, .025, .0708}, {8.5, .05, .025, .2083}, {1.8, .075, .038, .0612}, {5, .075, .025, .1833},
	} {
		got := frame.CreepDepth(c.ratio, c.head, c.thickness)
		assert.InEpsilon(t, c.want, got, half)
		assert.InDelta(t, c.ratio*c.head, 2*got+c.thickness/3, 1e-12)
	}
	assert.Zero(t, frame.CreepDepth(3, 0, .025))
}
