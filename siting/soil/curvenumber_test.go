package soil_test

import (
	"fmt"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TR-55 (1986), table 2-1: depth of runoff in inches for rain in inches.
func TestRunoffAgainstTheTableOfTR55(t *testing.T) {
	rain := []float64{1, 2, 3, 4, 5, 6, 8, 10}
	for number, want := range map[float64][]float64{
		60: {0, .06, .33, .76, 1.30, 1.92, 3.33, 4.90},
		70: {0, .24, .71, 1.33, 2.04, 2.81, 4.46, 6.22},
		75: {.03, .38, .96, 1.67, 2.45, 3.28, 5.04, 6.88},
		80: {.08, .56, 1.25, 2.04, 2.89, 3.78, 5.62, 7.52},
		90: {.32, 1.09, 1.98, 2.92, 3.88, 4.85, 6.81, 8.78},
		98: {.79, 1.77, 2.77, 3.77, 4.76, 5.76, 7.76, 9.76},
	} {
		for i, p := range rain {
			assert.InDelta(t, want[i], soil.Runoff(p*25.4, number)/25.4, .0051, "%g in, curve number %g", p, number)
		}
	}
}

// The equations of TR-55 in millimetres, and those that hold back a twentieth in
// place of a fifth (Hawkins et al. 2009, from memory), worked by hand: 50 mm on 74
// has S = 25400/74 - 254 = 89.24 mm, so (50 - 17.85)^2 / (50 + 71.39) = 8.515.
func TestRunoffInMillimetres(t *testing.T) {
	for _, c := range [][3]float64{
		{30, 86, 7.486}, {50, 74, 8.515}, {50, 98, 44.276}, {25, 79, 1.673}, {80, 69, 19.085}, {60, 80, 20.192}, {40, 91, 20.356}, {30, 61, 0}, {60, 74, 13.522}, {60, 86, 28.750},
		{200, 20, 9.845}, {200, 30, 9.845}, {50, 100, 44.276}, // numbers beyond 30 and 98 count as those
	} {
		assert.InDelta(t, c[2], soil.Runoff(c[0], c[1]), .001)
	}
	for _, c := range [][3]float64{{50, 61, 3.978}, {50, 74, 9.857}, {50, 86, 20.836}} {
		assert.InDelta(t, c[2], soil.RunoffEarly(c[0], c[1]), .001)
	}
}

// 23 CN / (10 + 0.13 CN) of Chow, Maidment & Mays 1988: 75 becomes 87.34 when wet.
// The National Engineering Handbook, section 4, table 10.1 (from memory) prints 88,
// and whole numbers within 1.15 of the formula from 50 up.
func TestWetCurveNumbers(t *testing.T) {
	assert.InDelta(t, 87.34, soil.WetNumber(75), .01)
	for number, table := range map[float64]float64{95: 98, 90: 96, 85: 94, 80: 91, 75: 88, 70: 85, 65: 82, 60: 78, 55: 74, 50: 70} {
		assert.InDelta(t, table, soil.WetNumber(number), 1.15)
	}
}

// TR-55 (1986), tables 2-2a to 2-2c: grass over more than three quarters of an open
// space, meadow, bare fallow, straight rows of crops in good condition, and roofs and
// paving. Which of them a cover of ours is, is a default.
func TestCurveNumbersOfCovers(t *testing.T) {
	for cover, row := range map[string][4]float64{
		"turf": {39, 61, 74, 80}, "rough grass": {30, 58, 71, 78}, "bare": {77, 86, 91, 94}, "dug": {67, 78, 85, 89},
	} {
		for i, g := range []soil.Group{soil.GroupA, soil.GroupB, soil.GroupC, soil.GroupD} {
			n, ok := soil.CurveNumber(cover, g)
			require.True(t, ok)
			assert.Equal(t, row[i], n, "%s %c", cover, g)
		}
	}
	assert.Equal(t, 98, soil.SealedNumber)
	_, ok := soil.CurveNumber("concrete", soil.GroupB)
	assert.False(t, ok)
}

// Under half an inch, 12 mm, of runoff the method is unreliable (TR-55, 1986, from
// memory): turf on sand, wet, has the number 59.5, and 12 mm run off of 86.5, by hand.
func TestALittleRainIsNotTold(t *testing.T) {
	_, _, told := soil.DayRunoff(geodata.Exactly(86.3), "turf", soil.Sand)
	assert.False(t, told)
	e, _, told := soil.DayRunoff(geodata.Exactly(86.6), "turf", soil.Sand)
	assert.True(t, told)
	assert.InDelta(t, 12, e.Value, .1)
	_, said, told := soil.DayRunoff(geodata.Estimate{Value: 20, Low: 15, High: 25}, "turf", soil.Sand)
	assert.False(t, told)
	assert.Contains(t, said, "little or none")
}

func ExampleDayRunoff() {
	e, said, told := soil.DayRunoff(geodata.Estimate{Value: 53, Low: 44, High: 63}, "turf", soil.ClayLoam)
	fmt.Printf("%.0f mm (%.0f to %.0f), %t: %s\n", e.Value, e.Low, e.High, told, said)
	// Output: 30 mm (18 to 39), true: curve number 90, wet ground of group D
}
