package plotfolder

import (
	"fmt"
	"math"
	"strings"
	"time"

	"crossfall/geodata"
)

var timeHeads = []string{"time", "date time", "datetime", "date and time", "timestamp", "start"}

// timeForms are the times that are read.
var timeForms = []string{
	"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02T15:04:05", "2006-01-02T15:04:05Z", "2006/01/02 15:04",
}

// longestStep is the longest time between readings that tells a storm, and
// mostIntervals bounds the record: 95 years of ten minutes.
const (
	longestStep   = 60 * time.Minute
	mostIntervals = 5_000_000
)

// timedRow is one reading of a logger.
type timedRow struct {
	at   time.Time
	mm   float64 // not a number: not read
	pos  geodata.Pos
	text string
}

func timeOf(text string) (time.Time, bool) {
	for _, form := range timeForms {
		if t, err := time.Parse(form, strings.TrimSpace(text)); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// intervals reads a record of equal intervals under a day, each told by the
// time at which it begins, and makes days and months of it too.
func (r rainTable) intervals(rain *geodata.Rain, at int) {
	before := r.c.problems
	r.below = "leave the cell empty where the gauge was not read"
	rows := r.timedRows(at)
	if r.c.problems > before {
		return
	}
	record, ok := r.spaced(rows)
	if !ok {
		return
	}
	t := dayTable{sums: map[[2]int]monthSum{}, starts: map[int]geodata.Pos{}}
	eachDay(record, func(day time.Time, mm float64) {
		t.take(r.c, day, rows[0].pos, "")
		if !math.IsNaN(mm) {
			t.put(day, mm)
		}
	})
	t.dropZeroYears(r.c)
	if r.c.problems > before || !r.meanMonths(rain, t.sums, t.record.First, t.last) {
		return
	}
	t.longest = gap{}
	t.tellGaps(r.c, r.File)
	rain.Daily, rain.Intervals = &t.record, record
	rain.From = fmt.Sprintf("%g-minute record from %s to %s", record.Minutes, t.record.First.Format(time.DateOnly), t.last.Format(time.DateOnly))
}

// timedRows reads the rows, in order of time.
func (r rainTable) timedRows(at int) []timedRow {
	rows := make([]timedRow, 0, len(r.Rows))
	for _, row := range r.Rows {
		cell := row.Cell(at)
		pos := r.Pos(row, cell)
		moment, known := timeOf(cell.Text)
		if !known {
			r.c.problem(pos, "time-unknown", cell.Text, "this is not a date and time that is read here", "write it as 2024-11-30 14:45")
			continue
		}
		if n := len(rows); n > 0 && !moment.After(rows[n-1].at) {
			code, said, want := "time-out-of-order", "this time comes after a later one", "put the times in order, all in the winter time of the place"
			if moment.Equal(rows[n-1].at) {
				code, said, want = "time-twice", "this time stands twice", "give each time once"
			}
			r.c.problem(pos, code, cell.Text, said, want)
			continue
		}
		one := timedRow{at: moment, mm: math.NaN(), pos: pos, text: cell.Text}
		if row.Cell(r.depth).Text != "" {
			if v, ok := r.rain(row, greatestRain(longestStep.Minutes())); ok {
				one.mm = v
			}
		}
		rows = append(rows, one)
	}
	return rows
}

// spaced puts readings at their places. Intervals that are not in the table
// were not read; where that is most of them, dry ones were likely left out, and
// the record is refused.
func (r rainTable) spaced(rows []timedRow) (*geodata.IntervalRain, bool) {
	if len(rows) < 2 {
		r.c.problem(geodata.Pos{File: r.File}, "record-too-short", "", "there are fewer than two times", rainAdvice)
		return nil, false
	}
	step := rows[1].at.Sub(rows[0].at)
	for i := 2; i < len(rows); i++ {
		step = min(step, rows[i].at.Sub(rows[i-1].at))
	}
	first := rows[0].at
	span := rows[len(rows)-1].at.Sub(first)
	switch {
	case step > longestStep:
		r.c.problem(rows[1].pos, "intervals-too-long", rows[1].text, "the times are over an hour apart", "for a daily record write the header date,mm")
		return nil, false
	case span/step >= mostIntervals:
		r.c.problem(rows[len(rows)-1].pos, "record-too-long", rows[len(rows)-1].text,
			fmt.Sprintf("there are over %d intervals of %v from the first time to this", mostIntervals, step), "check the years of both, or give longer intervals")
		return nil, false
	}
	for _, row := range rows {
		if row.at.Sub(first)%step != 0 {
			r.c.problem(row.pos, "time-off-step", row.text, fmt.Sprintf("this time is not a whole number of %v after the first", step), "give intervals of one length")
			return nil, false
		}
	}
	n := int(span/step) + 1
	if 2*len(rows) < n {
		r.c.problem(geodata.Pos{File: r.File}, "times-missing", "",
			fmt.Sprintf("only %d of the %d intervals from the first to the last are in the table", len(rows), n), "write dry intervals too, with 0")
		return nil, false
	}
	out := &geodata.IntervalRain{First: first, Minutes: step.Minutes(), MM: make([]float64, n)}
	for i := range out.MM {
		out.MM[i] = math.NaN()
	}
	for _, row := range rows {
		out.MM[row.at.Sub(first)/step] = row.mm
	}
	return out, true
}

// eachDay goes through the whole days of a record with their rain; not a number
// where part of a day was not read.
func eachDay(r *geodata.IntervalRain, day func(at time.Time, mm float64)) {
	step := time.Duration(r.Minutes * float64(time.Minute))
	of := func(i int) time.Time { return r.First.Add(time.Duration(i) * step).Truncate(24 * time.Hour) }
	perDay := int(24 * time.Hour / step)
	for i := 0; i < len(r.MM); {
		today, from, sum := of(i), i, 0.0
		for ; i < len(r.MM) && of(i).Equal(today); i++ {
			sum += r.MM[i]
		}
		if i-from < perDay {
			sum = math.NaN()
		}
		day(today, sum)
	}
}
