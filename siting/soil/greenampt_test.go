package soil_test

import (
	"fmt"
	"testing"

	"crossfall/siting/soil"
	"crossfall/terrain/stormflow"

	"github.com/stretchr/testify/assert"
)

// Rawls, Brakensiek & Miller 1983, Journal of Hydraulic Engineering 109:62-70,
// table 2 (from memory): silt loam has an effective porosity of 0.486, 16.68 cm
// (2.92 to 95.39) of suction and 0.65 cm/h; clay 0.385, 31.63 cm and 0.03 cm/h.
// The pores are nine tenths filled, from four fifths to all, and the conductivity
// three times either way.
func TestWinterUptake(t *testing.T) {
	middle, slowest, quickest := soil.WinterUptake(soil.SiltLoam)
	const cmPerHour = 0.01 / 3600
	check := func(want, got stormflow.GreenAmpt) {
		t.Helper()
		assert.InEpsilon(t, want.Conductivity*cmPerHour, got.Conductivity, 1e-9)
		assert.InEpsilon(t, want.Suction/100, got.Suction, 1e-9)
		assert.InDelta(t, want.Deficit, got.Deficit, 1e-9)
	}
	check(stormflow.GreenAmpt{Conductivity: 0.65, Suction: 16.68, Deficit: 0.0486}, middle)
	check(stormflow.GreenAmpt{Conductivity: 0.65 / 3, Suction: 2.92, Deficit: 0}, slowest)
	check(stormflow.GreenAmpt{Conductivity: 1.95, Suction: 95.39, Deficit: 0.0972}, quickest)
	middle, _, _ = soil.WinterUptake(soil.Clay)
	check(stormflow.GreenAmpt{Conductivity: 0.03, Suction: 31.63, Deficit: 0.0385}, middle)
}

// Every row of the same table (Rawls, Brakensiek & Miller 1983, table 2; the means read
// where others quote it, the ranges from memory): effective porosity, suction and its
// range in cm, conductivity in mm/h.
func TestUptakeOfEveryTexture(t *testing.T) {
	for texture, row := range map[soil.Texture][5]float64{
		soil.Sand: {.417, 4.95, .97, 25.36, 117.8}, soil.LoamySand: {.401, 6.13, 1.35, 27.94, 29.9},
		soil.SandyLoam: {.412, 11.01, 2.67, 45.47, 10.9}, soil.Loam: {.434, 8.89, 1.33, 59.38, 3.4},
		soil.SiltLoam: {.486, 16.68, 2.92, 95.39, 6.5}, soil.SandyClayLoam: {.330, 21.85, 4.42, 108.0, 1.5},
		soil.ClayLoam: {.309, 20.88, 4.79, 91.10, 1.0}, soil.SiltyClayLoam: {.432, 27.30, 5.67, 131.5, 1.0},
		soil.SandyClay: {.321, 23.90, 4.08, 140.2, .6}, soil.SiltyClay: {.423, 29.22, 6.13, 139.4, .5},
		soil.Clay: {.385, 31.63, 6.39, 156.5, .3},
	} {
		middle, slowest, quickest := soil.WinterUptake(texture)
		assert.InDelta(t, row[0], middle.Deficit/.1, 1e-9, texture)
		assert.InDelta(t, row[1], 100*middle.Suction, 1e-9, texture)
		assert.InDelta(t, row[2], 100*slowest.Suction, 1e-9, texture)
		assert.InDelta(t, row[3], 100*quickest.Suction, 1e-9, texture)
		assert.InDelta(t, row[4], middle.Conductivity*3.6e6, 1e-9, texture)
	}
}

// The slowest takes up no more than the middle and the quickest no less, whatever
// has been taken up before: K (1 + suction deficit / taken) (Green & Ampt 1911).
func TestWinterUptakeIsInOrder(t *testing.T) {
	for _, x := range append(soil.Textures(), "") {
		middle, slowest, quickest := soil.WinterUptake(x)
		assert.Positive(t, slowest.Conductivity, x)
		for _, taken := range []float64{0.0001, 0.001, 0.01, 0.1} {
			rate := func(g stormflow.GreenAmpt) float64 {
				return g.Conductivity * (1 + g.Suction*g.Deficit/taken)
			}
			assert.LessOrEqual(t, rate(slowest), rate(middle), x)
			assert.LessOrEqual(t, rate(middle), rate(quickest), x)
		}
	}
}

func ExampleWinterUptake() {
	middle, slowest, quickest := soil.WinterUptake(soil.Loam)
	const mmPerHour = 0.001 / 3600
	fmt.Printf("soaked loam lets through %.1f mm an hour (%.1f to %.1f)\n",
		middle.Conductivity/mmPerHour, slowest.Conductivity/mmPerHour, quickest.Conductivity/mmPerHour)
	// Output: soaked loam lets through 3.4 mm an hour (1.1 to 10.2)
}
