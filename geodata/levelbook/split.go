package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// setup is the rows read from one stand of the instrument: fore is -1 when it
// was left without a foresight.
type setup struct {
	back  int
	inter []int
	fore  int
	// number counts the stands of the run from 1. A reading carried over to a
	// new page opens a setup of its own with the number of the one before.
	number int
}

// run is a chain of setups, each beginning where the one before ended.
type run struct {
	setups     []setup
	instrument Instrument
}

// open tells whether the last setup has no foresight.
func (r run) open() bool { return r.setups[len(r.setups)-1].fore < 0 }

// splitter walks over the rows of a book and builds its runs.
type splitter struct {
	book   Book
	faults *geodata.Faults
	runs   []run
	now    *run   // the run that is being booked; nil before the first
	stand  *setup // the setup that waits for its foresight; nil between setups
}

// split builds the runs of a book by the rules of booking: a run begins with a
// backsight, intersights follow, a foresight ends the setup; the next backsight
// is on the station of that foresight, else a new run begins.
func split(book Book, faults *geodata.Faults) []run {
	s := splitter{book: book, faults: faults}
	for i, row := range book.Rows {
		if s.sound(i) {
			s.row(i, row)
		}
	}
	s.endRun()
	return s.runs
}

func (s *splitter) add(severity geodata.Severity, row int, f Figure, code, message, want string) {
	s.faults.Add(geodata.Fault{
		Code: code, Severity: severity, Pos: s.book.pos(row, f), Read: s.book.Rows[row].Station, Message: message, Want: want,
	})
}

// sound refuses rows that cannot stand in any book.
func (s *splitter) sound(i int) bool {
	row := s.book.Rows[i]
	for _, f := range []Figure{row.Back, row.Inter, row.Fore, row.Level, row.Distance, row.BackSight, row.ForeSight} {
		if math.Abs(f.Value) > mostMetres || math.IsNaN(f.Value) {
			s.add(geodata.Problem, i, f, "figure-out-of-range", "this figure is out of range", "levels and distances are under 100 km")
			return false
		}
	}
	switch {
	case row.Inter.Given && (row.Back.Given || row.Fore.Given):
		s.add(geodata.Problem, i, row.Inter, "intersight-not-alone", "an intersight stands in one row with another reading", "write the other reading in a row of its own, or move the figure to its column")
		return false
	case !row.Back.Given && !row.Inter.Given && !row.Fore.Given && !row.Level.Given:
		s.add(geodata.Warning, i, Figure{}, "row-without-reading", "this row has no reading and was left out", "")
		return false
	}
	return true
}

// mostMetres bounds what a figure may be; beyond it sums lose their exactness.
const mostMetres = 1e5

func (s *splitter) row(i int, row Row) {
	if row.Inter.Given || row.Fore.Given {
		if s.stand == nil {
			f := row.Inter
			if !f.Given {
				f = row.Fore
			}
			s.add(geodata.Problem, i, f, "sight-without-backsight", "this reading has no backsight before it", "begin each stand of the instrument with a backsight")
			if row.Fore.Given && row.Back.Given {
				s.begin(i)
			}
			return
		}
	}
	switch {
	case row.Inter.Given:
		s.stand.inter = append(s.stand.inter, i)
	case row.Fore.Given:
		s.foresight(i)
		if row.Back.Given {
			s.newStand(i, len(s.now.setups)+1)
		}
	case row.Back.Given:
		s.backsight(i)
	}
}

// backsight takes a row that has only a backsight.
func (s *splitter) backsight(i int) {
	if s.stand != nil {
		s.leftOpen(i)
		s.begin(i)
		return
	}
	if s.now == nil || s.otherInstrument(i) {
		s.begin(i)
		return
	}
	last := s.now.setups[len(s.now.setups)-1]
	switch {
	case !s.same(last.fore, i):
		s.begin(i)
	case last.fore == i-1 && s.book.Rows[i-1].Fore.Value == s.book.Rows[i].Back.Value:
		s.add(geodata.Note, i, s.book.Rows[i].Back, "carried-over", "the same reading as foresight and backsight: taken as carried over to a new page, not as a new stand of the instrument", "")
		s.newStand(i, last.number)
	default:
		s.newStand(i, last.number+1)
	}
}

// otherInstrument tells whether a backsight begins a run with another instrument,
// or follows a test of the level.
func (s *splitter) otherInstrument(i int) bool {
	named := s.book.Rows[i].Instrument
	return named != s.now.instrument && (named != "" || s.now.instrument == TwoPegTest)
}

// same tells whether a foresight and a backsight are on one station. Change
// points without a number are one station when the rows follow each other.
func (s *splitter) same(fore, back int) bool {
	a, b := nameKey(s.book.Rows[fore].Station), nameKey(s.book.Rows[back].Station)
	if nameless(a) || nameless(b) {
		return a == b && back == fore+1
	}
	return a == b
}

func (s *splitter) newStand(back, number int) {
	if n := len(s.now.setups); n > 0 && number > s.now.setups[n-1].number {
		number = s.now.setups[n-1].number + 1
	}
	s.stand = &setup{back: back, fore: -1, number: number}
}

func (s *splitter) foresight(i int) {
	s.stand.fore = i
	s.now.setups = append(s.now.setups, *s.stand)
	s.stand = nil
}

// begin opens a new run at a backsight.
func (s *splitter) begin(i int) {
	s.endRun()
	s.now = &run{instrument: s.book.Rows[i].Instrument}
	s.newStand(i, 1)
}

// endRun puts the run that is being booked among the finished ones.
func (s *splitter) endRun() {
	if s.now == nil {
		return
	}
	if s.stand != nil {
		if len(s.stand.inter) > 0 || len(s.now.setups) == 0 {
			s.now.setups = append(s.now.setups, *s.stand)
		}
		if len(s.stand.inter) == 0 {
			s.add(geodata.Warning, s.stand.back, s.book.Rows[s.stand.back].Back, "backsight-alone", "nothing was read after this backsight", "")
		}
	}
	s.runs = append(s.runs, *s.now)
	s.now, s.stand = nil, nil
}

// leftOpen tells what is wrong when a backsight comes before the foresight of
// the stand before.
func (s *splitter) leftOpen(i int) {
	from := s.book.Rows[s.stand.back]
	if n := len(s.stand.inter); n > 0 && s.same(s.stand.inter[n-1], i) {
		s.add(geodata.Problem, s.stand.inter[n-1], s.book.Rows[s.stand.inter[n-1]].Inter, "intersight-then-backsight",
			"the instrument was moved after this reading, which stands as an intersight", "write the last reading before a move, or at the foot of a page, as a foresight")
		return
	}
	s.add(geodata.Warning, i, s.book.Rows[i].Back, "stand-without-foresight",
		fmt.Sprintf("the stand that began at %s has no foresight; a new run begins here", from.Station), "end each stand of the instrument with a foresight")
}
