package rain

import (
	"fmt"

	"crossfall/geodata"
)

// FixedDay is what a day read at a fixed hour misses: the greatest 24 hours
// are 1.13 times the greatest fixed day on average (Hershfield 1961; World
// Meteorological Organization practice, from memory). The levels of a DayFrequency are fixed days.
const FixedDay = 1.13

// daySums are the runs of days that a daily record tells depths of, with what
// a run of fixed days misses (World Meteorological Organization practice, from
// memory).
var daySums = []struct {
	days  int
	times float64
}{{1, FixedDay}, {2, 1.04}, {4, 1.03}}

// dayLevels are the depths of a daily record's winter halves at the design
// return periods.
type dayLevels struct {
	levels map[float64][]point // by return period, shortest duration first
	from   string
	why    string // why there are none, or what to know of them; empty: nothing
}

// designDays works the levels of the greatest runs of 1, 2 and 4 days of the
// winter halves. Without a record, and with one of under ten winters, there are
// none.
func designDays(r geodata.Rain, latitude *float64) dayLevels {
	if r.Daily == nil {
		return dayLevels{}
	}
	out := dayLevels{levels: map[float64][]point{}}
	for _, run := range daySums {
		f, _, err := Record(*r.Daily).Sums(run.days).WinterFrequency(latitude, FrequencyOptions{Years: stormYears[:]})
		switch {
		case err != nil && run.days == 1:
			return dayLevels{why: fmt.Sprintf("the daily record tells no design storm: %v", err)}
		case err != nil:
			continue
		case run.days == 1:
			out.from = fmt.Sprintf("%s, %s of %d winters, 95 %% bands of %d samples with seed %d",
				r.From, f.Model, f.Values, f.Samples, f.Seed)
		}
		for _, l := range f.Levels {
			out.levels[l.Years] = append(out.levels[l.Years], point{
				minutes: 1440 * float64(run.days), depth: l.Depth.Times(run.times),
				how: fmt.Sprintf("fixed days times %.2f", run.times),
			})
		}
	}
	return out
}

// law is the law of one return period, nil without levels.
func (d dayLevels) law(years float64, ratio *float64) *pointLaw {
	if len(d.levels[years]) == 0 {
		return nil
	}
	return &pointLaw{points: d.levels[years], ratio: ratio, years: years, from: d.from, band: 1, winter: true}
}
