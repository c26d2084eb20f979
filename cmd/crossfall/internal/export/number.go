package export

import (
	"math"
	"strconv"
	"strings"

	"crossfall/geodata"
)

// Decimals to which files round. A billionth of a degree of latitude is 0.11 mm.
const (
	degreeDecimals = 9
	metreDecimals  = 4
)

// rounded is v to so many decimals, never minus zero.
func rounded(v float64, decimals int) float64 {
	scale := math.Pow(10, float64(decimals))
	r := math.Round(v*scale) / scale
	if r == 0 {
		return 0
	}
	return r
}

// fixed prints v with so many decimals, never as minus zero; what is not a number
// is left empty.
func fixed(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	t := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(t, "-0.") == "" {
		t = strings.TrimPrefix(t, "-")
	}
	return t
}

// inUnits are the units of a table: each length is a plain number, with its unit
// in the head of the column.
type inUnits geodata.Units

func (u inUnits) feet() bool { return geodata.Units(u) == geodata.FeetAndInch }

// long heads a column of lengths over the ground: metres or decimal feet.
func (u inUnits) long(head string) string {
	if u.feet() {
		return head + " (ft)"
	}
	return head + " (m)"
}

// metres prints a length given in metres under a head made by long, to the
// millimetre or the thousandth of a foot.
func (u inUnits) metres(m float64) string {
	if u.feet() {
		return fixed(m/float64(geodata.Foot), 3)
	}
	return fixed(m, 3)
}

// small heads a column of sizes of boards and pegs: millimetres or decimal inches.
func (u inUnits) small(head string) string {
	if u.feet() {
		return head + " (in)"
	}
	return head + " (mm)"
}

// millimetres prints a size given in millimetres under a head made by small: whole
// millimetres, or inches to an eighth, such as "7 1/8", which spreadsheets take for a
// number; "3/8" alone they would take for a date, so it is "0 3/8".
func (u inUnits) millimetres(mm float64) string {
	if !u.feet() {
		return fixed(mm, 0)
	}
	t := strings.TrimSuffix(geodata.Units(u).Small(mm/1000), " in")
	if strings.Contains(t, "/") && !strings.Contains(t, " ") {
		return "0 " + t
	}
	return t
}

// tape heads a column of lengths to be read off a tape.
func (u inUnits) tape(head string) string {
	if u.feet() {
		return head + " (ft and in)"
	}
	return head + " (m)"
}

// taped prints a length given in metres under a head made by tape.
func (u inUnits) taped(m float64) string {
	if u.feet() {
		return geodata.Units(u).Length(m)
	}
	return fixed(m, 3)
}

// said prints a size given in millimetres with its unit, for a note.
func (u inUnits) said(mm float64) string { return geodata.Units(u).Small(mm / 1000) }

// tapeSaid prints a length to be read off a tape, given in metres, with its unit.
func (u inUnits) tapeSaid(m float64) string {
	if u.feet() {
		return u.taped(m)
	}
	return u.taped(m) + " m"
}
