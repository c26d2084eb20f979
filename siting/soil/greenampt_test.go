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
