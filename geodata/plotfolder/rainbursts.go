package plotfolder

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

const longestBurst = 4 * 24 * 60.0 // minutes

// greatestRain is the greatest rain ever measured in so many minutes, mm, in
// round figures: 491 mm times the 0.452th power of the hours (World
// Meteorological Organization, Guide to Hydrological Practices, from memory).
func greatestRain(minutes float64) float64 { return 491 * math.Pow(minutes/60, 0.452) }

// doubtfulHour is the 60-minute rain once in two years or more, mm, under which
// the unit is doubted, and the cube root of the duration carries it to others; a
// default of ours.
const doubtfulHour = 3.0

// bursts reads depths for short durations.
func (r rainTable) bursts(rain *geodata.Rain, minutes, years int) {
	if years < 0 {
		r.c.problem(r.headerLine(), "column-missing", r.Header.Text, "there is no column of return periods", "write the header minutes,years,mm")
		return
	}
	before, doubted := r.c.problems, false
	seen := map[[2]float64]bool{}
	r.needUnit(minutes, "minutes", "minutes", "minute", "min")
	r.needUnit(years, "years", "years", "year", "a", "y")
	for _, row := range r.Rows {
		m, okM := r.number(row, minutes, "duration in minutes", 1, longestBurst)
		y, okY := r.number(row, years, "return period in years", 0.1, 1000)
		most := greatestRain(longestBurst)
		if okM {
			most = greatestRain(m)
		}
		d, okD := r.rain(row, most)
		cell := row.Cell(r.depth)
		if okD && d == 0 {
			r.c.problem(r.Pos(row, cell), "out-of-range", cell.Text, "a storm has rain", "write its depth, or take the row out")
			okD = false
		}
		if !okM || !okY || !okD {
			continue
		}
		if !doubted && y >= 2 && d < doubtfulHour*math.Cbrt(m/60) {
			doubted = true
			r.c.warn(r.Pos(row, cell), "rain-unit-doubtful", cell.Text, fmt.Sprintf("%.3g mm is very little for %g minutes once in %g years", d, m, y),
				"if the figures are inches, say so in the header: rain (in)")
		}
		if seen[[2]float64{m, y}] {
			r.c.problem(geodata.Pos{File: r.File, Line: row.Line}, "duration-twice", row.Text, "this duration and return period stand twice", "keep one of the two")
			continue
		}
		seen[[2]float64{m, y}] = true
		rain.Bursts = append(rain.Bursts, geodata.DepthDuration{Minutes: m, ReturnYears: y, Depth: d})
	}
	if r.c.problems > before {
		rain.Bursts = nil
		return
	}
	rain.From = "depth-duration figures"
}
