package plotfolder

import (
	"fmt"
	"time"

	"crossfall/geodata"
)

// mostMissing is the number of days that a month may lack and still count; a
// default of ours, as the World Meteorological Organization drops a month with
// more than ten (from memory).
const mostMissing = 3

// monthSum is the rain of one month of one year.
type monthSum struct {
	days int
	mm   float64
}

// meanMonths are the means over the complete months of a record. A month that
// lacks up to mostMissing days is scaled up to its full length.
func (r rainTable) meanMonths(rain *geodata.Rain, sums map[[2]int]monthSum, first, last time.Time) bool {
	months, counts, short := make([]float64, 12), [12]int{}, 0
	for year := first.Year(); year <= last.Year(); year++ {
		for m := range 12 {
			s, ok := sums[[2]int{year, m}]
			length := time.Date(year, time.Month(m+2), 0, 0, 0, 0, 0, time.UTC).Day()
			switch {
			case !ok:
			case length-s.days > mostMissing:
				short++
			default:
				months[m] += s.mm * float64(length) / float64(s.days)
				counts[m]++
			}
		}
	}
	fewest, total := counts[0], 0.0
	for m := range 12 {
		fewest = min(fewest, counts[m])
		if counts[m] > 0 {
			months[m] /= float64(counts[m])
		}
		total += months[m]
	}
	whole := geodata.Pos{File: r.File}
	switch {
	case fewest == 0:
		r.c.problem(whole, "record-too-short", "", "the daily record has no complete month of every name", "give at least one whole year of days")
		return false
	case total == 0:
		r.c.problem(whole, "rain-all-zero", "", "every day is zero", "give the rain of each day in mm")
		return false
	}
	if !r.believable(total) {
		return false
	}
	if short > 0 {
		r.c.note(whole, "months-left-out", fmt.Sprintf("months left out of the means because more than %d of their days are missing: %d", mostMissing, short))
	}
	rain.Monthly, rain.Years = months, float64(fewest)
	rain.From = fmt.Sprintf("daily record from %s to %s", first.Format("2006-01-02"), last.Format("2006-01-02"))
	return true
}
