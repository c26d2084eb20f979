package soil_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEveryWordIsNamedAndSourced(t *testing.T) {
	require.Len(t, soil.Words(), 5)
	for _, w := range soil.Words() {
		g, ok := soil.Named(w)
		require.True(t, ok, w)
		assert.Equal(t, w, g.Word)
		assert.NotEmpty(t, g.Source, w)
		assert.NotEmpty(t, g.FieldTest, w)
		assert.Positive(t, g.UnitWeight, w)
		assert.Less(t, g.FrictionLow, g.FrictionAngle, w)
		assert.Less(t, g.FrictionAngle, g.FrictionHigh, w)
		assert.Equal(t, g.Clay, g.Undrained > 0, w)
	}
	_, ok := soil.Named("Soft wet turf topsoil")
	assert.False(t, ok, "words are exact")
	_, ok = soil.Named("")
	assert.False(t, ok)
}

// The undrained strength of each word must lie in the published band of its
// finger test: very soft under 20 kPa, soft 20 to 40, firm 40 to 75 (CP 2004:1972,
// field words as in BS 5930). Turf is worked weaker than its word, never stronger.
func TestStrengthNeverAboveThePublishedBand(t *testing.T) {
	for word, top := range map[string]float64{
		"very soft wet topsoil":     20,
		"soft wet turf topsoil":     40,
		"firm turf or clay subsoil": 75,
	} {
		g, ok := soil.Named(word)
		require.True(t, ok, word)
		assert.Less(t, g.UndrainedHigh, top, word)
		assert.Less(t, g.UndrainedLow, g.Undrained, word)
		assert.Less(t, g.Undrained, g.UndrainedHigh, word)
	}
}

// Undrained strengths, kPa, and friction angles are defaults of ours within published
// bands; creep ratios are those of Lane 1935 (from memory): very fine sand or silt 8.5,
// fine sand 7, coarse sand 5, and the cautious 3.0 of clay.
func TestFiguresOfTheWords(t *testing.T) {
	for word, want := range map[string][3]float64{
		"very soft wet topsoil": {7.5, 26, 8.5}, "soft wet turf topsoil": {15, 28, 8.5}, "firm turf or clay subsoil": {40, 28, 3},
		"loose sandy soil": {0, 30, 7}, "medium dense sand or gravel": {0, 34, 5},
	} {
		g, ok := soil.Named(word)
		require.True(t, ok, word)
		assert.Equal(t, want[0], g.Undrained, word)
		assert.InDelta(t, want[1]*math.Pi/180, g.FrictionAngle, 1e-12, word)
		assert.Equal(t, want[2], g.Creep, word)
	}
}

// The ends of the bands are defaults of ours within the published ones.
func TestWeakAndStrong(t *testing.T) {
	g, _ := soil.Named(soil.DefaultWord)
	assert.Equal(t, 10.0, g.Weak().Undrained)
	assert.Equal(t, 15.0, g.Undrained, "the ground itself is left as it was")
	assert.Equal(t, 20.0, g.Strong().Undrained)
	s, _ := soil.Named("loose sandy soil")
	assert.InDelta(t, 28*math.Pi/180, s.Weak().FrictionAngle, 1e-12)
	assert.InDelta(t, 32*math.Pi/180, s.Strong().FrictionAngle, 1e-12)
	assert.Zero(t, s.Weak().Undrained)
}

// Moist 1000 lb/yd3 and very wet 1500 lb/yd3: Oregon State University
// Extension. 1 lb = 0.45359237 kg, 1 yd = 0.9144 m.
func TestCompostAgainstExtensionFigures(t *testing.T) {
	c, ok := soil.FillNamed(soil.DefaultFill)
	require.True(t, ok)
	perYard := 0.45359237 / math.Pow(0.9144, 3)
	assert.InEpsilon(t, 1000*perYard, c.MoistDensity, 0.015)
	assert.InEpsilon(t, 1500*perYard, c.WetDensity, 0.005)
}

func TestFillWeightsAgreeWithDensities(t *testing.T) {
	for _, w := range soil.FillWords() {
		f, ok := soil.FillNamed(w)
		require.True(t, ok, w)
		assert.NotEmpty(t, f.Source, w)
		for _, pair := range [][2]float64{
			{f.MoistDensity, f.Moist}, {f.WetDensity, f.Wet}, {f.SaturatedDensity, f.Saturated},
		} {
			assert.InEpsilon(t, pair[0]*soil.Gravity/1000, pair[1], 0.025, w)
		}
		assert.Less(t, f.Moist, f.Wet, w)
		assert.Less(t, f.Wet, f.Saturated, w)
		assert.Greater(t, f.Saturated, soil.WaterWeight, "sinks in water: %s", w)
	}
	_, ok := soil.FillNamed("gold")
	assert.False(t, ok)
}

// Compost of 300 kg dry matter a cubic metre at half water by mass weighs
// twice that; the range 500 to 900 kg/m3 of Agnew & Leonard 2003 is met.
func TestWetDensityFrom(t *testing.T) {
	assert.InDelta(t, 600, soil.WetDensityFrom(300, 0.50), 1e-9)
	assert.InDelta(t, 857.1, soil.WetDensityFrom(300, 0.65), 0.1)
}

func ExampleNamed() {
	g, ok := soil.Named("firm turf or clay subsoil")
	fmt.Println(ok, g.Undrained, "kPa:", g.FieldTest)
	// Output: true 40 kPa: a thumb leaves a mark when pressed, but cannot be pushed in
}
