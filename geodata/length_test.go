package geodata_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// One inch is 25.4 mm and one foot 12 inches: international yard and pound
// agreement of 1959. The figures below follow from that by hand.
func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text string
		bare geodata.Unit
		want float64
	}{
		{`4'6"`, 0, 1.3716},
		{"4 ft 6 1/2 in", 0, 1.3843},
		{"12'", 0, 3.6576},
		{"7 1/8 in", 0, 0.180975},
		{"4'6", 0, 1.3716}, // without the inch mark
		{"4' 6", 0, 1.3716},
		{`4'-6"`, 0, 1.3716},
		{`4' - 6"`, 0, 1.3716},
		{`4', 6"`, 0, 1.3716},
		{"4 ft and 6 in", 0, 1.3716},
		{"4 FT 6 IN", 0, 1.3716},
		{"4 ft. 6 in.", 0, 1.3716},
		{"4 feet 6 inches", 0, 1.3716},
		{"1 foot 1 inch", 0, 0.3302},
		{"4ft6in", 0, 1.3716},
		{"4′6″", 0, 1.3716},           // primes
		{"4’6”", 0, 1.3716},           // curly, closing
		{"4‘6“", 0, 1.3716},           // curly, opening
		{"4'6''", 0, 1.3716},          // two single marks
		{`4'6½"`, 0, 1.3843},          // fraction as one character
		{`4' ¾"`, 0, 1.23825},         // no whole inches
		{`4' 1/2"`, 0, 1.2319},        // the same with a stroke
		{`4'6 3/64"`, 0, 1.372790625}, // the finest fraction
		{"6 1⁄2 in", 0, 0.1651},       // fraction stroke U+2044
		{`5 ⅝"`, 0, 0.142875},
		{"½ ft", 0, 0.1524},
		{"4½'", 0, 1.3716},
		{"1/2", geodata.Inch, 0.0127},
		{"6.5 in", 0, 0.1651},
		{`4'6.5"`, 0, 1.3843}, // decimals in the last field
		{"4.5 ft", 0, 1.3716},
		{"1.25 m", 0, 1.25},
		{"1.25m", 0, 1.25},
		{"30 cm", 0, 0.3},
		{"180 mm", 0, 0.18},
		{"2 yards", 0, 1.8288},
		{"1.25 metres", 0, 1.25},
		{"1.25", geodata.Metre, 1.25},
		{"180", geodata.Millimetre, 0.18},
		{"4.5", geodata.Foot, 1.3716},
		{"4.5 m", geodata.Foot, 4.5}, // the unit written wins
		{".5", geodata.Metre, 0.5},
		{"5.", geodata.Metre, 5},
		{"1e-2", geodata.Metre, 0.01},
		{"+2", geodata.Metre, 2},
		{"-2", geodata.Metre, -2},
		{"\u22122 m", 0, -2}, // Unicode minus
		{"\u20132 m", 0, -2}, // en dash
		{`-4'6"`, 0, -1.3716},
		{"- 4 ft", 0, -1.2192},
		{"\u00a04\u00a0ft\u20096\tin ", 0, 1.3716}, // blanks of other widths
		{"0", geodata.Metre, 0},
		{"2/4 in", 0, 0.0127},
	} {
		got, err := geodata.ParseLength(c.text, c.bare)
		require.NoError(t, err, c.text)
		assert.InDelta(t, c.want, got, 1e-12, c.text)
	}
	zero, err := geodata.ParseLength("-0", geodata.Metre)
	require.NoError(t, err)
	assert.False(t, math.Signbit(zero), "never -0")
}

func TestParseLengthRefuses(t *testing.T) {
	for _, c := range []struct {
		text    string
		bare    geodata.Unit
		problem string
	}{
		{"", 0, "is empty"},
		{"  ", geodata.Metre, "is empty"},
		{"4-6", geodata.Foot, "may be feet and inches or a range"},
		{"4 - 6", 0, "may be feet and inches or a range"},
		{"4–6", geodata.Metre, "may be feet and inches or a range"},
		{"4", 0, "has no unit"},
		{"1/2", geodata.Metre, "is a fraction without a unit"},
		{"½", geodata.Metre, "is a fraction without a unit"},
		{"1/2 m", 0, "has a fraction with a unit that is not feet or inches"},
		{"1/3 in", 0, "has a fraction that is not over 2, 4, 8, 16, 32 or 64"},
		{"1/128 in", 0, "has a fraction that is not over 2, 4, 8, 16, 32 or 64"},
		{"1/0 in", 0, "has a fraction that is not over 2, 4, 8, 16, 32 or 64"},
		{"3/2 in", 0, "has a fraction that is not under 1"},
		{"1/x in", 0, "has a fraction that cannot be read"},
		{"1/2.0 in", 0, "has a fraction that cannot be read"},
		{"4.5 ft 6 in", 0, "has a decimal or a fraction of a foot before the inches"},
		{"4 1/2 ft 6 in", 0, "has a decimal or a fraction of a foot before the inches"},
		{"4 ft 6 m", 0, "goes on after the inches"},
		{"4 ft 6 in 2", 0, "goes on after the inches"},
		{"4'6 7\"", 0, "goes on after the inches"},
		{"4' six", 0, "is not a number"},
		{"6 in 4 ft", 0, "is not a length"},
		{"1 m 20 cm", 0, "is not a length"},
		{"1,25 m", 0, "is not a length"},
		{"1.2.3", geodata.Metre, "is not a length"},
		{"5 furlongs", 0, "is not a length"},
		{"12e m", 0, "is not a length"},
		{"ten", geodata.Metre, "is not a number"},
		{"inf", geodata.Metre, "is not a number"},
		{"nan", geodata.Metre, "is not a number"},
		{"--1", geodata.Metre, "is not a number"},
		{".", geodata.Metre, "is not a number"},
		{"m", 0, "is not a number"},
		{"1e999", geodata.Metre, "is too large for a length"},
	} {
		got, err := geodata.ParseLength(c.text, c.bare)
		var e *geodata.LengthError
		require.True(t, errors.As(err, &e), c.text)
		assert.Zero(t, got, c.text)
		assert.Equal(t, c.text, e.Text)
		assert.Equal(t, c.problem, e.Problem, c.text)
		assert.Contains(t, e.Error(), `4'6"`, "the advice shows a length")
	}
}

func TestInchesBeyondAFootAreTold(t *testing.T) {
	m, note, err := geodata.ReadLength(`2' 14 1/2"`, 0)
	require.NoError(t, err)
	assert.InDelta(t, 0.97790, m, 1e-12)
	assert.Equal(t, "14.5 inches beside feet: taken as they stand", note)
	_, note, err = geodata.ReadLength(`2' 11"`, 0)
	require.NoError(t, err)
	assert.Empty(t, note)
	_, note, err = geodata.ReadLength(`38"`, 0)
	require.NoError(t, err)
	assert.Empty(t, note, "inches alone may be many")
}

// A yard is 0.9144 m (international yard and pound agreement of 1959); the foot of the
// United States' surveys is 1200/3937 m.
func TestUnits(t *testing.T) {
	for word, metres := range map[string]float64{
		"m": 1, "Metre": 1, "cm": 0.01, "MM": 0.001, "in": 0.0254, `"`: 0.0254, "ft": 0.3048, "'": 0.3048, "yd": 0.9144,
		"us survey foot": 0.30480060960121924, // 1200/3937 m
	} {
		u, ok := geodata.UnitNamed(word)
		require.True(t, ok, word)
		assert.InDelta(t, metres, float64(u), 1e-16, word)
	}
	_, ok := geodata.UnitNamed("furlong")
	assert.False(t, ok)
}

// What is printed as a length is read back as that length, to the rounding of
// the print: half a centimetre, half a quarter or an eighth of an inch.
func TestPrintedLengthsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1000, 1000).Draw(t, "metres")
		for _, c := range []struct {
			text string
			half float64
		}{
			{geodata.Metric.Length(v), 0.005},
			{geodata.Metric.Small(v), 0.0005},
			{geodata.Metric.Height(v), 0.005},
			{geodata.FeetAndInch.Length(v), 0.0254 / 8},
			{geodata.FeetAndInch.Small(v), 0.0254 / 16},
			{geodata.FeetAndInch.Height(v), 0.3048 / 200},
		} {
			back, note, err := geodata.ReadLength(c.text, 0)
			if err != nil || note != "" || math.Abs(back-v) > c.half*(1+1e-9) {
				t.Fatalf("%v printed %q read %v, %q, %v", v, c.text, back, note, err)
			}
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{`4'6"`, "4 ft 6 1/2 in", "½", "4-6", "-1e5 mm", "4'6''", "7 ⅛\"", "1/64 in", "\xff'", "4 ft ½"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := geodata.ParseLength(text, geodata.Metre)
		if math.IsNaN(v) || math.IsInf(v, 0) || err != nil && v != 0 {
			t.Fatalf("%q gave %v, %v", text, v, err)
		}
		if err == nil && math.Abs(v) < 1e6 {
			back, err := geodata.ParseLength(geodata.Metric.Length(v), 0)
			if err != nil || math.Abs(back-v) > 0.0051 {
				t.Fatalf("%q gave %v, printed and read %v, %v", text, v, back, err)
			}
		}
	})
}

func ExampleParseLength() {
	for _, text := range []string{`4'6"`, "1.25 m", "7 1/8 in", "4-6"} {
		metres, err := geodata.ParseLength(text, 0)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%.4f m\n", metres)
	}
	// Output:
	// 1.3716 m
	// 1.2500 m
	// 0.1810 m
	// "4-6" may be feet and inches or a range; write a number with its unit, such as 1.25 m or 4'6"
}
