package erosion_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/erosion"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func garden() erosion.Compost {
	return erosion.Compost{
		Erosivity: geodata.Estimate{Value: 500, Low: 300, High: 800}, Erodibility: geodata.Exactly(.04),
		Top: .05, LevelTop: .005, Run: 1.2, Area: 4.32, Volume: .65, Density: 600, Edge: 3.6, Depth: .15,
		Shear: geodata.Estimate{Value: .5, Low: .1, High: 1.2},
	}
}

// Worked by hand. A top of 5 % on a short run has the slope factor .30
// (Agriculture Handbook 703, 1997, table 4-2), so rain takes 500 x .04 x .2958 x
// .2 t/ha, which is .511 kg of 4.32 m2. The batter of an edge 150 mm deep at 35
// degrees holds .15 x .15 / (2 x .7002) = .01607 m3 a metre: 34.7 kg over 3.6 m at
// 600 kg/m3, of which a pull of .5 Pa, three fifths of the way from .2 to .7,
// could take 20.8 kg and is taken to carry off half.
func TestCompostAtRiskWorkedByHand(t *testing.T) {
	all, err := erosion.AtRisk(garden())
	require.NoError(t, err)
	require.Len(t, all, 5)
	ls, err := erosion.SlopeFactor(.05, 1.2, erosion.ModerateRill)
	require.NoError(t, err)
	assert.InDelta(t, .30, ls, .005)
	crest := .15 * .15 / (2 * math.Tan(35*math.Pi/180)) * 3.6 * 600
	assert.InDelta(t, 34.7, crest, .05)
	byRain := 500 * .04 * ls * .2 * 4.32 / 10
	assert.InDelta(t, byRain+.5*.6*crest, all[0].Lost.Value, 1e-9)
	assert.InDelta(t, .1*byRain+.1*.5*.6*crest, all[1].Lost.Value, 1e-9)
	assert.InDelta(t, .1*byRain, all[2].Lost.Value, 1e-9)
	assert.Zero(t, all[4].Lost.Value)
	assert.InDelta(t, all[0].Lost.Value/600*1000, all[0].Litres.Value, 1e-9)
	assert.InDelta(t, all[0].Litres.Value/650, all[0].Share.Value, 1e-9)
}

// By hand: of a batter that a pull of .7 Pa carries off all goes at most, half in the
// middle and a tenth at least (defaults of ours). Boards keep all but .1 of what rain
// loosens, from .02 to .3 (defaults of ours), so that what rain takes of the open-edged
// bed is known from the one with a sunken edge.
func TestCrestCarriedOff(t *testing.T) {
	c := garden()
	c.Shear = geodata.Exactly(.7)
	all, err := erosion.AtRisk(c)
	require.NoError(t, err)
	open, sunken := all[0].Lost, all[2].Lost
	crest := .15 * .15 / (2 * math.Tan(35*math.Pi/180)) * 3.6 * 600
	assert.InDelta(t, .1*crest, open.Low-sunken.Low/.02, 1e-9)
	assert.InDelta(t, .5*crest, open.Value-sunken.Value/.1, 1e-9)
	assert.InDelta(t, crest, open.High-(sunken.High-.05*crest)/.3, 1e-9)
}

func TestCompostAtRiskFallsWithEachWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := garden()
		c.Erosivity = geodata.Exactly(rapid.Float64Range(10, 5000).Draw(t, "erosivity"))
		c.Top = rapid.Float64Range(0, .3).Draw(t, "top")
		c.Run = rapid.Float64Range(.2, 10).Draw(t, "run")
		c.Depth = rapid.Float64Range(.02, .4).Draw(t, "depth")
		low := rapid.Float64Range(0, 3).Draw(t, "low")
		value := low + rapid.Float64Range(0, 3).Draw(t, "value")
		c.Shear = geodata.Estimate{Low: low, Value: value, High: value + rapid.Float64Range(0, 3).Draw(t, "high")}
		all, err := erosion.AtRisk(c)
		require.NoError(t, err)
		for i, r := range all {
			require.LessOrEqual(t, r.Lost.Low, r.Lost.Value)
			require.LessOrEqual(t, r.Lost.Value, r.Lost.High)
			require.LessOrEqual(t, r.Share.High, 1+1e-12)
			if i > 0 {
				before := all[i-1].Lost
				require.LessOrEqual(t, r.Lost.Low, before.Low+1e-12)
				require.LessOrEqual(t, r.Lost.Value, before.Value+1e-12)
				require.LessOrEqual(t, r.Lost.High, before.High+1e-12)
			}
		}
	})
}

func TestCompostAtRiskRefusesNothingness(t *testing.T) {
	for _, spoil := range []func(*erosion.Compost){
		func(c *erosion.Compost) { c.Erosivity = geodata.Estimate{} },
		func(c *erosion.Compost) { c.Volume = 0 },
		func(c *erosion.Compost) { c.Run = 0 },
		func(c *erosion.Compost) { c.Top = math.NaN() },
	} {
		c := garden()
		spoil(&c)
		_, err := erosion.AtRisk(c)
		assert.ErrorIs(t, err, erosion.ErrRange)
	}
}

func ExampleAtRisk() {
	all, err := erosion.AtRisk(erosion.Compost{
		Erosivity: geodata.Exactly(500), Erodibility: erosion.Erodibility("loam"),
		Top: 0.05, LevelTop: 0.005, Run: 1.2, Area: 4.32, Volume: 0.65, Density: 600,
		Edge: 3.6, Depth: 0.15, Shear: geodata.Estimate{Value: 0.3, Low: 0.1, High: 0.8},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range all {
		fmt.Printf("%s: %.2g kg (%.2g to %.2g)\n", r.Way, r.Lost.Value, r.Lost.Low, r.Lost.High)
	}
	// Output:
	// open-edged: 4 kg (0.052 to 37)
	// boarded: 0.4 kg (0.001 to 18)
	// boarded with sunken edges and pegs: 0.052 kg (0.001 to 2.5)
	// stepped: 0.013 kg (0.00025 to 1.9)
	// covered for the winter: 0 kg (0 to 1.7)
}
