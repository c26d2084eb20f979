package terrain

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// LevelPercent is the fall under which ground may be called level, when the
// upper 95 % limit is under it; a default of ours.
const LevelPercent = 1.0

// FallSaid puts a fall in percent in words. Ground is "level" only when even
// the upper limit is under 1 %; a fall that the survey cannot tell is not given
// as a figure at all.
func FallSaid(percent geodata.Estimate, told bool) string {
	switch {
	case percent.High < LevelPercent:
		return fmt.Sprintf("level: under %.1f %%", math.Max(0.1, percent.High))
	case !told:
		return fmt.Sprintf("cannot tell: between %.1f and %.1f %%", percent.Low, percent.High)
	}
	return fmt.Sprintf("%.1f %% (%.1f to %.1f), 1 in %s", percent.Value, percent.Low, percent.High, oneIn(percent.Value))
}

// oneIn is n of "1 in n", to two or three figures.
func oneIn(percent float64) string {
	n := 100 / percent
	if n < 20 {
		return fmt.Sprintf("%.1f", n)
	}
	return fmt.Sprintf("%.0f", n)
}
