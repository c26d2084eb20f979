package soil_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	topsoil, _ = soil.Named(soil.DefaultWord)
	sandy, _   = soil.Named("loose sandy soil")
)

// The arithmetic of q = C i L / 3.6e6 and the sheet depth of the formula of Manning
// 1891, worked by hand for three slopes. The coefficient is the table's; the rain is
// scaled so that C i is that of the hand calculation.
func TestRunOnToByHand(t *testing.T) {
	cases := []struct {
		name                         string
		rate, coefficient            float64 // of the hand calculation
		length, slope, edge          float64
		cover                        string
		perMetre, depth, speed, flow float64
	}{
		// y = (6.667e-5 x 0.24 / sqrt 0.10)^0.6 = 2.65 mm; over 3.6 m of board 0.240 L/s
		{"dense grass", 30, 0.40, 20, 0.10, 3.6, "rough grass", 6.667e-5, 0.00265, 0.025, 0.240},
		// y = (2.083e-4 x 0.24 / sqrt 0.15)^0.6 = 4.64 mm
		{"dense grass, steep", 50, 0.50, 30, 0.15, 3.6, "rough grass", 2.083e-4, 0.00464, 0.0449, 0.750},
		// y = (2.083e-4 x 0.15 / sqrt 0.15)^0.6 = 3.50 mm
		{"short grass", 50, 0.50, 30, 0.15, 3.6, "turf", 2.083e-4, 0.00350, 0.0595, 0.750},
		// y = (1.667e-5 x 0.15 / sqrt 0.05)^0.6 = 1.07 mm
		{"a short gentle slope", 20, 0.30, 10, 0.05, 3.6, "turf", 1.667e-5, 0.00107, 0.0156, 0.060},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			in := soil.RunOnInput{
				Rate: geodata.Exactly(1), Ground: topsoil, Cover: c.cover, Length: geodata.Exactly(c.length),
				Slope: geodata.Exactly(c.slope), EdgeLength: c.edge,
			}
			in.Rate = geodata.Exactly(c.rate * c.coefficient / soil.RunOnTo(in).Coefficient.Value)
			r := soil.RunOnTo(in)
			assert.InEpsilon(t, c.perMetre, r.PerMetre.Value, 0.005)
			assert.InEpsilon(t, c.depth, r.Depth.Value, 0.005)
			assert.InEpsilon(t, c.speed, r.Speed.Value, 0.01)
			assert.InEpsilon(t, c.flow, r.Flow.Value, 0.005)
			assert.InEpsilon(t, r.PerMetre.Value, r.Depth.Value*r.Speed.Value, 1e-9, "flow is depth times speed")
			assert.InEpsilon(t, 9810*r.Depth.Value*math.Sin(math.Atan(c.slope)), r.Shear.Value, 1e-9)
		})
	}
}

// Kinematic plane flow (Woolhiser & Liggett 1967) by the formula of Manning 1891
// for a wide sheet, worked by hand: q, n and S to depth, speed and shear.
func TestRunOnToShear(t *testing.T) {
	cases := []struct {
		q, slope            float64
		cover               string
		depth, speed, shear float64
	}{
		{1e-4, 0.10, "bare", 0.001316, 0.0760, 1.285},        // n 0.05
		{5e-5, 0.08, "rough grass", 0.002380, 0.0210, 1.862}, // n 0.24
		{3e-4, 0.15, "turf", 0.004356, 0.0689, 6.339},        // n 0.15
	}
	for _, c := range cases {
		in := soil.RunOnInput{Rate: geodata.Exactly(1), Cover: c.cover, Length: geodata.Exactly(10), Slope: geodata.Exactly(c.slope)}
		in.Rate = geodata.Exactly(c.q / soil.RunOnTo(in).PerMetre.Value)
		r := soil.RunOnTo(in)
		assert.InEpsilon(t, c.depth, r.Depth.Value, 5e-4, c.cover)
		assert.InEpsilon(t, c.speed, r.Speed.Value, 2e-3, c.cover)
		assert.InEpsilon(t, c.shear, r.Shear.Value, 5e-4, c.cover)
	}
}

// Rational method coefficients for farmland in the United States Natural Resources
// Conservation Service's training module 206D: pasture and cultivated, sandy loam, clay
// and silt loam and tight clay, under 5 %, to 10 % and to 30 %. The high end of the
// wettest soil is a quarter more, 1 at most (from memory).
func TestRunOnToCoefficient(t *testing.T) {
	cases := []struct {
		cover            string
		ground           soil.Ground
		slope            float64
		low, value, high float64
	}{
		{"turf", topsoil, 0.049, .30, .40, .50},
		{"turf", topsoil, 0.05, .36, .55, .6875},
		{"turf", topsoil, 0.10, .36, .55, .6875},
		{"turf", topsoil, 0.101, .42, .60, .75},
		{"turf", topsoil, 0.30, .42, .60, .75},
		{"turf", topsoil, 0.301, .42, .60, .9375},
		{"turf", sandy, 0.04, .05, .10, .30},
		{"turf", sandy, 0.08, .10, .16, .36},
		{"rough grass", sandy, 0.20, .15, .22, .42},
		{"", soil.Ground{}, 0.04, .10, .40, .50},
		{"", soil.Ground{}, 0.20, .22, .60, .75},
		{"bare", sandy, 0.04, .10, .30, .50},
		{"bare", sandy, 0.08, .16, .40, .60},
		{"bare", sandy, 0.20, .22, .52, .72},
		{"dug", topsoil, 0.04, .50, .60, .75},
		{"dug", topsoil, 0.08, .60, .70, .875},
		{"dug", topsoil, 0.20, .72, .82, 1},
	}
	for _, c := range cases {
		r := soil.RunOnTo(soil.RunOnInput{Cover: c.cover, Ground: c.ground, Slope: geodata.Exactly(c.slope),
			Rate: geodata.Exactly(60), Length: geodata.Exactly(10)})
		assert.InDelta(t, c.low, r.Coefficient.Low, 1e-9, "%v", c)
		assert.InDelta(t, c.value, r.Coefficient.Value, 1e-9, "%v", c)
		assert.InDelta(t, c.high, r.Coefficient.High, 1e-9, "%v", c)
	}
}

// The roughness of a sheet of water over ground: TR-55 (1986), table 3-1. A cover that
// it lacks counts as turf.
func TestRoughnessOfCovers(t *testing.T) {
	for cover, n := range map[string]geodata.Estimate{
		"turf": {Value: .15, Low: .13, High: .24}, "": {Value: .15, Low: .13, High: .24}, "gravel": {Value: .15, Low: .13, High: .24},
		"rough grass": {Value: .24, Low: .15, High: .41}, "bare": {Value: .05, Low: .011, High: .06}, "dug": {Value: .06, Low: .05, High: .17},
	} {
		r := soil.RunOnTo(soil.RunOnInput{Cover: cover, Rate: geodata.Exactly(60), Length: geodata.Exactly(10), Slope: geodata.Exactly(.1)})
		assert.Equal(t, n, r.Roughness, cover)
	}
}

// The upper limit of the depth by the formula of Manning 1891, worked by hand from the
// flow: half as much again for a sheet of under 2 mm, sqrt(2 / 3) of that at 3 mm and
// nothing more from 4.5 mm on (defaults of ours); over 50 mm, .004524 m2/s on 1 % of
// turf, it is a channel. Nearly level ground may be as flat as 1 in 2000.
func TestRangeOfASheet(t *testing.T) {
	in := soil.RunOnInput{Cover: "turf", Ground: topsoil, Length: geodata.Exactly(10), Slope: geodata.Exactly(.01)}
	carrying := func(q float64) soil.RunOn {
		in.Rate = geodata.Exactly(1)
		in.Rate = geodata.Exactly(q / soil.RunOnTo(in).PerMetre.Value)
		return soil.RunOnTo(in)
	}
	flow := func(depth float64) float64 { return math.Pow(depth, 5./3) * math.Sqrt(in.Slope.Value) / .15 }
	for depth, wider := range map[float64]float64{.0015: 1.5, .002: 1.5, .003: 1.5 * math.Sqrt(2./3), .0045: 1, .01: 1} {
		r := carrying(flow(depth))
		assert.InDelta(t, depth, r.Depth.Value, 1e-9)
		assert.InEpsilon(t, wider*math.Pow(r.PerMetre.High*.24/.1, .6), r.Depth.High, 1e-9, "%g m", depth)
	}
	assert.False(t, carrying(.00451).Channel)
	assert.True(t, carrying(.00453).Channel)
	in.Slope = geodata.Exactly(0)
	level := carrying(1e-3)
	assert.InEpsilon(t, math.Pow(level.PerMetre.High*.24/math.Sqrt(.0005), .6), level.Depth.High, 1e-9)
}

func TestRunOnToBandsEnclose(t *testing.T) {
	for _, cover := range []string{"turf", "rough grass", "bare", "dug", "gravel"} {
		for _, slope := range []float64{0, 0.001, 0.01, 0.049, 0.1, 0.25, 0.4} {
			for _, ground := range []soil.Ground{topsoil, sandy, {}} {
				r := soil.RunOnTo(soil.RunOnInput{
					Rate: geodata.Estimate{Value: 62, Low: 41, High: 93}, Ground: ground, Cover: cover, EdgeLength: 3.6,
					Length: geodata.Estimate{Value: 12, Low: 8, High: 20},
					Slope:  geodata.Estimate{Value: slope, Low: slope * 0.8, High: slope * 1.2},
				})
				for what, e := range map[string]geodata.Estimate{"per metre": r.PerMetre, "flow": r.Flow, "depth": r.Depth,
					"speed": r.Speed, "shear": r.Shear, "coefficient": r.Coefficient, "roughness": r.Roughness} {
					assert.True(t, e.Low <= e.Value && e.Value <= e.High, "%s %v on %q, %q, slope %g", what, e, cover, ground.Word, slope)
				}
				assert.LessOrEqual(t, r.Coefficient.High, 1.0)
			}
		}
	}
}

func TestRunOnToOutsideItsRange(t *testing.T) {
	in := soil.RunOnInput{Rate: geodata.Exactly(62), Cover: "turf", Ground: topsoil, Length: geodata.Exactly(20), Slope: geodata.Exactly(0.001)}
	flat := soil.RunOnTo(in)
	in.Slope = geodata.Exactly(0.002)
	floor := soil.RunOnTo(in)
	assert.Equal(t, floor.Depth.Value, flat.Depth.Value, "raised to 0.002")
	assert.Greater(t, flat.Depth.High, floor.Depth.High, "and the band widened")
	assert.Len(t, flat.Notes, 1)
	assert.Empty(t, floor.Notes)

	in.Length, in.Slope = geodata.Exactly(2000), geodata.Exactly(0.01)
	deep := soil.RunOnTo(in)
	assert.True(t, deep.Channel)
	assert.Greater(t, deep.Depth.Value, 0.05)
	assert.Len(t, deep.Notes, 1)

	in.Length, in.Slope = geodata.Exactly(20), geodata.Exactly(0.4)
	steep := soil.RunOnTo(in)
	assert.False(t, steep.Channel)
	assert.InDelta(t, 0.60*1.25*1.25, steep.Coefficient.High, 1e-9)
	assert.NotEmpty(t, steep.Notes)

	in.Length, in.Cover, in.Slope = geodata.Exactly(60), "gravel", geodata.Exactly(0.1) // deeper than the widening reaches
	assert.Len(t, soil.RunOnTo(in).Notes, 1, "an unknown cover is named")
}

// The band of a thin sheet is wider. Where that widening fades, the upper limit
// may not fall as the rain grows, even though the upper limit of the rain itself
// grows but two thirds as fast (in logarithms), as it does near a table's end.
func TestMoreRainNeverLowersTheUpperLimitOfTheDepth(t *testing.T) {
	in := soil.RunOnInput{Ground: topsoil, Cover: "turf", Length: geodata.Exactly(12), Slope: geodata.Exactly(0.10)}
	before := soil.RunOn{}
	for rate := 1.0; rate < 300; rate *= 1.01 {
		in.Rate = geodata.Estimate{Value: rate, Low: rate / 2, High: 10 * math.Pow(rate, 2./3)}
		r := soil.RunOnTo(in)
		assert.GreaterOrEqual(t, r.Depth.High, before.Depth.High, "at %v mm/h, %v mm deep", rate, 1000*r.Depth.Value)
		before = r
	}
	assert.Greater(t, before.Depth.Value, 0.0045, "over the fading")
}

func TestRunOnToWithoutWaterOrSense(t *testing.T) {
	none := soil.RunOnTo(soil.RunOnInput{Rate: geodata.Exactly(62), Slope: geodata.Exactly(0.1), EdgeLength: 3.6})
	assert.Zero(t, none.Flow.Value)
	assert.Zero(t, none.Depth.High)
	assert.Zero(t, none.Speed.Value)
	assert.Empty(t, none.Notes)
	for _, bad := range []float64{math.NaN(), -3, math.Inf(1)} {
		r := soil.RunOnTo(soil.RunOnInput{Rate: geodata.Exactly(bad), Slope: geodata.Exactly(0.1), Length: geodata.Exactly(10)})
		require.Len(t, r.Notes, 1)
		assert.Zero(t, r.Depth.High)
		assert.False(t, math.IsNaN(r.Shear.High))
	}
}

func ExampleRunOnTo() {
	r := soil.RunOnTo(soil.RunOnInput{
		Rate:   geodata.Estimate{Value: 62, Low: 41, High: 93},
		Ground: topsoil, Cover: "turf", EdgeLength: 3.6,
		Length: geodata.Exactly(12), Slope: geodata.Exactly(0.10),
	})
	fmt.Printf("%.1f mm deep, %.2f litres per second at the edge\n", 1000*r.Depth.Value, r.Flow.Value)
	// Output:
	// 2.7 mm deep, 0.41 litres per second at the edge
}
