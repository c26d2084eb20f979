package rain

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Shapes that are believed of daily rain, a default of ours: few long records
// have a fitted one outside them, and a bound or a heavy tail drawn from some
// tens of years is mostly chance.
const (
	leastShape    = -0.30
	greatestShape = 0.35
)

// beyondTimes is how many times the length of the record a return period may
// be before it counts as extrapolated; a default of ours.
const beyondTimes = 4

// holdShape brings a shape to what is believed of daily rain.
func holdShape(shape float64) float64 { return math.Min(math.Max(shape, leastShape), greatestShape) }

func (f *Frequency) noteHeld(shape, held float64) {
	tail := "an upper bound drawn from so few years makes rare storms too small"
	if shape > held {
		tail = "so heavy a tail drawn from so few years makes rare storms too great"
	}
	f.note("fitted shape %.2f was brought to %.2f: %s", shape, held, tail)
}

func (f *Frequency) note(format string, args ...any) {
	f.Notes = append(f.Notes, fmt.Sprintf(format, args...))
}

// levels puts levels and bands together. A band that chance has moved off its
// level is stretched to hold it, and no depth is under 0.
func (f *Frequency) levels(years []float64, bands []band, level func(float64) float64) {
	beyond := math.Inf(1)
	for i, T := range years {
		v, b := math.Max(0, level(T)), bands[i]
		l := Level{
			Years: T, Extrapolated: T > beyondTimes*f.Length,
			Depth: geodata.Estimate{Value: v, Low: math.Max(0, math.Min(b.low95, v)), High: math.Max(b.high95, v)},
			Low80: math.Max(0, math.Min(b.low80, v)), High80: math.Max(b.high80, v),
		}
		f.Levels = append(f.Levels, l)
		if l.Extrapolated {
			beyond = math.Min(beyond, T)
		}
	}
	if !math.IsInf(beyond, 1) {
		f.note("from once in %g years on the depths are extrapolated: over four times the %.0f years of record", beyond, f.Length)
	}
}

// normalBand is a value with the 95 % band of a normal distribution; a level
// under 0 mm is none.
func normalBand(value, se float64) geodata.Estimate {
	return geodata.Estimate{Value: value, Low: math.Max(0, value-1.96*se), High: value + 1.96*se}
}
