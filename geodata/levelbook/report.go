package levelbook

import "crossfall/geodata"

// Report is all that a person needs to judge a book and its ties: how each run
// closed, how each station was placed and how well. Lengths are metres, angles
// radians.
type Report struct {
	Runs     []Run                `json:"runs"`
	Stations []StationLevel       `json:"stations"` // levels of the book, then those of the ties
	Assumed  bool                 `json:"level_assumed,omitempty"`
	Places   []Place              `json:"places"`
	Ties     []TieResult          `json:"ties"`
	Heights  []geodata.SpotHeight `json:"heights"`
	Checks   Tally                `json:"checks"`
}

// Tally counts the checks of a report.
type Tally struct {
	Closed    int `json:"closed"`     // sections within the allowance
	NotClosed int `json:"not_closed"` // sections beyond it, spread or not
	Unchecked int `json:"unchecked"`  // sections that close on nothing
	TiesFine  int `json:"ties_fine"`
	TiesOff   int `json:"ties_off"` // results with a check that was not passed
}

// NewReport gathers a reduction, a solution and the heights they gave.
func NewReport(red Reduction, sol Solution, heights []geodata.SpotHeight) Report {
	r := Report{
		Runs: red.Runs, Stations: append(append([]StationLevel(nil), red.Stations...), sol.Levels...),
		Assumed: red.Assumed || sol.Assumed, Places: sol.Places, Ties: sol.Results, Heights: heights,
	}
	for _, run := range red.Runs {
		for _, s := range run.Sections {
			switch s.Verdict {
			case Closed:
				r.Checks.Closed++
			case Unchecked:
				r.Checks.Unchecked++
			default:
				r.Checks.NotClosed++
			}
		}
	}
	for _, t := range sol.Results {
		if t.WithinLimit {
			r.Checks.TiesFine++
		} else {
			r.Checks.TiesOff++
		}
	}
	return r
}
