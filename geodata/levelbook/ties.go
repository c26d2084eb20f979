package levelbook

import (
	"fmt"
	"io"
	"slices"

	"crossfall/geodata"
)

// Method is how a row of ties was measured.
type Method string

// The methods of ties.
const (
	TapeTie       Method = "tie"
	OffsetTie     Method = "offset"
	BearingTie    Method = "bearing"
	TraverseTie   Method = "traverse"
	AngleTie      Method = "angle"
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

// HaveBearings tells whether any row holds a bearing.
func (t Ties) HaveBearings() bool {
	return slices.ContainsFunc(t.Rows, func(r TieRow) bool { _, ok := r.bearing(); return ok })
}

// bearing is the bearing of a row from its station from to point, if it has one.
func (r TieRow) bearing() (float64, bool) {
	switch r.Method {
	case BearingTie, TraverseTie:
		return r.A.Value, true
	case ClinometerTie:
		return r.B.Value, r.B.Given
	}
	return 0, false
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
	{AngleTie, []string{"angle", "turned angle", "circle"}, holdsBearing, holdsDistance, "", []string{"point", "from"}, "a is the angle turned clockwise from the station before to the point, b the distance"},
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
//	A1,    traverse,   shed,  ,     90,     12,    ,      ,      ,     ,      ,    ,       ,      ,               the first leg of a ring by its bearing
//	A2,    angle,      A1,    ,     60,     12,    ,      ,      ,     ,      ,    ,       ,      ,               angles turned on the circle of a level
//	shed,  angle,      A2,    ,     60,     12,    ,      ,      ,     ,      ,    ,       ,      ,               back on the mark
//	A1,    angle,      shed,  ,     60,     12,    ,      ,      ,     ,      ,    ,       ,      ,               the last angle: they are balanced
//	G,     grid,       shed,  gate, 3,      4,     left,  ,      ,     ,      ,    ,       ,      serpentine 5x4, stations G1 to G20
//	P1,    water tube, BM1,   ,     1.482,  1.207, ,      ,      ,     ,      ,    ,       ,      ,               readings at from and point
//	P2,    line level, P1,    ,     1.400,  1.050, ,      ,      ,     ,      ,    ,       ,      ,               heights of the string
//	P3,    a-frame,    P2,    ,     0.035,  ,      ,      ,      ,     ,      ,    ,       1,     ,               block under the foot at from
//	P4,    clinometer, P1,    ,     18.2,   35.5,  ,      ,      ,     4.5,   1.6, 1.6,    ,      ,               b: bearing or nothing
//
// point, method, from and a are required columns. A tape is level, slope, paces
// or paces uphill; nothing stands for level. The length of a slope tape is
// brought to plan by the rise or the angle in its row, else by the levels of its
// ends. For an offset that applies to the chainage; the offset is taped level.
// An angle goes on from the leg of the row before and is turned clockwise at from,
// from the station before to point. A bearing is in degrees ("35.5", "35-30-00", "S68-05-35W"), an angle of slope
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
	rows, walked := 0, 0
	for _, row := range s.table.Rows {
		if row.Empty() {
			continue
		}
		rows++
		if t, ok := s.tieRow(row, &faults); ok {
			if walked += t.Nodes * t.Lines; walked > geodata.MostHeights {
				faults.Add(s.fault(row, "order", "too-many-heights", fmt.Sprintf("the grids have over %d stations up to here", geodata.MostHeights), "walk fewer lines, further apart"))
				return ties, faults
			}
			ties.Rows = append(ties.Rows, t)
		}
	}
	if rows == 0 {
		faults.Add(geodata.Fault{Code: "no-rows", Pos: geodata.Pos{File: file}, Message: "the file holds no ties", Want: "write one row for each reading"})
	}
	return ties, faults
}

// methodNamed finds a method by the words that people write.
func methodNamed(words string) (tieMethod, bool) {
	words = plainWords(words)
	i := slices.IndexFunc(tieMethods, func(m tieMethod) bool { return slices.Contains(m.words, words) })
	if i < 0 {
		return tieMethod{}, false
	}
	return tieMethods[i], true
}
