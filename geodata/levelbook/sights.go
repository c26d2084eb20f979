package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// sight is one booked level: the station where a run begins, then every
// intersight and foresight in booking order. Levels are relative to the first.
type sight struct {
	row    int
	setup  int     // number of the stand it was read from; 1 for the first station too
	place  int     // along the run: 2 x setup after a foresight, one less for an intersight, 0 first
	level  float64 // by height of collimation
	rise   float64 // from the row before, negative for a fall
	byRise float64 // level by rise and fall
	colli  float64 // height of collimation
	value  float64 // the reading, corrected for collimation error
	fore   bool    // a foresight
	first  bool
}

// line tells whether the level of the run passes through this sight.
func (s sight) line() bool { return s.fore || s.first }

// setupsTo counts the setups that lie between two sights of one run: each
// contributes one height difference of two readings.
func (s sight) setupsTo(t sight) int {
	if s.place == t.place && s.row == t.row {
		return 0
	}
	d := s.place - t.place
	if d < 0 {
		d = -d
	}
	return (d + s.place%2 + t.place%2) / 2
}

// reading is a booked figure with its correction for the error of collimation
// e: the reading less e times the length of sight.
func reading(f, length Figure, e float64) float64 { return f.Value - e*length.Value }

// sights reduces a run twice, by height of collimation and by rise and fall,
// each by its own arithmetic, from a level of 0 at the first station.
func sights(b Book, r run, e float64) []sight {
	rows := 1
	for _, s := range r.setups {
		rows += len(s.inter) + 1
	}
	out := append(make([]sight, 0, rows), sight{row: r.setups[0].back, setup: 1, first: true})
	level, byRise := 0.0, 0.0
	for _, s := range r.setups {
		back := reading(b.Rows[s.back].Back, b.Rows[s.back].BackSight, e)
		colli, before := level+back, back
		if len(out) == 1 {
			out[0].value, out[0].colli = back, colli
		}
		add := func(row int, f Figure, fore bool) {
			v := reading(f, b.Rows[row].ForeSight, e)
			t := sight{row: row, setup: s.number, place: 2*s.number - 1, colli: colli, value: v, fore: fore}
			t.rise = before - v
			byRise += t.rise
			t.byRise, t.level, before = byRise, colli-v, v
			if fore {
				t.place++
			}
			out = append(out, t)
		}
		for _, row := range s.inter {
			add(row, b.Rows[row].Inter, false)
		}
		if s.fore >= 0 {
			add(s.fore, b.Rows[s.fore].Fore, true)
			level = out[len(out)-1].level
		}
	}
	return out
}

// Check is one test of a result: two figures that should be equal.
type Check struct {
	Name  string  `json:"name"`
	Left  float64 `json:"left"`
	Right float64 `json:"right"`
	OK    bool    `json:"ok"`
}

// Sums are the totals of a run, metres.
type Sums struct {
	Back  float64 `json:"back"`
	Inter float64 `json:"inter"`
	Fore  float64 `json:"fore"`
	Rise  float64 `json:"rise"`
	Fall  float64 `json:"fall"`
}

// exact is the tolerance of the checks of the arithmetic, metres: rounding of
// thousands of additions stays far below it.
const exact = 1e-6

// arithmetic sums a run and makes the checks that textbooks ask for: sum of
// backsights less foresights, and rises less falls, against last less first;
// and, since intersights are in neither sum, the sum of all levels but the
// first against the heights of collimation times their sights less the sum of
// the sights. For a run without a last foresight the first check ends at the
// last change point.
func arithmetic(b Book, r run, list []sight, e float64) (Sums, []Check) {
	var sums Sums
	for _, s := range r.setups {
		if s.fore >= 0 {
			sums.Back += reading(b.Rows[s.back].Back, b.Rows[s.back].BackSight, e)
		}
	}
	levels, colli, lastLine := 0.0, 0.0, list[0]
	for _, s := range list[1:] {
		levels += s.level
		colli += s.colli
		if s.rise > 0 {
			sums.Rise += s.rise
		} else {
			sums.Fall -= s.rise
		}
		if s.fore {
			sums.Fore += s.value
			lastLine = s
		} else {
			sums.Inter += s.value
		}
	}
	last := list[len(list)-1]
	worst := 0.0
	for _, s := range list {
		worst = math.Max(worst, math.Abs(s.level-s.byRise))
	}
	return sums, []Check{
		check("sum of backsights less sum of foresights = last level less first level", sums.Back-sums.Fore, lastLine.byRise),
		check("sum of rises less sum of falls = last level less first level", sums.Rise-sums.Fall, last.level),
		check("sum of levels = heights of collimation times their sights, less the sights", levels, colli-sums.Inter-sums.Fore),
		check("greatest difference between height of collimation and rise and fall = 0", worst, 0),
	}
}

func check(name string, left, right float64) Check {
	return Check{name, left, right, math.Abs(left-right) <= exact*math.Max(1, math.Abs(left)/100)}
}

// collimated warns of readings that could not be corrected.
func collimated(b Book, list []sight, e float64, r run, faults *geodata.Faults) {
	if e == 0 {
		return
	}
	n, first := 0, -1
	miss := func(row int, f Figure) {
		if !f.Given {
			if n == 0 {
				first = row
			}
			n++
		}
	}
	for _, s := range r.setups {
		miss(s.back, b.Rows[s.back].BackSight)
	}
	for _, s := range list[1:] {
		miss(s.row, b.Rows[s.row].ForeSight)
	}
	if n > 0 {
		faults.Add(geodata.Fault{
			Code: "sight-length-missing", Severity: geodata.Warning, Pos: b.pos(first, Figure{}),
			Message: fmt.Sprintf("%d readings from here on have no length of sight and were not corrected for the tilt of the line of sight", n),
			Want:    "write the lengths in the columns back length and fore length",
		})
	}
}
