package relief

import (
	"iter"
	"math"
)

// The fewest contours a reader can read the ground from, and the most that do
// not smother the plan. Defaults of ours.
const (
	FewestLines = 6
	MostLines   = 20
)

// mostLevels stops a slip in the interval from asking for millions of lines.
const mostLevels = 10000

// intervals are the contour intervals of the trade in millimetres, to be
// repeated at ten times, a hundred times and so on.
var intervals = [...]float64{50, 100, 250, 500}

// inchIntervals are those in feet, in inches, and feetIntervals those from a foot
// on, to be repeated in the same way.
var (
	inchIntervals = [...]float64{3, 6}
	feetIntervals = [...]float64{1, 2, 5}
)

// The international foot and inch, m, exact (1959).
const (
	foot = 0.3048
	inch = foot / 12
)

// coarsest bounds the search for an interval, in times the finest of a row.
const coarsest = 1e9

// Interval picks the contour interval in metres for ground between low and
// high (metres): the finest of .05, .1, .25, .5, 1, 2.5, 5 ... that gives no
// more than MostLines lines and is not under three times sigma, the standard
// deviation of a height in metres (0 if unknown). Ground with little relief
// may get fewer than FewestLines. It is 0 when low or high is not a number or
// high lies under low. Default of ours.
func Interval(low, high, sigma float64) float64 {
	return finest(low, high, sigma, func(yield func(float64) bool) {
		for scale := 1.0; scale < coarsest; scale *= 10 {
			for _, mm := range intervals {
				if !yield(mm * scale / 1000) {
					return
				}
			}
		}
	})
}

// IntervalInFeet is the interval, still in metres, for those who read feet and
// inches: by the same rule, the finest of 3 and 6 inches, 1, 2, 5, 10, 20 feet ...
func IntervalInFeet(low, high, sigma float64) float64 {
	return finest(low, high, sigma, func(yield func(float64) bool) {
		for _, inches := range inchIntervals {
			if !yield(inches * inch) {
				return
			}
		}
		for scale := 1.0; scale < coarsest; scale *= 10 {
			for _, feet := range feetIntervals {
				if !yield(feet * scale * foot) {
					return
				}
			}
		}
	})
}

// finest is the first of some intervals, finest first, whose lines are neither too
// many nor closer than the heights are known.
func finest(low, high, sigma float64, intervals iter.Seq[float64]) float64 {
	if !known(low) || !known(high) || high < low || math.IsInf(sigma, 0) {
		return 0
	}
	for interval := range intervals {
		first, last := span(low, high, interval)
		if last-first+1 <= MostLines && !(interval < 3*sigma) {
			return interval
		}
	}
	return 0
}

// Levels lists the multiples of interval (metres) above low and up to high. It
// is empty when there are none, when the interval is under a millimetre, or
// when there would be more than 10 000.
func Levels(low, high, interval float64) []float64 {
	if !known(low) || !known(high) || !(interval >= .001) {
		return nil
	}
	first, last := span(low, high, interval)
	if !(last-first < mostLevels) {
		return nil
	}
	var levels []float64
	for k := range int(last - first + 1) {
		// Rounding to a micrometre keeps 3 x .1 at .3.
		levels = append(levels, math.Round((first+float64(k))*interval*1e6)/1e6)
	}
	return levels
}

// span is the first multiple of interval above low and the last up to high. The
// allowance keeps .3/.1, which comes out a hair under 3, at 3.
func span(low, high, interval float64) (first, last float64) {
	const allowance = 1e-9
	return math.Floor(low/interval+allowance) + 1, math.Floor(high/interval + allowance)
}
