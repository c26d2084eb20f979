package levelbook

import (
	"fmt"
	"io"
	"math"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// Row is one line of a level book. Readings and levels are metres; a reading
// on an inverted staff is negative.
type Row struct {
	Station           string
	Back, Inter, Fore Figure
	Level             Figure // the reduced level, where it is known
	Distance          Figure // running distance along the line from its first station
	BackSight         Figure // from the instrument to the staff, for the backsight
	ForeSight         Figure // the same for the intersight or foresight
	Instrument        Instrument
	Note              string
	Line              int // in the file; 0 when the row was not read from one
}

// Book is a level book: one or more runs of levels in the order of booking.
type Book struct {
	File string
	Rows []Row
}

// longestStaff is the longest staff on sale, with some play: a longer reading
// is most likely in another unit (default of ours), metres.
const longestStaff = 5.5

var levelColumns = []column{
	{"station", []string{"point", "pt", "name", "id", "peg", "staff station", "staff position", "no"}, true},
	{"back", []string{"bs", "b s", "backsight", "back sight"}, true},
	{"inter", []string{"is", "i s", "intersight", "inter sight", "intermediate", "intermediate sight"}, false},
	{"fore", []string{"fs", "f s", "foresight", "fore sight"}, false},
	{"level", []string{"rl", "r l", "reduced level", "known level", "benchmark", "bench mark"}, false},
	{"distance", []string{"dist", "chainage", "running distance"}, false},
	{"back length", []string{"back distance", "bs length", "bs distance", "backsight length", "backsight distance"}, false},
	{"fore length", []string{"fore distance", "fs length", "fs distance", "foresight length", "foresight distance"}, false},
	{"instrument", []string{"method"}, false},
	{"note", []string{"notes", "remark", "remarks", "comment"}, false},
}

// ReadLevels reads a level book, a table with a header:
//
//	station, back, inter, fore, level, distance, note
//	BM1,     1.216, ,     ,     106.366, 0,
//	P1,      ,    0.025, ,      ,        ,      by the gate
//	P3,      1.386, ,     2.508, ,       30,
//	BM1,     ,     ,      0.484, ,       60,
//
// station and back are required. Further headers are understood: BS, IS, FS,
// backsight and so on, RL for level, remark for note; a unit may stand in the
// header, as in "back (ft)". The running distance is from the first station of
// the run. Optional columns are "back length" and "fore length", the lengths of
// sight, and "instrument" (level, water tube, line level, A-frame), which is
// written in the first row of a run; "two-peg test" in both backsights of a test
// of the level. A change point is one row with fore and
// back, or two rows of one station. Bare numbers are in the unit bare where the
// header names none; 0 stands for metres. The faults hold every cell that could
// not be read, with its place.
func ReadLevels(r io.Reader, file string, bare geodata.Unit) (Book, geodata.Faults) {
	book := Book{File: file}
	s, faults := openSheet(r, file, levelColumns, bare)
	if s == nil {
		return book, faults
	}
	book.Rows = make([]Row, 0, len(s.table.Rows))
	for _, row := range s.table.Rows {
		if !row.Empty() {
			book.Rows = append(book.Rows, s.levelRow(row, &faults))
		}
	}
	if len(book.Rows) == 0 {
		faults.Add(geodata.Fault{Code: "no-rows", Pos: geodata.Pos{File: file}, Message: "the book holds no rows", Want: "write one row for each station"})
	}
	return book, faults
}

func (s *sheet) levelRow(r csvtable.Row, faults *geodata.Faults) Row {
	row := Row{
		Station:   s.text(r, "station"),
		Back:      s.length(r, "back", faults),
		Inter:     s.length(r, "inter", faults),
		Fore:      s.length(r, "fore", faults),
		Level:     s.length(r, "level", faults),
		Distance:  s.length(r, "distance", faults),
		BackSight: s.length(r, "back length", faults),
		ForeSight: s.length(r, "fore length", faults),
		Note:      s.text(r, "note"),
		Line:      r.Line,
	}
	if row.Station == "" {
		faults.Add(s.fault(r, "station", "station-missing", "the station has no name", "give each station a name; CP does for a change point"))
	}
	if words := s.text(r, "instrument"); words != "" {
		known := false
		if row.Instrument, known = InstrumentNamed(words); !known || row.Instrument == ByClinometer {
			faults.Add(s.fault(r, "instrument", "instrument-unknown", "this instrument is not known for a level book", "write level, water tube, line level, A-frame or two-peg test"))
			row.Instrument = ""
		}
	}
	s.doubtReading(r, "back", row.Back, faults)
	s.doubtReading(r, "inter", row.Inter, faults)
	s.doubtReading(r, "fore", row.Fore, faults)
	s.tooMany(r, faults)
	return row
}

// doubtReading warns of a reading beyond the longest staff.
func (s *sheet) doubtReading(r csvtable.Row, key string, read Figure, faults *geodata.Faults) {
	v := read.Value
	if math.Abs(v) <= longestStaff {
		return
	}
	f := s.fault(r, key, "reading-beyond-staff", fmt.Sprintf("a reading of %.3f m is longer than any staff", v), "name the unit in the header, as in \"back (cm)\", or mend the reading")
	f.Severity = geodata.Warning
	faults.Add(f)
}

// pos is the place of a figure of a row, or of the whole row.
func (b Book) pos(row int, f Figure) geodata.Pos {
	return geodata.Pos{File: b.File, Line: b.Rows[row].Line, Col: f.Col}
}

// keys are what identifies the station of each row. Unnumbered change points
// (CP, TP) are all different stations.
func (b Book) keys() []string {
	out := make([]string, len(b.Rows))
	for i, row := range b.Rows {
		if out[i] = nameKey(row.Station); nameless(out[i]) {
			out[i] = fmt.Sprintf("\x00%d", i)
		}
	}
	return out
}

// nameless tells whether a name is only the word for a change point.
func nameless(key string) bool {
	switch key {
	case "", "cp", "tp", "c.p.", "t.p.", "change point", "turning point":
		return true
	}
	return false
}
