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

// The same equations in millimetres, worked by hand.
func TestRunoffInMillimetres(t *testing.T) {
	for _, c := range [][3]float64{
		{30, 86, 7.486}, {50, 74, 8.515}, {50, 98, 44.276}, {25, 79, 1.673}, {80, 69, 19.085}, {60, 80, 20.192}, {40, 91, 20.356}, {30, 61, 0},
	} {
		assert.InDelta(t, c[2], soil.Runoff(c[0], c[1]), .001)
	}
	for _, c := range [][3]float64{{50, 61, 3.978}, {50, 74, 9.857}, {50, 86, 20.836}} {
		assert.InDelta(t, c[2], soil.RunoffEarly(c[0], c[1]), .001)
	}
}

// Chow, Maidment & Mays 1988: 75 becomes 87.34 when wet; the National
// Engineering Handbook, section 4, table 10.1 prints 88, and whole numbers within
// one of the formula from 50 up.
func TestWetCurveNumbers(t *testing.T) {
	assert.InDelta(t, 87.34, soil.WetNumber(75), .01)
	for number, table := range map[float64]float64{95: 98, 90: 96, 85: 94, 80: 91, 75: 88, 70: 85, 65: 82, 60: 78, 55: 74, 50: 70} {
		assert.InDelta(t, table, soil.WetNumber(number), 1.15)
	}
}

func TestCurveNumbersOfCovers(t *testing.T) {
	for _, cover := range []string{"turf", "rough grass", "bare", "dug"} {
		before := 0.0
		for _, g := range []soil.Group{soil.GroupA, soil.GroupB, soil.GroupC, soil.GroupD} {
			n, ok := soil.CurveNumber(cover, g)
			require.True(t, ok)
			assert.Greater(t, n, before)
			before = n
		}
	}
	n, ok := soil.CurveNumber("turf", soil.GroupB)
	assert.True(t, ok)
	assert.Equal(t, 61., n)
	_, ok = soil.CurveNumber("concrete", soil.GroupB)
	assert.False(t, ok)
}

func TestALittleRainIsNotTold(t *testing.T) {
	_, said, told := soil.DayRunoff(geodata.Estimate{Value: 20, Low: 15, High: 25}, "turf", soil.Sand)
	assert.False(t, told)
	assert.Contains(t, said, "little or none")
}

func ExampleDayRunoff() {
	e, said, told := soil.DayRunoff(geodata.Estimate{Value: 53, Low: 44, High: 63}, "turf", soil.ClayLoam)
	fmt.Printf("%.0f mm (%.0f to %.0f), %t: %s\n", e.Value, e.Low, e.High, told, said)
	// Output: 30 mm (18 to 39), true: curve number 90, wet ground of group D
}
