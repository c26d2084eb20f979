package geodata_test

import (
	"math"
	"strings"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestPrintedUnits(t *testing.T) {
	m, ft := geodata.Metric, geodata.FeetAndInch
	for _, c := range []struct{ want, got string }{
		{"3.60 m", m.Length(3.6)},
		{"3.60 m", geodata.Units("").Length(3.6)}, // the zero value shows metres
		{"11 ft 9 3/4 in", ft.Length(3.6)},        // 141.73 in
		{"12 ft", ft.Length(3.6576)},
		{"12 ft", ft.Length(3.6575)}, // rounds up to whole feet
		{"6 in", ft.Length(0.1524)},
		{"1/4 in", ft.Length(0.00635)},
		{"0 in", ft.Length(0)},
		{"0 in", ft.Length(-0.001)},
		{"-6 1/2 in", ft.Length(-0.1651)},
		{"-2 ft 6 in", ft.Length(-0.762)},
		{"-2 ft", ft.Length(-0.6096)},
		{"0.00 m", m.Length(-0.001)},
		{"180 mm", m.Small(0.18)},
		{"7 1/8 in", ft.Small(0.18)}, // 7.087 in
		{"0 mm", m.Small(-0.0001)},
		{"-1/8 in", ft.Small(-0.003175)},
		{"14 in", ft.Small(0.3556)}, // inches only
		{"29.97 m", m.Height(29.97)},
		{"98.33 ft", ft.Height(29.97)}, // 98.3268
		{"-0.50 m", m.Height(-0.5)},
		{"112 mm", m.RainDepth(112)},
		{"4.41 in", ft.RainDepth(112)},
		{"9.4 mm", m.RainDepth(9.4)},
		{"10 mm", m.RainDepth(9.96)}, // not 10.0
		{"18 mm/h", m.Rate(18)},
		{"0.71 in/h", ft.Rate(18)},
		{"1.25 m³", m.Volume(1.25)},
		{"12.5 m³", m.Volume(12.5)},
		{"1.63 cubic yards", ft.Volume(1.25)}, // 0.764554857984 m³ to the cubic yard
		{"4.32 m²", m.Area(4.32)},
		{"46.5 square feet", ft.Area(4.32)},
		{"740 kg", m.Mass(740)},
		{"1631 lb", ft.Mass(740)}, // 0.45359237 kg to the pound
		{"1.0 lb", ft.Mass(0.45359237)},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

// Gradient, 1 in n and percent are one figure: 1 in 12 is 8.333 %, 1 in 40 is
// 2.5 %, 45 degrees is 1 in 1.
func TestSlope(t *testing.T) {
	for gradient, want := range map[float64]string{
		1. / 12: "1 in 12 (8.3 %)", -1. / 12: "1 in 12 (-8.3 %)", 1. / 40: "1 in 40 (2.5 %)", 0.3: "1 in 3.3 (30.0 %)",
		1: "1 in 1.0 (100.0 %)", 0.1: "1 in 10 (10.0 %)", 0.1005: "1 in 10 (10.1 %)", 0.001: "1 in 1000 (0.1 %)",
		0.0009: "flatter than 1 in 1000", 0: "flatter than 1 in 1000", 25: "steeper than 20 in 1", -25: "steeper than 20 in 1", math.Inf(1): "not known",
	} {
		assert.Equal(t, want, geodata.Slope(gradient))
	}
	assert.Equal(t, "not known", geodata.Slope(math.NaN()))
}

func TestNothingPrintsMinusZeroOrNaN(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.OneOf(
			rapid.Float64Range(-0.01, 0.01), rapid.Float64(),
			rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), math.Copysign(0, -1)}),
		).Draw(t, "v")
		for _, u := range []geodata.Units{geodata.Metric, geodata.FeetAndInch} {
			for _, text := range []string{
				u.Length(v), u.Small(v), u.Height(v), u.RainDepth(v), u.Rate(v), u.Volume(v), u.Area(v), u.Mass(v),
				geodata.Slope(v),
			} {
				number, _, _ := strings.Cut(text, " ")
				if strings.HasPrefix(number, "-") && strings.Trim(number, "-0.") == "" || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
					t.Fatalf("%v printed %q", v, text)
				}
			}
		}
	})
}
