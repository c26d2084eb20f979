package plotfolder

import (
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// What rain.csv may hold, told by its headers.
const rainAdvice = "write the header month,mm with twelve rows; or minutes,years,mm; or date,mm; or time,mm"

var (
	monthHeads  = []string{"month", "mon"}
	minuteHeads = []string{"minutes", "minute", "min", "duration", "duration minutes"}
	returnHeads = []string{"years", "return years", "return period", "return period years", "t"}
	dateHeads   = []string{"date", "day"}
	depthHeads  = []string{"rain", "rainfall", "depth", "precipitation", "amount", "total", "mm", "in", "inch", "inches"}
	mostMonth   = 10000.0 // mm in one month; the wettest on record is under this
	mostDailyMM = 2000.0  // the wettest day on record, La Reunion 1966, was 1825 mm (from memory)
)

// rainTable is rain.csv with its columns found.
type rainTable struct {
	*csvtable.Table
	c     *collector
	depth int
	unit  float64 // mm in one unit of the depth column
	below string  // what to do about a figure under its range; empty: check it
}

// readRain reads rain.csv: twelve monthly means, depths for short durations, a
// daily record or one of shorter intervals, whichever its headers say.
func readRain(f *file, c *collector) geodata.Rain {
	t, faults := csvtable.Read(f.name, f.data)
	if t == nil {
		c.addAll(faults)
		return geodata.Rain{}
	}
	c.addAll(t.Notes)
	whole := geodata.Pos{File: f.name}
	switch {
	case t.Header == nil:
		c.problem(geodata.Pos{File: f.name, Line: t.Rows[0].Line}, "no-header", t.Rows[0].Text, "there is no header row", rainAdvice)
		return geodata.Rain{}
	case len(t.Rows) == 0:
		c.problem(whole, "no-rows", "", "there are no rows below the header", rainAdvice)
		return geodata.Rain{}
	}
	r := rainTable{Table: t, c: c, depth: depthColumn(t)}
	if !r.settleUnit() {
		return geodata.Rain{}
	}
	rain := geodata.Rain{Source: whole}
	switch {
	case r.column(monthHeads) >= 0:
		r.monthly(&rain, r.column(monthHeads))
	case r.column(minuteHeads) >= 0:
		r.bursts(&rain, r.column(minuteHeads), r.column(returnHeads))
	case r.column(timeHeads) >= 0:
		r.intervals(&rain, r.column(timeHeads))
	case r.column(dateHeads) >= 0:
		r.daily(&rain, r.column(dateHeads))
	default:
		c.problem(geodata.Pos{File: f.name, Line: t.Header.Line}, "rain-columns-unknown", t.Header.Text,
			"the header does not say whether these are months, durations, days or times", rainAdvice)
	}
	return rain
}

// depthColumn is the column of depths; -1 without one.
func depthColumn(t *csvtable.Table) int {
	for i, title := range t.Titles() {
		if slices.Contains(depthHeads, title.Name) {
			return i
		}
	}
	return -1
}

// column finds a column by its heads; -1 without one.
func (r rainTable) column(heads []string) int {
	return slices.IndexFunc(r.Titles(), func(t csvtable.Title) bool { return slices.Contains(heads, t.Name) })
}

// number reads a cell that must be a number from low to high.
func (r rainTable) number(row csvtable.Row, at int, what string, low, high float64) (float64, bool) {
	cell := row.Cell(at)
	pos := r.Pos(row, cell)
	if cell.Text == "" {
		r.c.problem(geodata.Pos{File: r.File, Line: row.Line}, "row-short", row.Text, "the row has no "+what, "give it, or take the row out")
		return 0, false
	}
	v, err := r.Number(cell)
	if err != nil {
		problem, want := "is not a number", "write a number, such as 84"
		if e, ok := err.(*csvtable.NumberError); ok {
			problem, want = e.Problem, e.Want
		}
		r.c.problem(pos, "not-a-number", cell.Text, "the "+what+" "+problem, want)
		return 0, false
	}
	if v < low || v > high {
		want := "check the figure and its unit"
		if v < low && r.below != "" {
			want = r.below
		}
		r.c.problem(pos, "out-of-range", cell.Text, fmt.Sprintf("the %s must lie from %g to %.5g", what, low, high), want)
		return 0, false
	}
	return v, true
}

// rain reads the depth of a row in mm.
func (r rainTable) rain(row csvtable.Row, most float64) (float64, bool) {
	v, ok := r.number(row, r.depth, "rain", 0, most/r.unit)
	return v * r.unit, ok
}

// headerLine is the place of the header.
func (r rainTable) headerLine() geodata.Pos { return geodata.Pos{File: r.File, Line: r.Header.Line} }

// needUnit refuses a column whose header names another unit than the one that
// its figures are read in.
func (r rainTable) needUnit(at int, want string, names ...string) {
	title := r.Titles()[at]
	if title.Unit != "" && !slices.Contains(names, title.Unit) {
		r.c.problem(r.Pos(*r.Header, title.Cell), "unit-unknown", title.Cell.Text, fmt.Sprintf("%q is not read here", title.Unit), "give "+want)
	}
}

// monthNames are the months as people write them.
var monthNames = []string{
	"january", "february", "march", "april", "may", "june",
	"july", "august", "september", "october", "november", "december",
}

// monthOf reads a month's name, its first three letters or its number, 0 for
// January; -1 when it is none.
func monthOf(text string) int {
	text = strings.ToLower(strings.Trim(strings.TrimSpace(text), "."))
	for i, name := range monthNames {
		if text == name || len(text) >= 3 && strings.HasPrefix(name, text) || text == fmt.Sprint(i+1) || text == fmt.Sprintf("%02d", i+1) {
			return i
		}
	}
	return -1
}

// monthly reads twelve monthly means.
func (r rainTable) monthly(rain *geodata.Rain, at int) {
	before := r.c.problems
	months, seen := make([]float64, 12), [12]bool{}
	for _, row := range r.Rows {
		cell := row.Cell(at)
		m := monthOf(cell.Text)
		v, ok := r.rain(row, mostMonth)
		switch {
		case m < 0:
			r.c.problem(r.Pos(row, cell), "month-unknown", cell.Text, "this is not a month", "write January or 1, and so on to December or 12")
		case seen[m]:
			r.c.problem(r.Pos(row, cell), "month-twice", cell.Text, "this month stands twice", "give each month once")
		case ok:
			months[m] = v
		}
		if m >= 0 {
			seen[m] = true
		}
	}
	total := 0.0
	for m := range months {
		total += months[m]
		if !seen[m] {
			r.c.problem(geodata.Pos{File: r.File}, "month-missing", "", "there is no rain for "+strings.ToUpper(monthNames[m][:1])+monthNames[m][1:], "give all twelve months")
		}
	}
	if r.c.problems > before {
		return
	}
	if total == 0 {
		r.c.problem(geodata.Pos{File: r.File}, "rain-all-zero", "", "every month is zero", "give the mean rain of each month in mm")
		return
	}
	if r.believable(total) {
		rain.Monthly, rain.From = months, "monthly means"
	}
}
