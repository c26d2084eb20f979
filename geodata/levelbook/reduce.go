package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Reduce works out the levels of every station, by height of collimation and
// by rise and fall, checks the arithmetic, closes each run on its known points
// or on its first station, and spreads a misclosure that is within the
// allowance: the same share for each set-up, or by distance (R. Rode,
// Collimation method explained; U.S. Navy training manual NAVEDTRA 14071). All
// points read in one set-up get the same correction. A misclosure beyond the
// allowance is not spread unless the options ask for it: the levels stand as
// computed, with the misclosure in their standard deviation, and the likely
// mistakes are named.
//
// A known point need not be the first; levels are worked out from it both ways.
// Without any known level the first station is AssumedLevel. Two stands with the
// instrument TwoPegTest are no levels but test the level, and the readings of
// the others that have a length of sight are corrected by what it shows. The standard
// deviation of a level grows with the root of the set-ups from the known point,
// and within a spread section shrinks towards both ends.
func (b Book) Reduce(opt Options) (Reduction, geodata.Faults) {
	var faults geodata.Faults
	w := work{book: b, keys: b.keys(), opt: opt, faults: &faults, index: map[string]int{}}
	w.out.Stations = make([]StationLevel, 0, len(b.Rows))
	runs := w.pegTest(split(b, &faults))
	w.given()
	for i, r := range runs {
		w.run(i, r)
	}
	faults.Sort()
	return w.out, faults
}

// work is a reduction that is going on.
type work struct {
	book   Book
	keys   []string // of the stations, by row
	opt    Options
	faults *geodata.Faults
	out    Reduction
	index  map[string]int // station key to place in out.Stations
	known  int            // stations whose level was given
}

// node is a sight whose level is known before its run is reduced.
type node struct {
	i     int // in the list of sights
	level float64
	sigma float64
	given bool // else from an earlier run, or assumed
}

func (w *work) run(n int, r run) {
	opt := w.opt.resolved(r.instrument)
	list := sights(w.book, r, opt.Collimation)
	collimated(w.book, list, opt.Collimation, r, w.faults)
	res := Run{Instrument: opt.Instrument, Setups: r.setups[len(r.setups)-1].number, Open: r.open()}
	res.Sums, res.Checks = arithmetic(w.book, r, list, opt.Collimation)

	nodes, asides := w.nodes(list)
	if len(nodes)+len(asides) == 0 {
		if n > 0 || w.known > 0 {
			w.faults.Add(geodata.Fault{
				Code: "backsight-without-level", Pos: w.book.pos(list[0].row, w.book.Rows[list[0].row].Back), Read: w.book.Rows[list[0].row].Station,
				Message: "no station of the run that begins here has a level", Want: "begin a run on a known point, or on a station read before",
			})
			return
		}
		nodes = w.assume(list)
	}
	a := adjustment{book: w.book, keys: w.keys, run: r, list: list, opt: opt, faults: w.faults}
	a.adjust(nodes, asides)
	res.Datum = w.datum(list, nodes, asides)
	res.Sections = a.sections
	res.Levels = a.levels()
	res.Repeats = w.gather(a, res.Levels, nodes, asides)
	w.out.Runs = append(w.out.Runs, res)
	w.tellOpen(res, list)
}

// assume takes the first station as AssumedLevel and finds the other sights on
// it.
func (w *work) assume(list []sight) []node {
	w.out.Assumed = true
	first := w.keys[list[0].row]
	w.faults.Add(geodata.Fault{
		Code: "level-assumed", Severity: geodata.Note, Pos: w.book.pos(list[0].row, Figure{}), Read: w.book.Rows[list[0].row].Station,
		Message: fmt.Sprintf("no station has a known level: the first was taken as %.3f m", AssumedLevel),
	})
	var nodes []node
	for i, s := range list {
		if s.line() && w.keys[s.row] == first {
			nodes = append(nodes, node{i: i, level: AssumedLevel})
		}
	}
	return nodes
}

// nodes finds the sights on stations whose level is known already: those on the
// line of the run, which control it, and intersights, which only check it.
func (w *work) nodes(list []sight) (nodes, asides []node) {
	for i, s := range list {
		at, found := w.index[w.keys[s.row]]
		if !found {
			continue
		}
		st := w.out.Stations[at]
		n := node{i, st.Level, st.drift, st.Given}
		if s.line() {
			nodes = append(nodes, n)
		} else {
			asides = append(asides, n)
		}
	}
	return nodes, asides
}

// datum says where the levels of a run come from.
func (w *work) datum(list []sight, nodes, asides []node) string {
	if len(nodes) == 0 {
		nodes = asides
	}
	name := w.book.Rows[list[nodes[0].i].row].Station
	switch {
	case nodes[0].given:
		return fmt.Sprintf("%s, given as %.3f m", name, nodes[0].level)
	case w.out.Assumed && len(w.out.Runs) == 0:
		return fmt.Sprintf("%s, taken as %.3f m", name, nodes[0].level)
	}
	return fmt.Sprintf("%s, %.3f m from an earlier run", name, nodes[0].level)
}

// tellOpen warns of the parts of a run that are checked by nothing.
func (w *work) tellOpen(r Run, list []sight) {
	add := func(at geodata.Pos, read, message string) {
		w.faults.Add(geodata.Fault{
			Code: "level-book-no-closure", Severity: geodata.Warning, Pos: at, Read: read,
			Message: message, Want: "begin and end with known points, or end with a foresight on the first station",
		})
	}
	if r.Open {
		last := list[len(list)-1].row
		add(w.book.pos(last, Figure{}), w.book.Rows[last].Station, "the last reading of this run is not a foresight: its last readings are unchecked")
	}
	for i, s := range r.Sections {
		if s.Verdict == Unchecked && !(r.Open && i == len(r.Sections)-1) {
			add(s.At, s.To, fmt.Sprintf("from %s to %s the run closes on nothing: these levels are unchecked", s.From, s.To))
		}
	}
}

// given lists the stations whose level was given. When levels stand on most
// rows they are the booker's own working: only the first is then taken as
// known, and the others are compared later.
func (w *work) given() {
	written, read := 0, 0
	for _, row := range w.book.Rows {
		if row.Back.Given || row.Inter.Given || row.Fore.Given {
			read++
			if row.Level.Given {
				written++
			}
		}
	}
	working := written >= 4 && 2*written > read
	for i, row := range w.book.Rows {
		if !row.Level.Given || math.Abs(row.Level.Value) > mostMetres || math.IsNaN(row.Level.Value) {
			continue
		}
		if working && w.known > 0 {
			w.faults.Add(geodata.Fault{
				Code: "levels-on-most-rows", Severity: geodata.Warning, Pos: w.book.pos(i, row.Level),
				Message: fmt.Sprintf("levels stand on %d of %d rows: they were taken as your own working, and only the first as known", written, read),
				Want:    "to close on a known point, leave levels out where they are not known",
			})
			return
		}
		w.give(i, row)
	}
}

// give notes the given level of one row.
func (w *work) give(i int, row Row) {
	key := w.keys[i]
	if at, twice := w.index[key]; twice {
		if st := w.out.Stations[at]; math.Abs(st.Level-row.Level.Value) > exact {
			w.faults.Add(geodata.Fault{
				Code: "level-given-twice", Pos: w.book.pos(i, row.Level), Read: row.Station,
				Message: fmt.Sprintf("this level is %.3f m, but %.3f m stands in line %d", row.Level.Value, st.Level, st.At.Line), Want: "give each station one level",
			})
		}
		return
	}
	w.known++
	w.index[key] = len(w.out.Stations)
	w.out.Stations = append(w.out.Stations, StationLevel{
		Station: row.Station, Level: row.Level.Value, Sigma: w.opt.resolved("").GroundSigma,
		Given: true, Note: row.Note, At: w.book.pos(i, Figure{}),
	})
}
