package erosion

import (
	"errors"
	"fmt"
	"math"
)

// ErrRange is wrapped by every refusal of a figure outside a method's range.
var ErrRange = errors.New("outside the range of the method")

// Rill says how much of the loss runs in rills, beside what splash and sheet
// flow take.
type Rill float64

// The three states of the ground for which the handbook has tables (4-1, 4-2
// and 4-3): grass and ground at rest, garden and cropland, fresh loose banks.
const (
	LowRill      Rill = 0.5
	ModerateRill Rill = 1
	HighRill     Rill = 2
)

const (
	unitPlot    = 22.13        // m, the plot that all factors are one on
	shortSlope  = 15 * 0.3048  // m, under which a run is short
	shortest    = 3 * 0.3048   // m, the first column of the tables
	longest     = 400 * 0.3048 // m, about 122: the usual limit of a run
	leastSlope  = 0.002        // first row of the tables
	mostSlope   = 0.60         // last row of the tables
	steepBranch = 0.09         // from here the second steepness line holds
	unitSteep   = 0.0896       // sine of the slope of the unit plot
)

// SlopeFactor is LS, the loss of a run of water of so many plan metres down a
// slope over that of the unit plot of 22.13 m at 9 %: Agriculture Handbook 703
// (1997), McCool and others 1987. S = 10.8 sin + 0.03 under 9 %, 16.8 sin - 0.50
// from there (the two do not meet); L = (length/22.13)^m with m from the ratio
// of rill to interrill loss.
//
// Runs under 4.57 m follow the handbook's tables 4-1 to 4-3, which are not the
// plain formula: L stays at its value for 4.57 m; under 9 % so does S; from 9 %
// on, LS at 0.91 m is that L times 3 sin^0.8 + 0.56, and between the two it goes
// in a straight line of the logarithms. Slopes under 0.2 % count as 0.2 %, runs
// over 122 m as 122 m. Over 60 %, and for what is not a length, it is ErrRange.
func SlopeFactor(slope, length float64, rill Rill) (float64, error) {
	if !(slope >= 0 && slope <= mostSlope) || !(length > 0) || math.IsInf(length, 1) || !(rill > 0) {
		return 0, fmt.Errorf("a run of %g m at a fall of %g: %w", length, slope, ErrRange)
	}
	slope, length = math.Max(slope, leastSlope), math.Min(length, longest)
	sin := math.Sin(math.Atan(slope))
	if length > shortSlope {
		return lengthFactor(sin, length, rill) * steepness(slope, sin), nil
	}
	end := lengthFactor(sin, shortSlope, rill)
	whole := end * steepness(slope, sin)
	if slope < steepBranch {
		return whole, nil
	}
	start := end * (3*math.Pow(sin, 0.8) + 0.56)
	t := math.Log(math.Max(length, shortest)/shortest) / math.Log(shortSlope/shortest)
	return math.Exp((1-t)*math.Log(start) + t*math.Log(whole)), nil
}

func steepness(slope, sin float64) float64 {
	if slope < steepBranch {
		return 10.8*sin + 0.03
	}
	return 16.8*sin - 0.50
}

func lengthFactor(sin, length float64, rill Rill) float64 {
	beta := float64(rill) * sin / unitSteep / (3*math.Pow(sin, 0.8) + 0.56)
	return math.Pow(length/unitPlot, beta/(1+beta))
}
