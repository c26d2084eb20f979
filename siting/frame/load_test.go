package frame_test

import (
	"math"
	"testing"

	"crossfall/siting/frame"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const half = 0.005 // half a percent, relative

func rad(degrees float64) float64 { return degrees * math.Pi / 180 }

func compost(t testing.TB) soil.Fill {
	f, ok := soil.FillNamed(soil.DefaultFill)
	require.True(t, ok)
	return f
}

// Rankine 1857: a smooth board and a level top give tan^2(45 - phi/2), and the
// passive coefficient is its inverse.
func TestActiveAgreesWithRankineOnTheLevel(t *testing.T) {
	for _, c := range []struct{ phi, want float64 }{{28, .3610}, {30, .3333}, {35, .2710}, {40, .2174}} {
		assert.InEpsilon(t, c.want, frame.Active(rad(c.phi), 0), half)
		rankine := math.Pow(math.Tan(rad(45-c.phi/2)), 2)
		assert.InDelta(t, rankine, frame.Active(rad(c.phi), 0), 1e-12)
		assert.InDelta(t, 1/rankine, frame.Passive(rad(c.phi), 0), 1e-12)
	}
}

// wedgeThrust is the horizontal push of the worst of many trial wedges of a
// fill of unit weight 1 and height 1, as Coulomb 1776 reasoned: the coefficient
// is twice that. Statics of each wedge, none of the closed form.
func wedgeThrust(phi, beta float64) float64 {
	worst := 0.0
	for a := phi + 1e-4; a < math.Pi/2; a += 1e-4 {
		if math.Tan(a) <= math.Tan(beta) {
			continue
		}
		foot := 1 / (math.Tan(a) - math.Tan(beta)) // plan length of the wedge
		worst = math.Max(worst, foot/2*math.Tan(a-phi))
	}
	return 2 * worst
}

// The closed form of Coulomb 1776 for a smooth upright board, worked by hand: cos^2 phi /
// (1 + sqrt(sin phi sin(phi - beta) / cos beta))^2, .27099 for 35 degrees and a level top;
// and the worst of trial wedges.
func TestActiveOnSlopesAgainstTrialWedges(t *testing.T) {
	for _, c := range []struct{ phi, rise, want float64 }{
		{35, 0, .27099}, {35, .10, .28626}, {35, .20, .30437}, {35, -.10, .25785}, {35, -.20, .24636},
		{35, .05, .2783}, {32, .10, .32583},
	} {
		got := frame.Active(rad(c.phi), c.rise)
		assert.InEpsilon(t, c.want, got, half)
		assert.InEpsilon(t, wedgeThrust(rad(c.phi), math.Atan(c.rise)), got, 1e-4)
	}
	assert.True(t, math.IsInf(frame.Active(rad(30), math.Tan(rad(30))+1e-6), 1), "a top steeper than it can stand")
}

// wedgeResistance is the least push that moves a wedge of ground up and out in
// front of a board, on ground falling away at beta; twice that is the coefficient.
func wedgeResistance(phi, beta float64) float64 {
	least := math.Inf(1)
	for a := -beta + 1e-4; a+phi < math.Pi/2; a += 1e-4 {
		foot := 1 / (math.Tan(a) + math.Tan(beta))
		least = math.Min(least, foot/2*math.Tan(a+phi))
	}
	return 2 * least
}

// The passive form of Coulomb 1776 on ground that falls away, worked by hand: cos^2 phi /
// (1 - sqrt(sin phi sin(phi - beta) / cos beta))^2, 3 for 30 degrees on the level; and the
// least of trial wedges.
func TestPassiveOnFallingGroundAgainstTrialWedges(t *testing.T) {
	falls := []float64{0, .05, .10, .15, .20, .25}
	for phi, want := range map[float64][]float64{
		30: {3.0000, 2.7510, 2.5217, 2.3098, 2.1130, 1.9292},
		28: {2.7698, 2.5479, 2.3418, 2.1496, 1.9693, 1.7991},
	} {
		for i, fall := range falls {
			got := frame.Passive(rad(phi), fall)
			assert.InEpsilon(t, want[i], got, half, "phi %v fall %v", phi, fall)
			assert.InEpsilon(t, wedgeResistance(rad(phi), math.Atan(fall)), got, 1e-4)
		}
	}
	assert.Zero(t, frame.Passive(rad(30), 0.6), "ground steeper than its friction")
}

// Worked by hand: drained, K gamma h^2 / 2 = .27099 x 6.0 x .15^2 / 2 = .01829 kN/m at a
// third of the height; all under water, K x .49 x .25^2 / 2 + 9.81 x .25^2 / 2 = .31155.
func TestEarthThrust(t *testing.T) {
	for _, c := range []struct {
		phi, rise, h, water, above, saturated float64
		force, arm                            float64
	}{
		{35, 0, .15, 0, 6.0, 10.3, .01829, .0500},
		{30, 0, .20, .10, 7.0, 10.5, .08520, .05159},
		{32, .10, .25, .25, 6.5, 10.3, .31155, .08333},
	} {
		k := frame.Active(rad(c.phi), c.rise)
		got := frame.EarthThrust(k, c.h, c.water, c.above, c.saturated)
		assert.InEpsilon(t, c.force, got.Force, half)
		assert.InEpsilon(t, c.arm, got.Arm, half)
		force, moment := pressureSum(k, c.h, c.water, c.above, c.saturated)
		assert.InEpsilon(t, force, got.Force, 1e-5)
		assert.InEpsilon(t, moment/force, got.Arm, 1e-5)
	}
	assert.Zero(t, frame.EarthThrust(.3, 0, 0, 6, 10).Force)
}

// pressureSum adds up the pressure in thin slices.
func pressureSum(k, h, water, above, saturated float64) (force, moment float64) {
	const n = 20000
	dz := h / n
	for i := range n {
		z := (float64(i) + .5) * dz // below the top
		under := math.Max(0, z-(h-water))
		p := k*(above*(z-under)+(saturated-soil.WaterWeight)*under) + soil.WaterWeight*under
		force += p * dz
		moment += p * dz * (h - z)
	}
	return force, moment
}

// Worked apart from this code with the coefficient of Coulomb 1776 at 35 degrees and the
// weights of screened compost: drained 6.0 kN/m3; winter 8.7, and 10.3 below half the
// height, where water stands; blocked 10.3 and water to the top. The second: .28626 x 6.0
// x .15^2 / 2 = .0193 kN/m.
func TestLoadCases(t *testing.T) {
	c := compost(t)
	slopes := []float64{.05, .10, .15, .20, .25}
	for _, row := range []struct {
		h    float64
		lc   frame.LoadCase
		want []float64
	}{
		{.15, frame.Drained(c), []float64{.0188, .0193, .0199, .0205, .0213}},
		{.15, frame.Winter(c), []float64{.0484, .0490, .0496, .0504, .0511}},
		{.15, frame.Blocked(c), []float64{.1119, .1119, .1120, .1120, .1121}},
		{.30, frame.Drained(c), []float64{.0751, .0773, .0796, .0822, .0850}},
		{.30, frame.Winter(c), []float64{.1936, .1960, .1986, .2014, .2045}},
		{.30, frame.Blocked(c), []float64{.4476, .4478, .4480, .4482, .4484}},
	} {
		for i, g := range slopes {
			assert.InDelta(t, row.want[i], row.lc.Thrust(row.h, g).Force, 6e-5, "%s %v %v", row.lc.Word, row.h, g)
		}
	}
}

// Half the weight of an 80 kg person on one knee, 0.4 kN. The greatest push
// over all weightless wedges that carry the load is that of the steepest one.
func TestKnee(t *testing.T) {
	for _, c := range []struct{ q, x, h, want float64 }{
		{.4, .05, .15, .2967}, {.4, .10, .15, .1560}, {.8, .15, .30, .4332},
	} {
		got := frame.Knee(c.q, c.x, c.h, rad(35))
		assert.InEpsilon(t, c.want, got, half)
		worst := 0.0
		for a := rad(35); a <= math.Atan2(c.h, c.x); a += 1e-5 {
			worst = math.Max(worst, c.q*math.Tan(a-rad(35)))
		}
		assert.InEpsilon(t, worst, got, 1e-3)
	}
	assert.InDelta(t, frame.Knee(.4, .05, .15, rad(35)), frame.Knee(.4, .01, .15, rad(35)), 1e-12)
	assert.Zero(t, frame.Knee(.4, .22, .15, rad(35)))
}
