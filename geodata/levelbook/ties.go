package levelbook

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// Method is how a row of ties was measured.
type Method string

// The methods of ties.
const (
	TapeTie       Method = "tie"
	OffsetTie     Method = "offset"
	BearingTie    Method = "bearing"
	TraverseTie   Method = "traverse"
	GridTie       Method = "grid"
	PaceTie       Method = "pace"
	WaterTubeTie  Method = "water tube"
	LineLevelTie  Method = "line level"
	AFrameTie     Method = "a-frame"
	ClinometerTie Method = "clinometer"
)

// TapeKind says how a distance was measured.
type TapeKind string

// The kinds of tape. Where none is written the tape was held level.
const (
	TapeUnsaid  TapeKind = ""
	TapeLevel   TapeKind = "level"
	TapeSlope   TapeKind = "slope"
	Paces       TapeKind = "paces"
	PacesUphill TapeKind = "paces uphill"
)

// TieRow is one row of ties. A and B hold what the method puts there: metres,
// radians, or paces.
type TieRow struct {
	Point, From, To string
	Method          Method
	A, B            Figure
	Side            Side
	Tape            TapeKind
	Rise            Figure // of the far end above the near end, metres
	Angle           Figure // of the sight or tape, radians, positive upwards
	Eye, Target     Figure // heights above the ground, metres
	Count           int    // steps of an A-frame or paces; 0 not said
	Nodes, Lines    int    // of a grid
	Serpentine      bool   // of a grid
	Note            string
	Line            int
}

// Ties are the rows of a file of ties.
type Ties struct {
	File string
	Rows []TieRow
}

// holds says what a cell of a method holds.
type holds uint8

const (
	holdsNothing holds = iota
	holdsDistance
	holdsReading // a length that is not a distance: never paced
	holdsBearing
)

// tieMethod says what the cells of a method hold and which must be filled.
type tieMethod struct {
	method   Method
	words    []string
	a, b     holds
	optional string // which of the cells a, b may be empty
	needs    []string
	means    string // what a and b are, for messages
}

var tieMethods = []tieMethod{
	{TapeTie, []string{"tape", "tape tie", "tie", "two tape", "three tape"}, holdsDistance, holdsNothing, "", []string{"point", "from"}, "a is the taped distance"},
	{OffsetTie, []string{"offset", "chainage", "chainage and offset", "chainage offset"}, holdsDistance, holdsReading, "", []string{"point", "from", "to"}, "a is the chainage, b the offset"},
	{BearingTie, []string{"bearing", "compass", "bearing and distance"}, holdsBearing, holdsDistance, "", []string{"point", "from"}, "a is the bearing, b the distance"},
	{TraverseTie, []string{"traverse"}, holdsBearing, holdsDistance, "", []string{"point", "from"}, "a is the bearing, b the distance"},
	{GridTie, []string{"grid", "grid walk"}, holdsDistance, holdsDistance, "", []string{"point", "from", "to", "side", "order"}, "a is the spacing on a line, b the spacing of the lines"},
	{PaceTie, []string{"pace", "paces", "pacing"}, holdsReading, holdsNothing, "", []string{"count"}, "a is the taped length, count the paces"},
	{WaterTubeTie, []string{"water tube", "water level", "hose"}, holdsReading, holdsReading, "", []string{"point", "from"}, "a and b are the readings of the water at from and at point"},
	{LineLevelTie, []string{"line level", "string level"}, holdsReading, holdsReading, "", []string{"point", "from"}, "a and b are the heights of the string at from and at point"},
	{AFrameTie, []string{"a frame", "aframe"}, holdsReading, holdsReading, "ab", []string{"point", "from"}, "a and b are the blocks under the foot at from and at point"},
	{ClinometerTie, []string{"clinometer", "abney", "abney level"}, holdsDistance, holdsBearing, "b", []string{"point", "from", "angle"}, "a is the distance along the sight, b the bearing if it was taken"},
}

var tieColumns = []column{
	{"point", []string{"station", "pt", "name", "peg"}, true},
	{"method", []string{"how"}, true},
	{"from", []string{"mark", "at"}, true},
	{"to", []string{"towards"}, false},
	{"a", nil, true},
	{"b", nil, false},
	{"side", nil, false},
	{"tape", nil, false},
	{"rise", nil, false},
	{"angle", nil, false},
	{"eye", []string{"eye height"}, false},
	{"target", []string{"target height"}, false},
	{"count", []string{"steps", "paces"}, false},
	{"order", []string{"walk"}, false},
	{"note", []string{"notes", "remark", "remarks", "comment"}, false},
}

// ReadTies reads a file of ties, a table with a header and one row for each
// reading. An example with every method:
//
//	point, method,     from,  to,   a,      b,     side,  tape,  rise, angle, eye, target, count, order,          note
//	P1,    tie,        shed,  ,     8.00,   ,      left,  ,      ,     ,      ,    ,       ,      ,               two tapes: the side
//	P1,    tie,        gate,  ,     6.00,   ,      ,      slope, 0.70, ,      ,    ,       ,      ,               looking from shed to gate
//	P2,    offset,     shed,  gate, 12.5,   -3.10, ,      ,      ,     ,      ,    ,       ,      ,               left positive
//	P3,    offset,     shed,  gate, 25,     5,     right, ,      ,     ,      ,    ,       ,      ,               or left and right in words
//	P4,    bearing,    shed,  ,     35.5,   24.6,  ,      slope, ,     7,     ,    ,       ,      ,               bearing and distance
//	,      pace,       ,      ,     75,     ,      ,      ,      ,     ,      ,    ,       100,   ,               100 paces are 75 m
//	P5,    bearing,    shed,  ,     120,    31,    ,      paces, ,     ,      ,    ,       ,      ,               31 paces
//	T1,    traverse,   gate,  ,     20,     14.2,  ,      ,      ,     ,      ,    ,       ,      ,               each leg from the last point
//	T2,    traverse,   T1,    ,     140,    16.0,  ,      ,      ,     ,      ,    ,       ,      ,
//	gate,  traverse,   T2,    ,     265.3,  15.1,  ,      ,      ,     ,      ,    ,       ,      ,               closes on a mark
//	G,     grid,       shed,  gate, 3,      4,     left,  ,      ,     ,      ,    ,       ,      serpentine 5x4, stations G1 to G20
//	P1,    water tube, BM1,   ,     1.482,  1.207, ,      ,      ,     ,      ,    ,       ,      ,               readings at from and point
//	P2,    line level, P1,    ,     1.400,  1.050, ,      ,      ,     ,      ,    ,       ,      ,               heights of the string
//	P3,    a-frame,    P2,    ,     0.035,  ,      ,      ,      ,     ,      ,    ,       1,     ,               block under the foot at from
//	P4,    clinometer, P1,    ,     18.2,   35.5,  ,      ,      ,     4.5,   1.6, 1.6,    ,      ,               b: bearing, may be left out
//
// point, method, from and a are required columns. A tape is level, slope, paces
// or paces uphill; nothing stands for level. The length of a slope tape is
// brought to plan by the rise or the angle in its row, else by the levels of its
// ends. For an offset that applies to the chainage; the offset is taped level.
// A bearing is in degrees ("35.5", "35-30-00", "S68-05-35W"), an angle of slope
// in degrees, percent or "1 in 12". The stations of a grid are named point
// followed by their number in the order of walking; the order is serpentine or
// raster with the stations on a line and the number of lines; side is where the
// other lines lie, looking along the first. A clinometer row with from and point
// exchanged is the sight back. Bare lengths are in the unit bare; 0 stands for
// metres.
func ReadTies(r io.Reader, file string, bare geodata.Unit) (Ties, geodata.Faults) {
	ties := Ties{File: file}
	s, faults := openSheet(r, file, tieColumns, bare)
	if s == nil {
		return ties, faults
	}
	rows := 0
	for _, row := range s.table.Rows {
		if row.Empty() {
			continue
		}
		rows++
		if t, ok := s.tieRow(row, &faults); ok {
			ties.Rows = append(ties.Rows, t)
		}
	}
	if rows == 0 {
		faults.Add(geodata.Fault{Code: "no-rows", Pos: geodata.Pos{File: file}, Message: "the file holds no ties", Want: "write one row for each reading"})
	}
	return ties, faults
}

// tieRow reads one row; ok is false when it cannot be used.
func (s *sheet) tieRow(r csvtable.Row, faults *geodata.Faults) (t TieRow, ok bool) {
	before := faults.Problems()
	m, found := methodNamed(s.text(r, "method"))
	if !found {
		f := s.fault(r, "method", "method-unknown", "this method is not known", "write tie, offset, bearing, traverse, grid, pace, water tube, line level, a-frame or clinometer")
		faults.Add(f)
		return TieRow{}, false
	}
	t = TieRow{
		Point: s.text(r, "point"), From: s.text(r, "from"), To: s.text(r, "to"), Method: m.method,
		Note: s.text(r, "note"), Line: r.Line,
	}
	for _, key := range m.needs {
		if emptyCell(s.text(r, key)) {
			faults.Add(s.fault(r, key, "cell-missing", fmt.Sprintf("a row of method %q needs %q", m.method, key), m.means))
		}
	}
	t.Side, t.Tape = s.side(r, faults), s.tape(r, faults)
	t.A = s.held(r, "a", m.a, t.Tape, faults)
	t.B = s.held(r, "b", m.b, t.Tape, faults)
	s.filled(r, m, faults)
	t.Rise, t.Angle = s.length(r, "rise", faults), s.angle(r, "angle", ParseAngle, faults)
	t.Eye, t.Target = s.length(r, "eye", faults), s.length(r, "target", faults)
	t.Count = s.count(r, faults)
	if m.method == GridTie {
		s.order(r, &t, faults)
	}
	s.senseless(r, t, faults)
	return t, faults.Problems() == before
}

func methodNamed(words string) (tieMethod, bool) {
	words = plainWords(words)
	i := slices.IndexFunc(tieMethods, func(m tieMethod) bool { return slices.Contains(m.words, words) })
	if i < 0 {
		return tieMethod{}, false
	}
	return tieMethods[i], true
}

// filled tells of cells a and b that are empty and should not be, or that hold
// what the method has no use for.
func (s *sheet) filled(r csvtable.Row, m tieMethod, faults *geodata.Faults) {
	for i, h := range []holds{m.a, m.b} {
		key := [...]string{"a", "b"}[i]
		empty := emptyCell(s.text(r, key))
		switch {
		case h == holdsNothing && !empty:
			f := s.fault(r, key, "cell-not-used", fmt.Sprintf("a row of method %q has no use for %q", m.method, key), m.means)
			f.Severity = geodata.Warning
			faults.Add(f)
		case h != holdsNothing && empty && !strings.Contains(m.optional, key):
			faults.Add(s.fault(r, key, "cell-missing", fmt.Sprintf("a row of method %q needs %q", m.method, key), m.means))
		}
	}
	if m.method == AFrameTie && emptyCell(s.text(r, "a")) && emptyCell(s.text(r, "b")) {
		faults.Add(s.fault(r, "a", "cell-missing", "an A-frame row has no block", m.means+"; write 0 when none was needed"))
	}
}

// held reads a cell that holds what the method says.
func (s *sheet) held(r csvtable.Row, key string, h holds, tape TapeKind, faults *geodata.Faults) Figure {
	switch {
	case h == holdsNothing:
		return Figure{}
	case h == holdsBearing:
		return s.angle(r, key, ParseBearing, faults)
	case h == holdsDistance && (tape == Paces || tape == PacesUphill):
		return s.number(r, key, faults)
	}
	return s.length(r, key, faults)
}

// angle reads an angle; decimal commas are understood as elsewhere in the table.
func (s *sheet) angle(r csvtable.Row, key string, parse func(string) (float64, error), faults *geodata.Faults) Figure {
	c := s.cell(r, key)
	if emptyCell(c.Text) {
		return Figure{}
	}
	text := c.Text
	if s.table.Commas == csvtable.CommaDecimal {
		text = strings.ReplaceAll(text, ",", ".")
	}
	v, err := parse(text)
	if err != nil {
		want := "write degrees, such as 35.5 or 35-30-00"
		if key == "angle" {
			want = "write degrees, such as -4.5, or 8 %, or 1 in 12"
		}
		faults.Add(s.fault(r, key, "not-an-angle", fmt.Sprintf("%q is not an angle", key), want))
		return Figure{}
	}
	return Figure{v, true, c.Col}
}

func (s *sheet) side(r csvtable.Row, faults *geodata.Faults) Side {
	switch plainWords(s.text(r, "side")) {
	case "", "-":
		return SideUnknown
	case "left", "l":
		return LeftSide
	case "right", "r":
		return RightSide
	}
	faults.Add(s.fault(r, "side", "side-unknown", "this is no side", "write left or right"))
	return SideUnknown
}

func (s *sheet) tape(r csvtable.Row, faults *geodata.Faults) TapeKind {
	switch plainWords(s.text(r, "tape")) {
	case "", "-":
		return TapeUnsaid
	case "level", "flat", "horizontal":
		return TapeLevel
	case "slope", "sloping", "on the ground", "along the ground":
		return TapeSlope
	case "paces", "pace":
		return Paces
	case "paces uphill", "uphill paces":
		return PacesUphill
	}
	faults.Add(s.fault(r, "tape", "tape-unknown", "this is no kind of tape", "write level, slope, paces or paces uphill"))
	return TapeUnsaid
}

// mostCount bounds steps and paces.
const mostCount = 100000

func (s *sheet) count(r csvtable.Row, faults *geodata.Faults) int {
	f := s.number(r, "count", faults)
	if !f.Given {
		return 0
	}
	if f.Value != math.Trunc(f.Value) || f.Value < 1 || f.Value > mostCount {
		faults.Add(s.fault(r, "count", "not-a-count", "this is no count", "write a whole number of steps or paces"))
		return 0
	}
	return int(f.Value)
}

// mostNodes bounds the stations on a line of a grid, and the lines.
const mostNodes = 500

// order reads "serpentine 5x4": stations on a line and number of lines.
func (s *sheet) order(r csvtable.Row, t *TieRow, faults *geodata.Faults) {
	text := plainWords(s.text(r, "order"))
	word := strings.TrimRight(strings.TrimSpace(strings.TrimRight(text, "0123456789 xby*×")), " ")
	size := strings.FieldsFunc(strings.TrimPrefix(text, word), func(c rune) bool { return c < '0' || c > '9' })
	t.Serpentine = word == "serpentine" || word == "to and fro"
	if (t.Serpentine || word == "raster" || word == "same way") && len(size) == 2 {
		nodes, errN := strconv.Atoi(size[0])
		lines, errL := strconv.Atoi(size[1])
		if errN == nil && errL == nil && nodes >= 1 && lines >= 1 && nodes <= mostNodes && lines <= mostNodes {
			t.Nodes, t.Lines = nodes, lines
			return
		}
	}
	if text != "" {
		faults.Add(s.fault(r, "order", "order-unknown", "this is no order of walking", "write serpentine 5x4 or raster 5x4: stations on a line and number of lines"))
	}
}

// senseless refuses figures that no measurement gives.
func (s *sheet) senseless(r csvtable.Row, t TieRow, faults *geodata.Faults) {
	for i, f := range []Figure{t.A, t.B, t.Rise, t.Eye, t.Target} {
		key := [...]string{"a", "b", "rise", "eye", "target"}[i]
		if math.Abs(f.Value) > mostMetres {
			faults.Add(s.fault(r, key, "figure-out-of-range", "this figure is out of range", "distances are under 100 km"))
		}
	}
	needPositive := func(key string, f Figure) {
		if f.Given && !(f.Value > 0) {
			faults.Add(s.fault(r, key, "distance-not-positive", "a distance is over 0", "write the distance without a sign"))
		}
	}
	switch t.Method {
	case TapeTie, PaceTie, ClinometerTie:
		needPositive("a", t.A)
	case BearingTie, TraverseTie:
		needPositive("b", t.B)
	case GridTie:
		needPositive("a", t.A)
		needPositive("b", t.B)
	case OffsetTie:
		if t.Side != SideUnknown && t.B.Value < 0 {
			faults.Add(s.fault(r, "b", "side-twice", "the offset has a sign and a side in words", "write either -3.10 or 3.10 with side right"))
		}
	}
	if t.Method == ClinometerTie && t.Eye.Given != t.Target.Given {
		faults.Add(s.fault(r, "eye", "eye-and-target", "only one of eye and target is given", "write both, or neither when they are equally high"))
	}
}
