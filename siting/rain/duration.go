package rain

import (
	"errors"
	"fmt"
	"math"
)

// ErrRange is wrapped by every refusal of a figure outside a method's range.
var ErrRange = errors.New("outside the range of the method")

// The range of the rainfall ratio r over the British Isles: about 0.20 in the
// wet north-west, 0.45 in the south-east (Flood Studies Report map, from memory).
const (
	LeastRatio    = 0.20
	GreatestRatio = 0.45
)

// step is one column of a printed table.
type step struct{ minutes, value float64 }

// The five-year depths, mm, that two soakaway calculations to BRE Digest 365
// print for M5-60 minutes = 20 mm, one for each ratio. They go back to the
// Flood Studies Report (1975), volume II.
var (
	depthsRatio35 = []step{
		{5, 7.1}, {10, 10.1}, {15, 12.3}, {60, 20}, {120, 24.5},
		{240, 29.9}, {360, 33.8}, {600, 38.9}, {1440, 49.6},
	}
	depthsRatio40 = []step{
		{10, 10.4}, {15, 12.6}, {30, 16.0}, {60, 20.0}, {120, 24.2}, {240, 29.0},
		{360, 32.0}, {600, 35.8}, {1440, 44.8}, {2880, 52.4}, {5760, 61.0},
	}
)

const tabledHour = 20.0 // mm, the M5-60 minutes of both tables

// Z1 is M5-D over M5-60 minutes for the ratio r = M5-60 minutes over M5-2 days
// and D minutes (Flood Studies Report 1975, in the tables of BRE Digest 365).
// Between the printed columns it is linear in the logarithm of D, between the
// tables for r 0.35 and 0.40 linear in r, and beyond these it goes on along the
// same line as far as r 0.20 and 0.45, which is an extrapolation. D is 10 to
// 1440 minutes; at r 0.35 from 5, at r 0.40 to 5760. Outside it is ErrRange.
func Z1(r, minutes float64) (float64, error) {
	if !(r >= LeastRatio && r <= GreatestRatio) {
		return 0, fmt.Errorf("rainfall ratio %g, not %g to %g: %w", r, LeastRatio, GreatestRatio, ErrRange)
	}
	share := math.Round((r-0.35)/0.05*1e9) / 1e9 // of the second table; 0 and 1 exactly at the tables
	z := 0.0
	for _, t := range []struct {
		weight float64
		depths []step
	}{{1 - share, depthsRatio35}, {share, depthsRatio40}} {
		if t.weight == 0 {
			continue
		}
		d, ok := alongLog(t.depths, minutes)
		if !ok {
			return 0, fmt.Errorf("duration of %g minutes at rainfall ratio %g: %w", minutes, r, ErrRange)
		}
		z += t.weight * d / tabledHour
	}
	return z, nil
}

// alongLog reads a table linearly in the logarithm of the duration; ok is
// false outside the table.
func alongLog(t []step, minutes float64) (v float64, ok bool) {
	for i, s := range t {
		switch {
		case minutes == s.minutes:
			return s.value, true
		case i > 0 && t[i-1].minutes < minutes && minutes < s.minutes:
			f := math.Log(minutes/t[i-1].minutes) / math.Log(s.minutes/t[i-1].minutes)
			return t[i-1].value + f*(s.value-t[i-1].value), true
		}
	}
	return 0, false
}

// FromLonger is the depth in so many minutes from the depth in a longer or
// shorter duration by the cube-root rule of the India Meteorological
// Department (from memory): P = P' (t/t')^(1/3). It serves where no rainfall
// ratio is known; in north-west Europe it is good to about a quarter either
// way, and too high for slow winter rain. All arguments over 0.
func FromLonger(depth, fromMinutes, minutes float64) float64 {
	return depth * math.Cbrt(minutes/fromMinutes)
}
