package rain

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// The storms that are laid out step by step, minutes.
const (
	leastStep     = 0.1
	greatestStorm = 1440
)

// Hyetograph is the storm of the burst's return period that lasts so many
// minutes: the rate of rain, mm/h, in each step of so many minutes. It is laid
// out by alternating blocks, so that about its peak every duration holds its own
// design depth, or up to a hundredth more; within the wettest 5 minutes the rain is steady. The rates are
// those of the value of the depths; for the ends of the band lay them out with
// HyetographOf. Storms under 5 minutes or over a day, steps under 0.1 minutes
// or that do not divide the storm into 1 to 1440, and a burst that DesignStorms
// did not make are ErrRange.
func (b Burst) Hyetograph(minutes, step float64) ([]float64, error) {
	return b.HyetographOf(minutes, step, func(e geodata.Estimate) float64 { return e.Value })
}

// HyetographOf is Hyetograph for another end of the band: pick says which depth
// of the estimate is meant.
func (b Burst) HyetographOf(minutes, step float64, pick func(geodata.Estimate) float64) ([]float64, error) {
	n := math.Round(minutes / step)
	if b.law == nil || !(minutes >= LeastMinutes && minutes <= greatestStorm && step >= leastStep && n >= 1 && n <= mostBlocks) ||
		math.Abs(n*step-minutes) > 1e-6*minutes {
		return nil, fmt.Errorf("a storm of %g minutes in steps of %g minutes: %w", minutes, step, ErrRange)
	}
	before := 0.0
	blocks, err := AlternatingBlocks(func(m float64) float64 {
		// figures of different sources may disagree: no depth falls behind a shorter one
		d := pick(b.law.at(math.Max(m, LeastMinutes)).depth) * math.Min(1, m/LeastMinutes)
		before = math.Max(before, d)
		return before
	}, step, int(n))
	if err != nil {
		return nil, err
	}
	for i := range blocks {
		blocks[i] *= 60 / step
	}
	return blocks, nil
}
