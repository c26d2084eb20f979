package stormflow_test

import (
	"testing"

	"crossfall/terrain/stormflow"

	"github.com/stretchr/testify/assert"
)

// Green-Ampt under steady rain on level closed ground: ponding at F = K s/(r-K),
// s = suction times deficit, then F - Fp - s ln((s+F)/(s+Fp)) = K (t-tp) (Mein &
// Larson 1973; Chow, Maidment & Mays 1988, section 5.4). Figures worked from
// these formulas by hand for soils of Rawls, Brakensiek & Miller 1983 (Journal of
// Hydraulic Engineering 109:62-70).
func TestGreenAmpt(t *testing.T) {
	for _, c := range []struct {
		name                                    string
		k, psi, deficit, rain, minutes          float64
		ponds, takenThen, takenUp, rateAtTheEnd float64 // min, mm, mm, mm/h
	}{
		{"sandy loam", 10.9, 110.1, 0.25, 40, 60, 15.465, 10.3101, 29.872, 20.944},
		{"loam", 3.4, 88.9, 0.15, 25, 30, 5.038, 2.0990, 7.541, 9.412},
		{"sandy loam, half full", 10.9, 110.1, 0.2060, 30, 60, 25.884, 12.943, 26.416, 20.259},
		{"clay loam, seven tenths full", 1.0, 208.8, 0.0927, 5, 180, 58.068, 4.839, 11.709, 2.653},
		{"loam, four fifths full", 3.4, 88.9, 0.0868, 10, 240, 23.85, 3.975, 23.900, 4.498},
		// examples 4.4.1 and 4.4.2 of the same book (from memory; it prints 0.17 h and 0.85 cm, then 3.02 cm)
		{"silt loam", 6.5, 166.8, 0.3402, 50, 60, 10.175, 8.4790, 30.165, 18.727},
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
			assert.InDelta(t, c.takenThen, then, 1.8*c.rain/3600, "as far as looks a second apart tell")
			assert.InDelta(t, c.takenUp, taken, 0.003)
			assert.InDelta(t, c.rateAtTheEnd, rate, 0.005)
		})
	}
}

// Example 4.3.1 of Chow, Maidment & Mays 1988 (from memory): silt loam, its pores
// 30 % filled, under standing water for an hour takes up 3.17 cm, then 1.81 cm/h.
func TestGreenAmptUnderStandingWater(t *testing.T) {
	m := mustModel(t, stormflow.Spec{Cols: 1, Rows: 1, Cell: 1, Ground: []float64{0}, Edges: openOn()})
	taken, rate := 0.0, 0.0
	mustRun(t, m, stormflow.Storm{
		Start: []float64{0.2}, Duration: 3600, Materials: []stormflow.Material{{
			Manning: 0.1, Infiltration: stormflow.GreenAmpt{Conductivity: 6.5 * mmPerHour, Suction: 0.1668, Deficit: 0.3402},
		}},
	}, stormflow.Options{ObserveEvery: 1, Observe: func(s stormflow.State) {
		rate, taken = 3600*(1000*s.Balance.TakenUp-taken), 1000*s.Balance.TakenUp
	}})
	assert.InDelta(t, 31.66, taken, 0.02)
	assert.InDelta(t, 18.15, rate, 0.02)
}
