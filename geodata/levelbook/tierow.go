package levelbook

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// tieRow reads one row; ok is false when it cannot be used.
func (s *sheet) tieRow(r csvtable.Row, faults *geodata.Faults) (t TieRow, ok bool) {
	before := faults.Problems()
	m, found := methodNamed(s.text(r, "method"))
	if !found {
		f := s.fault(r, "method", "method-unknown", "this method is not known", "write tie, offset, bearing, traverse, angle, grid, pace, water tube, line level, a-frame or clinometer")
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
	s.tooMany(r, faults)
	return t, faults.Problems() == before
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
		what, want := "a bearing", "write degrees, such as 35.5 or 35-30-00"
		if key == "angle" {
			what, want = "an angle", "write degrees, such as -4.5, or 8 %, 12.5 mm/m, or 1 in 12"
		}
		faults.Add(s.fault(r, key, "not-an-angle", fmt.Sprintf("%q is not %s", key, what), want))
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

// order reads "serpentine 5x4": stations on a line and number of lines.
func (s *sheet) order(r csvtable.Row, t *TieRow, faults *geodata.Faults) {
	text := plainWords(s.text(r, "order"))
	word := strings.TrimRight(strings.TrimSpace(strings.TrimRight(text, "0123456789 xby*×")), " ")
	size := strings.FieldsFunc(strings.TrimPrefix(text, word), func(c rune) bool { return c < '0' || c > '9' })
	t.Serpentine = word == "serpentine" || word == "to and fro"
	if (t.Serpentine || word == "raster" || word == "same way") && len(size) == 2 {
		nodes, errN := strconv.Atoi(size[0])
		lines, errL := strconv.Atoi(size[1])
		if errN == nil && errL == nil && nodes >= 1 && lines >= 1 && nodes <= geodata.MostHeights && lines <= geodata.MostHeights {
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
	if t.Method != PaceTie && nameKey(t.Point) == nameKey(t.From) && t.Point != "" {
		faults.Add(s.fault(r, "from", "from-is-point", "from and point are one station", "name the station that it was measured from"))
	}
	needPositive := func(key string, f Figure) {
		if f.Given && !(f.Value > 0) {
			faults.Add(s.fault(r, key, "distance-not-positive", "a distance is over 0", "write the distance without a sign"))
		}
	}
	switch t.Method {
	case TapeTie, PaceTie, ClinometerTie:
		needPositive("a", t.A)
	case BearingTie, TraverseTie, AngleTie:
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
