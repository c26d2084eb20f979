package plotfolder

import (
	"fmt"
	"math"
	"strings"
	"time"

	"crossfall/geodata"
)

// dateForms are the dates that are read: the unambiguous ones.
var dateForms = []string{"2006-01-02", "2006/01/02", "20060102", "2 January 2006", "2 Jan 2006"}

// mostMissing is the number of days that a month may lack and still count; a
// default of ours, as the World Meteorological Organization drops a month with
// more than ten (from memory).
const mostMissing = 3

// dayOf reads a date.
func dayOf(text string) (time.Time, bool) {
	for _, form := range dateForms {
		if t, err := time.Parse(form, strings.TrimSpace(text)); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// monthSum is the rain of one month of one year.
type monthSum struct {
	days int
	mm   float64
}

// daily reads a daily record, keeps its days and makes mean monthly totals of it.
func (r rainTable) daily(rain *geodata.Rain, at int) {
	before := r.c.problems
	sums := map[[2]int]monthSum{} // by year and month
	record := &geodata.DailyRain{}
	var first, last time.Time
	for _, row := range r.Rows {
		cell := row.Cell(at)
		day, known := dayOf(cell.Text)
		switch {
		case !known:
			r.c.problem(r.Pos(row, cell), "date-unknown", cell.Text, "this is not a date that is read here", "write it as 2024-11-30")
			continue
		case !last.IsZero() && day.Equal(last):
			r.c.problem(r.Pos(row, cell), "date-twice", cell.Text, "this day stands twice", "give each day once")
			continue
		case !last.IsZero() && day.Before(last):
			r.c.problem(r.Pos(row, cell), "date-out-of-order", cell.Text, "this day comes after a later one", "put the days in order")
			continue
		}
		if first.IsZero() {
			first, record.First = day, day
		}
		if day.After(first.AddDate(geodata.GreatestRainYears, 0, 0)) {
			r.c.problem(r.Pos(row, cell), "record-too-long", cell.Text,
				fmt.Sprintf("this day is over %d years after the first, %s", geodata.GreatestRainYears, first.Format(time.DateOnly)),
				"check the years of both")
			return
		}
		last = day
		for n := int(day.Sub(first)/(24*time.Hour)) + 1; len(record.MM) < n; {
			record.MM = append(record.MM, math.NaN())
		}
		if row.Cell(r.depth).Text == "" {
			continue // a day without a reading
		}
		if v, ok := r.rain(row, mostDailyMM); ok {
			key := [2]int{day.Year(), int(day.Month()) - 1}
			s := sums[key]
			sums[key] = monthSum{s.days + 1, s.mm + v}
			record.MM[len(record.MM)-1] = v
		}
	}
	if r.c.problems > before {
		return
	}
	if r.meanMonths(rain, sums, first, last) {
		rain.Daily = record
	}
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
	if short > 0 {
		r.c.note(whole, "months-left-out", fmt.Sprintf("months left out of the means because more than %d of their days are missing: %d", mostMissing, short))
	}
	rain.Monthly, rain.Years = months, float64(fewest)
	rain.From = fmt.Sprintf("daily record from %s to %s", first.Format("2006-01-02"), last.Format("2006-01-02"))
	return true
}
