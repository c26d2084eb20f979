package levelbook

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/geodata"
)

// Solve places the stations of the ties from marks, and works out heights from
// the levels of a reduced book, whatever the order of the rows. A height
// measured between two stations is carried either way. Without levels the
// heights of the marks are used, and without those the first station of a
// height tie is AssumedLevel. What cannot be solved is a Problem that names the
// station that is missing. Height differences that close a loop within its
// allowance are spread over it, each by its variance, which for one instrument is
// by the number of steps; the levels of a loop beyond its allowance are marked as
// failed. A second measurement of a place checks the first and changes nothing.
func (t Ties) Solve(marks []Mark, levels []StationLevel, opt TieOptions) (Solution, geodata.Faults) {
	var faults geodata.Faults
	s := solver{ties: t, opt: opt.resolved(), faults: &faults, place: map[string]int{}, level: map[string]StationLevel{}, parent: map[string]int{}}
	s.start(marks, levels)
	s.pace()
	s.backSights()
	s.work(s.heightUnits())
	s.spreadLoops()
	s.work(s.placeUnits())
	s.plans()
	slices.SortStableFunc(s.out.Results, func(a, b TieResult) int { return cmp.Compare(a.At.Line, b.At.Line) })
	faults.Sort()
	return s.out, faults
}

// solver is a solution that is going on.
type solver struct {
	ties   Ties
	opt    TieOptions
	faults *geodata.Faults
	out    Solution
	place  map[string]int // station key to place in out.Places
	level  map[string]StationLevel
	paces  map[TapeKind]float64 // metres of a pace
	sights map[int]Rise         // of clinometer rows, by row
	rises  []rise               // that were carried or close within the allowance
	parent map[string]int       // station key to the rise that gave its level
}

// unit is some rows that are solved together. try is called until it is done;
// done is false when a station it needs is not there yet.
type unit struct {
	rows  []int
	needs func() []string // stations that are missing
	solve func()
}

// work solves units in the order of the file, again and again while any of them
// brings others within reach.
func (s *solver) work(units []unit) {
	for {
		var left []unit
		for _, u := range units {
			if len(u.needs()) > 0 {
				left = append(left, u)
				continue
			}
			u.solve()
		}
		if len(left) == 0 {
			return
		}
		if len(left) == len(units) {
			s.unsolved(left)
			return
		}
		units = left
	}
}

func (s *solver) unsolved(units []unit) {
	for _, u := range units {
		row := s.ties.Rows[u.rows[0]]
		f := s.fault(u.rows[0], geodata.Problem, "station-unknown",
			fmt.Sprintf("%s cannot be worked out: nothing is known of %s", row.Point, strings.Join(u.needs(), ", ")),
			"draw it as a mark, tie it from other marks, or check the spelling")
		s.faults.Add(f)
	}
}

func (s *solver) fault(row int, severity geodata.Severity, code, message, want string) geodata.Fault {
	r := s.ties.Rows[row]
	return geodata.Fault{Code: code, Severity: severity, Pos: s.pos(row), Read: r.Point, Message: message, Want: want}
}

func (s *solver) pos(row int) geodata.Pos {
	return geodata.Pos{File: s.ties.File, Line: s.ties.Rows[row].Line}
}

// start takes over marks and levels.
func (s *solver) start(marks []Mark, levels []StationLevel) {
	for _, m := range marks {
		key := nameKey(m.Name)
		if key == "" {
			continue
		}
		if _, twice := s.place[key]; twice {
			s.faults.Add(geodata.Fault{
				Code: "mark-twice", Severity: geodata.Warning, Pos: geodata.Pos{File: s.ties.File}, Read: m.Name,
				Message: "two marks have this name: the first was used", Want: "give each mark a name of its own",
			})
			continue
		}
		s.place[key] = len(s.out.Places)
		s.out.Places = append(s.out.Places, Place{Station: m.Name, Where: m.At, Sigma: m.Sigma, Mark: true})
		if len(levels) == 0 && m.HasHeight {
			s.level[key] = StationLevel{Station: m.Name, Level: m.Height, Given: true}
		}
	}
	for _, l := range levels {
		if key := nameKey(l.Station); !nameless(key) {
			s.level[key] = l
		}
	}
}

// missingPlaces lists the stations that have no place yet.
func (s *solver) missingPlaces(names ...string) []string {
	var out []string
	for _, n := range names {
		if _, found := s.place[nameKey(n)]; !found && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

func (s *solver) placed(name string) Place { return s.out.Places[s.place[nameKey(name)]] }

// put gives a station its place, or checks the one it has: both must agree to
// three standard deviations.
func (s *solver) put(row int, station string, res TieResult) {
	res.Station, res.WithinLimit = station, true
	res.At = s.pos(row)
	key := nameKey(station)
	at, found := s.place[key]
	if !found {
		s.place[key] = len(s.out.Places)
		s.out.Places = append(s.out.Places, Place{Station: station, Where: *res.Where, Sigma: res.Sigma, At: res.At})
		s.out.Results = append(s.out.Results, res)
		return
	}
	old := s.out.Places[at]
	apart := math.Hypot(res.Where[0]-old.Where[0], res.Where[1]-old.Where[1])
	res.Apart, res.WithinLimit = &apart, apart <= 3*math.Hypot(res.Sigma, old.Sigma)
	if !res.WithinLimit {
		s.faults.Add(s.fault(row, geodata.Warning, "place-disagrees",
			fmt.Sprintf("this puts %s %.2f m away from its place by other means, beyond the errors of both", station, apart), "measure it again; the first place was kept"))
	}
	s.out.Results = append(s.out.Results, res)
}
