package rain_test

import (
	"math"
	"testing"

	"crossfall/siting/rain"

	"github.com/stretchr/testify/assert"
)

var equations = []rain.EnergyEquation{rain.WischmeierSmith, rain.BrownFoster, rain.McGregor}

// The equations of Agriculture Handbook 537, Brown & Foster 1987 and McGregor et al.
// 1995 worked by hand: at 10 mm/h 0.119 + 0.0873 = 0.2063 by the first. For 0.02 mm/h
// its logarithm is negative.
func TestEnergyPerMM(t *testing.T) {
	for intensity, want := range map[float64][]float64{
		10: {0.20630, 0.163356, 0.198038}, 50: {0.267320, 0.272861, 0.286540}, 100: {0.283, 0.288593, 0.289943},
		0.02: {0, 0.29 * (1 - 0.72*math.Exp(-0.001)), 0.29 * (1 - 0.72*math.Exp(-0.00164))}, 0: {0, 0.0812, 0.0812},
	} {
		for i, e := range equations {
			assert.InDelta(t, want[i], e.PerMM(intensity), 1e-6, "%v, %g mm/h", e, intensity)
		}
	}
	assert.True(t, math.IsNaN(rain.BrownFoster.PerMM(-1)))
	assert.True(t, math.IsNaN(rain.EnergyEquation(9).PerMM(1)))
}

// Sums of the same three equations (Agriculture Handbook 537, Brown & Foster 1987,
// McGregor et al. 1995) over storms, worked by hand.
func TestStormOf(t *testing.T) {
	halfHours := []rain.Interval{{30, 1.2}, {30, 4.0}, {30, 6.5}, {30, 3.3}, {30, 1.0}, {30, 0.8}}
	cases := []struct {
		name         string
		storm        []rain.Interval
		intensity    float64
		energy, ei30 []float64 // in the order of equations
	}{
		// a mass curve of a textbook, which takes the best 30 minutes between
		// its readings: 3 + 14 + 13 minutes with 27 mm, EI30 463.31, 457.41 and
		// 474.69. The greatest in any 30 minutes is 7 + 3 + 14 and 6 of 13
		// minutes: 2 + 6 + 18 + 3 x 6/13 mm.
		{"mass curve", []rain.Interval{{20, 1}, {7, 2}, {3, 6}, {14, 18}, {13, 3}, {3, 2}}, 2 * (26 + 18.0/13),
			[]float64{8.57976, 8.47057, 8.79057},
			[]float64{463.31 * (26 + 18.0/13) / 27, 457.41 * (26 + 18.0/13) / 27, 474.69 * (26 + 18.0/13) / 27}},
		{"half hours", halfHours, 13, []float64{3.26314, 2.54291, 3.04063}, []float64{42.421, 33.058, 39.528}},
		// 10 mm in 20 minutes is 30 mm/h, but 20 mm/h over 30 minutes
		{"short", []rain.Interval{{20, 10}}, 20, []float64{10 * (0.119 + 0.0873*math.Log10(30))}, nil},
		// the best 30 minutes begin inside no interval: 10 + 20 minutes of the middle
		{"steady middle", []rain.Interval{{60, 6}, {60, 60}, {60, 6}}, 60, nil, nil},
	}
	for _, c := range cases {
		for i, e := range equations {
			s := rain.StormOf(c.storm, e)
			assert.InDelta(t, c.intensity, s.Intensity30, 1e-9, c.name)
			if i < len(c.energy) {
				assert.InDelta(t, c.energy[i], s.Energy, 1e-5, "%s, %v", c.name, e)
			}
			if i < len(c.ei30) {
				assert.InDelta(t, c.ei30[i], s.EI30, 0.01, "%s, %v", c.name, e)
			}
			assert.InDelta(t, s.Energy*s.Intensity30, s.EI30, 1e-9)
		}
	}
}

// The storm rules of Agriculture Handbook 703 on a record made by hand: six hours
// with under 1.27 mm part two storms; over 12.7 mm, or 6.35 mm in a quarter of an
// hour, count.
func TestErosiveStorms(t *testing.T) {
	cases := []struct {
		name   string
		record []rain.Interval
		depths []float64
	}{
		{"one storm through a gap of under six hours", []rain.Interval{{60, 8}, {359, 0}, {60, 8}}, []float64{16}},
		{"two storms, each too small", []rain.Interval{{60, 8}, {360, 0}, {60, 8}}, nil},
		{"1.27 mm in the gap joins", []rain.Interval{{60, 8}, {180, 0}, {30, 1.27}, {150, 0}, {60, 8}}, []float64{17.27}},
		{"less parts, and goes with neither", []rain.Interval{{60, 13}, {180, 0}, {30, 1.2}, {150, 0}, {240, 0}, {60, 14}}, []float64{13, 14}},
		{"12.7 mm is not over 12.7", []rain.Interval{{60, 12.7}}, nil},
		{"6.35 mm in 15 minutes", []rain.Interval{{15, 6.35}}, []float64{6.35}},
		{"6.35 mm in 20 minutes", []rain.Interval{{20, 6.35}}, nil},
		{"dry", []rain.Interval{{600, 0}}, nil},
	}
	for _, c := range cases {
		storms := rain.ErosiveStorms(c.record, rain.BrownFoster)
		var depths []float64
		for _, s := range storms {
			depths = append(depths, s.MM)
		}
		assert.InDeltaSlice(t, c.depths, depths, 1e-9, c.name)
	}
}
