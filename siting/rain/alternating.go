package rain

import (
	"fmt"
	"math"
	"slices"
)

// mostBlocks bounds a storm of alternating blocks: a day in steps of a minute.
const mostBlocks = 1440

// AlternatingBlocks spreads a design storm over n steps of so many minutes so
// that every duration about its middle holds the design depth: the gains of the
// depth from step to step, the greatest at place n/2 (rounded down, counted from
// 1), the next after it, the next before it, and so on (Chow, Maidment & Mays
// 1988, section 14.4). depth gives the design depth, mm, of a duration in
// minutes. Depths that are not finite, or that fall as the duration grows, and
// other than 1 to 1440 steps are ErrRange.
func AlternatingBlocks(depth func(minutes float64) float64, minutes float64, n int) ([]float64, error) {
	if n < 1 || n > mostBlocks || !(minutes > 0) || math.IsInf(minutes, 1) {
		return nil, fmt.Errorf("%d steps of %g minutes: %w", n, minutes, ErrRange)
	}
	gains := make([]float64, n)
	before := 0.0
	for i := range gains {
		d := depth(minutes * float64(i+1))
		if !(d >= before) || math.IsInf(d, 1) {
			return nil, fmt.Errorf("%g mm in %g minutes after %g mm in the step before: %w", d, minutes*float64(i+1), before, ErrRange)
		}
		gains[i], before = d-before, d
	}
	slices.Sort(gains)
	slices.Reverse(gains)
	out := make([]float64, n)
	right := max(n/2, 1) - 1
	left := right - 1
	for i, g := range gains {
		if i == 0 || (i%2 == 1 && right < n) || left < 0 {
			out[right] = g
			right++
			continue
		}
		out[left] = g
		left--
	}
	return out, nil
}
