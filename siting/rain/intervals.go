package rain

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Hourly depths hide the peaks of a storm. 1.73 times as much with the peaks is
// the mean of 456 storms in China (Yin, Xie, Nearing & Wang, Catena 71, 2007);
// 1.5 to 1.7 for the year is a default of ours after it.
const (
	hourLow   = 1.5
	hourValue = 1.6
	hourHigh  = 1.73
)

// erosivityByIntervals works the erosivity of the mean year from a record of
// which so many years were read (Agriculture Handbook 703, 1997): the EI30 of all
// storms that count (erosiveStorms), added up and shared out. The value is by
// Brown & Foster, the band by the lowest and the highest of the three energy
// equations. Intervals over 30 minutes are raised for the peaks they hide. Under
// a year, and without a storm, it is ErrRange.
func erosivityByIntervals(r geodata.IntervalRain, years float64) (Erosivity, error) {
	if !(years >= 1) {
		return Erosivity{}, fmt.Errorf("a record of %.1f years, not 1 or more: %w", years, ErrRange)
	}
	record := intervalsOf(r)
	var all [3]float64
	count := 0
	for q := BrownFoster; q <= McGregor; q++ {
		storms := erosiveStorms(record, q)
		count = len(storms)
		for _, s := range storms {
			all[q] += s.EI30 / years
		}
	}
	if count == 0 {
		return Erosivity{}, fmt.Errorf("no storm of over %g mm: %w", leastStorm, ErrRange)
	}
	out := Erosivity{
		R:      geodata.Estimate{Value: all[BrownFoster], Low: min(all[0], all[1], all[2]), High: max(all[0], all[1], all[2])},
		Source: fmt.Sprintf("%d storms in %.1f years (Agriculture Handbook 703), energy by %v", count, years, BrownFoster),
	}
	if r.Minutes > 30 {
		out.R = geodata.Estimate{Value: out.R.Value * hourValue, Low: out.R.Low * hourLow, High: out.R.High * hourHigh}
		out.Notes = append(out.Notes, "times 1.6 (1.5 to 1.73) for the peaks that depths in 60 minutes hide")
	}
	if years < 20 {
		out.Notes = append(out.Notes, fmt.Sprintf("%.0f years of record: 20 or more are common practice, since years differ widely", years))
	}
	return out, nil
}

// intervalsOf is a record as times of steady rain. A time that was not read
// parts storms as a dry one does.
func intervalsOf(r geodata.IntervalRain) []Interval {
	out := make([]Interval, len(r.MM))
	for i, v := range r.MM {
		out[i] = Interval{Minutes: r.Minutes}
		if !math.IsNaN(v) {
			out[i].MM = v
		}
	}
	return out
}
