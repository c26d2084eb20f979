package soil

import (
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
)

// ErrRange is wrapped by every refusal of a figure outside a method's range.
var ErrRange = errors.New("outside the range of the method")

const (
	// leastConcentration is the shortest time worked with, s: TR-55 (1986) has 6
	// minutes, from memory; 5 is the shortest rain that is tabled.
	leastConcentration = 300.0
	// longestKerby is the longest run that Kerby's formula was drawn from, m; from
	// memory.
	longestKerby = 365.0
)

// kerbyNumbers are the retardance numbers of Kerby 1959, Civil Engineering
// 29:174, by cover: dense grass .80, pasture .40, rough bare ground and row crops
// .20, smooth bare ground .10, with the neighbouring one at either end.
var kerbyNumbers = map[string]geodata.Estimate{
	"turf":        {Value: .40, Low: .20, High: .80},
	"rough grass": {Value: .80, Low: .40, High: .80},
	"bare":        {Value: .10, Low: .10, High: .20},
	"dug":         {Value: .20, Low: .10, High: .40},
}

// Concentration is the time, s, after which the whole of a slope sends water to
// its foot in steady rain (mm/h): the middle of the kinematic wave and Kerby's
// formula, in a band from the shorter to the longer of them at the ends of the
// roughness, and never under 5 minutes. Formulas for stream basins (Kirpich 1940,
// from 0.4 to 45 ha) are not used: at the size of a plot they mean nothing. Under a
// fall of 1 in 500 that fall counts. Runs over 365 m, and what is not over 0, are
// ErrRange; a cover that the tables lack counts as turf.
func Concentration(length, slope, rate float64, cover string) (geodata.Estimate, error) {
	if !(length > 0 && length <= longestKerby && slope >= 0 && slope <= 1 && rate > 0) || math.IsInf(rate, 1) {
		return geodata.Estimate{}, fmt.Errorf("%g m at a fall of %g in %g mm an hour: %w", length, slope, rate, ErrRange)
	}
	slope = math.Max(slope, leastSlope)
	kerbyNumber, known := kerbyNumbers[cover]
	if !known {
		kerbyNumber = kerbyNumbers["turf"]
	}
	c, _ := coverNamed(cover)
	n := c.roughness
	times := func(n, number float64) (a, b float64) {
		return waveTime(n, length, rate, slope), kerby(number, length, slope)
	}
	a, b := times(n.Value, kerbyNumber.Value)
	c1, d1 := times(n.Low, kerbyNumber.Low)
	c2, d2 := times(n.High, kerbyNumber.High)
	floor := func(t float64) float64 { return math.Max(leastConcentration, t) }
	return geodata.Estimate{Value: floor((a + b) / 2), Low: floor(math.Min(c1, d1)), High: floor(math.Max(c2, d2))}, nil
}

// waveTime is the time to even flow on a plane, s: length over the speed of the
// wave at its foot, t = (n L)^0.6 / (i^0.4 S^0.3), all in metres and seconds.
func waveTime(n, length, rate, slope float64) float64 {
	return math.Pow(n*length, 0.6) / (math.Pow(rate/3.6e6, 0.4) * math.Pow(slope, 0.3))
}

// kerby is Kerby's time, s: 1.44 (L N / sqrt S)^0.467 minutes.
func kerby(number, length, slope float64) float64 {
	return 60 * 1.44 * math.Pow(length*number/math.Sqrt(slope), 0.467)
}
