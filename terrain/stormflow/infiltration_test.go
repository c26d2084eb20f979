package stormflow_test

import (
	"math"
	"testing"

	"crossfall/terrain/stormflow"

	"github.com/stretchr/testify/assert"
)

// Green-Ampt under steady rain on level closed ground: ponding at F = K s/(r-K),
// s = suction times deficit, then F - Fp - s ln((s+F)/(s+Fp)) = K (t-tp) (Mein &
// Larson 1973; Chow, Maidment & Mays 1988, section 5.4). Figures worked from
// these formulas for the sandy loam and the loam of Rawls, Brakensiek & Miller
// (1983, Journal of Hydraulic Engineering 109:62-70).
func TestGreenAmpt(t *testing.T) {
	for _, c := range []struct {
		name                                    string
		k, psi, deficit, rain, minutes          float64
		ponds, takenThen, takenUp, rateAtTheEnd float64 // min, mm, mm, mm/h
	}{
		{"sandy loam", 10.9, 110.1, 0.25, 40, 60, 15.465, 10.3101, 29.872, 20.944},
		{"loam", 3.4, 88.9, 0.15, 25, 30, 5.038, 2.0990, 7.541, 9.412},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := mustModel(t, stormflow.Spec{Cols: 1, Rows: 1, Cell: 1, Ground: []float64{0}, Edges: openOn()})
			end, last, taken, rate, ponded, then := 60*c.minutes, 0.0, 0.0, 0.0, 0.0, 0.0
			mustRun(t, m, stormflow.Storm{
				Rain: steady(c.rain*mmPerHour, end), Duration: end, Materials: []stormflow.Material{{
					Manning:      0.1,
					Infiltration: stormflow.GreenAmpt{Conductivity: c.k * mmPerHour, Suction: c.psi / 1000, Deficit: c.deficit},
				}},
			}, stormflow.Options{ObserveEvery: 1, Observe: func(s stormflow.State) {
				taken = 1000 * s.Balance.TakenUp
				rate, last = 3600*(taken-last), taken
				if ponded == 0 && s.Depth(0, 0) > 0 {
					ponded, then = s.Time/60, taken
				}
			}})
			assert.InDelta(t, c.ponds, ponded, 0.04)
			assert.InDelta(t, c.takenThen, then, 0.02)
			assert.InDelta(t, c.takenUp, taken, 0.003)
			assert.InDelta(t, c.rateAtTheEnd, rate, 0.005)
		})
	}
}

// Shapes of storms. The winter profile has 0.7966 of its rain in the central
// half (from the formula); its slope falls from about three times the mean at
// the middle, ln(1/a)/(1-a) = 2.993, by x^0.026.
func TestHyetographs(t *testing.T) {
	half := func(s stormflow.Shape) float64 { return s(0.75) - s(0.25) }
	assert.InDelta(t, 0.5, half(stormflow.Steady), 1e-12)
	assert.InDelta(t, 0.75, half(stormflow.Triangular), 1e-12)
	assert.InDelta(t, 0.7966, half(stormflow.WinterProfile), 5e-5)
	for _, shape := range []stormflow.Shape{stormflow.Steady, stormflow.Triangular, stormflow.WinterProfile, stormflow.SummerProfile} {
		h := stormflow.Hyetograph(shape, 0.020, 1800, 61)
		sum, peak := 0.0, 0.0
		for i, r := range h.Rates {
			sum += r * h.Step
			peak = math.Max(peak, r)
			assert.InEpsilon(t, r, h.Rates[60-i], 1e-9, "even about its middle")
		}
		assert.InEpsilon(t, 0.020, sum, 1e-12)
		assert.InEpsilon(t, h.Rates[30], peak, 1e-9)
	}
	h := stormflow.Hyetograph(stormflow.WinterProfile, 1, 1, 1001)
	assert.InDelta(t, 2.993*math.Pow(0.001, 0.026), h.Rates[500], 0.01)
}
