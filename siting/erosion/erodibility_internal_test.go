package erosion

import (
	"testing"

	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
)

// The equation of Williams 1995 worked by hand: its four factors for 40 % sand,
// 40 % silt, 20 % clay and 1.5 % carbon are .3623, .8855, .8119 and .9999.
func TestErodibilityByWilliams(t *testing.T) {
	for _, c := range [][5]float64{{40, 40, 20, 1.5, .2604}, {65, 25, 10, 1.0, .2336}, {88, 7, 5, 0.6, .1070}} {
		assert.InDelta(t, c[4], williams(c[0], c[1], c[2], c[3]), 1e-4)
	}
}

// The averages by texture of Stewart et al. 1975, in hundredths of the United States
// unit, which is 0.1317 t ha h/(ha MJ mm).
func TestErodibilityOfTextures(t *testing.T) {
	for texture, k := range map[soil.Texture]float64{
		soil.Sand: 2, soil.LoamySand: 4, soil.SandyLoam: 13, soil.Loam: 30, soil.SiltLoam: 38,
		soil.SandyClayLoam: 20, soil.ClayLoam: 30, soil.SiltyClayLoam: 32, soil.SiltyClay: 26, soil.Clay: 22,
	} {
		assert.InDelta(t, k/100*0.1317, Erodibility(texture).Value, 1e-5, texture)
	}
	// silt: the middle of .45 to .65; sandy clay by Williams 1995 at 52 % sand, 6 % silt,
	// 42 % clay and 1.5 % carbon, worked by hand: .1242
	assert.InDelta(t, .55*0.1317, Erodibility(soil.Silt).Value, 1e-5)
	assert.InDelta(t, .1242*0.1317, Erodibility(soil.SandyClay).Value, 1e-5)
}

// 0.30 in United States units is 0.0395141 t ha h/(ha MJ mm); the foot is 0.3048
// m, the pound 0.45359237 kg, the acre 4046.8564224 m2.
func TestErodibilityInMetricUnits(t *testing.T) {
	footTonForce := 0.3048 * 907.18474 * 9.80665 / 1e6 // MJ
	acre := 0.40468564224                              // ha
	rainUnit := 100 * footTonForce * 25.4 / acre       // hundred ft tonf in a acre: MJ mm a ha
	tons := 0.90718474 / acre                          // ton an acre: t a ha
	assert.InDelta(t, tons/rainUnit, perUnitedStates, 1e-6)
	assert.InDelta(t, 0.0395141, Erodibility(soil.Loam).Value, 1e-7)
	for _, texture := range soil.Textures() {
		k := Erodibility(texture)
		assert.Positive(t, k.Low, texture)
		assert.Less(t, k.Low, k.Value)
		assert.Less(t, k.Value, k.High)
	}
	unknown := Erodibility("")
	assert.Less(t, unknown.Low, Erodibility(soil.SandyLoam).Value)
	assert.Greater(t, unknown.High, Erodibility(soil.SiltLoam).Value)
}
