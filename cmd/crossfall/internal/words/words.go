// Package words puts the figures of an Assessment into words, with units and
// bands, so that terminal and report say the same. It rounds and converts and
// computes nothing.
//
// Every figure carries its unit. An estimate is followed by its band in
// brackets, "184 mm (172 to 197)"; where rounding makes the three figures
// one, the band is left out. Nothing prints as minus zero.
package words

import (
	"math"
	"strconv"
	"strings"

	"crossfall/geodata"
)

// Words speaks in one system of units.
type Words struct {
	Units geodata.Units // "m" (default) or "ft"
}

// Item is a figure or finding with its name.
type Item struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// unknown stands for a figure that is not a number.
const unknown = "not known"

// fixed writes a number with so many decimals.
func fixed(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return unknown
	}
	t := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(t, "-0.") == "" {
		t = strings.TrimPrefix(t, "-")
	}
	return t
}

// significant writes a number to n significant figures, without an exponent
// for sizes that people meet.
func significant(v float64, n int) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return fixed(v, 0)
	}
	size := int(math.Floor(math.Log10(math.Abs(v))))
	if size < -5 || size > 9 {
		return strconv.FormatFloat(v, 'g', n, 64)
	}
	if decimals := n - 1 - size; decimals > 0 {
		return strings.TrimSuffix(strings.TrimRight(fixed(v, decimals), "0"), ".")
	}
	power := math.Pow(10, float64(size-n+1))
	return fixed(math.Round(v/power)*power, 0)
}

// band joins a figure with its low and high ends. A unit that all three share
// is said once.
func band(value, low, high string) string {
	if low == value && high == value {
		return value
	}
	if unit, ok := sharedUnit(value, low, high); ok {
		low, high = strings.TrimSuffix(low, unit), strings.TrimSuffix(high, unit)
	}
	return value + " (" + low + " to " + high + ")"
}

// sharedUnit is what follows the number when it is the same in all; not for
// feet and inches together, where a part alone would mislead.
func sharedUnit(texts ...string) (string, bool) {
	unit := ""
	for i, t := range texts {
		at, ok := unitAt(t)
		if !ok {
			return "", false
		}
		if u := t[at:]; i == 0 {
			unit = u
		} else if u != unit {
			return "", false
		}
	}
	return unit, unit != ""
}

// unitAt is where the unit of a figure begins.
func unitAt(t string) (at int, ok bool) {
	if at := strings.Index(t, loadUnit); at >= 0 {
		return at, true
	}
	at = strings.LastIndexAny(t, "0123456789") + 1
	return at, at > 0 && !strings.Contains(t, " ft ")
}

// of formats the three figures of an estimate alike.
func of(e geodata.Estimate, format func(float64) string) string {
	if math.IsNaN(e.Value) {
		return unknown
	}
	return band(format(e.Value), format(e.Low), format(e.High))
}

// Small is a size in millimetres.
func (w Words) Small(mm float64) string { return w.Units.Small(mm / 1000) }

// SmallBand is a size in millimetres with its band.
func (w Words) SmallBand(mm geodata.Estimate) string { return of(mm, w.Small) }

// LengthBand is a length in metres with its band.
func (w Words) LengthBand(m geodata.Estimate) string { return of(m, w.Units.Length) }

// VolumeBand is a volume in cubic metres with its band.
func (w Words) VolumeBand(m3 geodata.Estimate) string { return of(m3, w.Units.Volume) }

// MassBand is a mass in kilograms with its band.
func (w Words) MassBand(kg geodata.Estimate) string { return of(kg, w.Units.Mass) }

// Percent is a fall in percent with its band.
func (w Words) Percent(e geodata.Estimate) string {
	return of(e, func(v float64) string { return fixed(v, 1) + " %" })
}

// Flow is a flow in litres a second with its band.
func (w Words) Flow(e geodata.Estimate) string {
	if w.Units == geodata.FeetAndInch {
		return of(e.Times(60/litresInCubicFoot), func(v float64) string { return cubicFeet(v, " a minute") })
	}
	return of(e, func(v float64) string { return significant(v, 2) + " litres a second" })
}

// Push is a force in newtons with its band.
func (w Words) Push(e geodata.Estimate) string {
	if w.Units == geodata.FeetAndInch {
		return of(e.Times(1/newtonsInPoundForce), poundsOfForce)
	}
	return of(e, func(v float64) string { return significant(v, 2) + " newtons" })
}

// poundsOfForce is a force to two figures, and to a tenth under 20: pushes that
// differ by a tenth must not look alike beside a guideline.
func poundsOfForce(v float64) string {
	if v >= 10 && v < 20 {
		return significant(v, 3) + " pounds of force"
	}
	return significant(v, 2) + " pounds of force"
}

// count puts a number before a thing, "1 bed" or "3 beds".
func count(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// list joins texts as in a sentence.
func list(parts []string) string {
	switch n := len(parts); n {
	case 0:
		return ""
	case 1:
		return parts[0]
	default:
		return strings.Join(parts[:n-1], ", ") + " and " + parts[n-1]
	}
}

// sentence begins with a capital and ends with a full stop.
func sentence(t string) string {
	t = strings.TrimSpace(t)
	if t == "" {
		return ""
	}
	t = strings.ToUpper(t[:1]) + t[1:]
	if strings.HasSuffix(t, ".") || strings.HasSuffix(t, "?") {
		return t
	}
	return t + "."
}
