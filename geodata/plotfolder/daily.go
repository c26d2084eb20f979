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

// dayOf reads a date.
func dayOf(text string) (time.Time, bool) {
	for _, form := range dateForms {
		if t, err := time.Parse(form, strings.TrimSpace(text)); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// dayTable is a daily record while it is read.
type dayTable struct {
	record  geodata.DailyRain
	sums    map[[2]int]monthSum // by year and month
	starts  map[int]geodata.Pos // first row of each year
	last    time.Time
	longest gap
}

// gap is a time without readings.
type gap struct {
	days int
	next geodata.Pos // the row after it
}

// daily reads a daily record, keeps its days and makes mean monthly totals of it.
func (r rainTable) daily(rain *geodata.Rain, at int) {
	before := r.c.problems
	r.below = "leave the cell empty where the gauge was not read"
	t := dayTable{sums: map[[2]int]monthSum{}, starts: map[int]geodata.Pos{}}
	for _, row := range r.Rows {
		cell := row.Cell(at)
		pos := r.Pos(row, cell)
		day, known := dayOf(cell.Text)
		if !known {
			r.c.problem(pos, "date-unknown", cell.Text, "this is not a date that is read here", "write it as 2024-11-30")
			continue
		}
		if !t.take(r.c, day, pos, cell.Text) {
			continue
		}
		if row.Cell(r.depth).Text == "" {
			continue // a day without a reading
		}
		if v, ok := r.rain(row, mostDailyMM); ok {
			t.put(day, v)
		}
	}
	if r.c.problems > before {
		return
	}
	t.dropZeroYears(r.c)
	if r.meanMonths(rain, t.sums, t.record.First, t.last) {
		t.tellGaps(r.c, r.File)
		rain.Daily = &t.record
	}
}

// take makes a place for a day; false with a fault where it cannot follow the
// days before it.
func (t *dayTable) take(c *collector, day time.Time, pos geodata.Pos, text string) bool {
	first := t.record.First
	switch {
	case t.last.IsZero():
		t.record.First, first = day, day
	case day.Equal(t.last):
		c.problem(pos, "date-twice", text, "this day stands twice", "give each day once")
		return false
	case day.Before(t.last):
		c.problem(pos, "date-out-of-order", text, "this day comes after a later one", "put the days in order")
		return false
	case day.After(first.AddDate(geodata.GreatestRainYears, 0, 0)):
		c.problem(pos, "record-too-long", text, fmt.Sprintf("this day is over %d years after the first, %s",
			geodata.GreatestRainYears, first.Format(time.DateOnly)), "check the years of both")
		return false
	}
	t.last = day
	n := int(day.Sub(first)/(24*time.Hour)) + 1
	if missing := n - 1 - len(t.record.MM); missing > t.longest.days {
		t.longest = gap{missing, pos}
	}
	for len(t.record.MM) < n {
		t.record.MM = append(t.record.MM, math.NaN())
	}
	if _, known := t.starts[day.Year()]; !known {
		t.starts[day.Year()] = pos
	}
	return true
}

// put books the rain of the last day taken.
func (t *dayTable) put(day time.Time, mm float64) {
	key := [2]int{day.Year(), int(day.Month()) - 1}
	s := t.sums[key]
	t.sums[key] = monthSum{s.days + 1, s.mm + mm}
	t.record.MM[len(t.record.MM)-1] = mm
}

// dryDays are the days read of a year that make one without any rain a fault
// of the record: no place where beds are made has one. A default of ours.
const dryDays = 300

// dropZeroYears takes calendar years of nothing but zeros as not read, unless
// all are so, which is told elsewhere.
func (t *dayTable) dropZeroYears(c *collector) {
	days, mm, all := map[int]int{}, map[int]float64{}, 0.0
	for key, s := range t.sums {
		days[key[0]] += s.days
		mm[key[0]] += s.mm
		all += s.mm
	}
	if all == 0 {
		return
	}
	for year := t.record.First.Year(); year <= t.last.Year(); year++ {
		if days[year] < dryDays || mm[year] > 0 {
			continue
		}
		c.warn(t.starts[year], "year-all-zero", fmt.Sprint(year), fmt.Sprintf("every day of %d is zero: the year was taken as not read", year),
			"leave the cells empty where the gauge was not read")
		for m := range 12 {
			delete(t.sums, [2]int{year, m})
		}
		place := func(year int) int {
			day := time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC)
			return min(max(int(day.Sub(t.record.First)/(24*time.Hour)), 0), len(t.record.MM))
		}
		for i := place(year); i < place(year+1); i++ {
			t.record.MM[i] = math.NaN()
		}
	}
}

// tellGaps notes the days of the record that were not read.
func (t *dayTable) tellGaps(c *collector, file string) {
	missing := 0
	for _, v := range t.record.MM {
		if math.IsNaN(v) {
			missing++
		}
	}
	if missing == 0 {
		return
	}
	pos, text := geodata.Pos{File: file}, fmt.Sprintf("days without a reading, never taken as dry: %d of %d", missing, len(t.record.MM))
	if t.longest.days > 0 {
		pos = t.longest.next
		text += fmt.Sprintf("; the longest run of days that are not in the table is %d, before this row", t.longest.days)
	}
	c.note(pos, "days-missing", text)
}
