package geodata

import (
	"fmt"
	"math"
	"strconv"
)

// Units is the system in which figures are shown to people: metres or feet and
// inches. The zero value shows metres.
type Units string

// The two systems, by the word that site.toml and --units use.
const (
	Metric      Units = "m"
	FeetAndInch Units = "ft"
)

const (
	notKnown     = "not known" // printed for what is not a number
	mostInches   = 1e8         // metres; below it parts of an inch are exact whole numbers
	inchMM       = 25.4        // millimetres, exact (1959)
	inchesInFoot = 12
	quarterInch  = 4
	eighthInch   = 8
	cubicYard    = 0.9144 * 0.9144 * 0.9144 // m³
	squareFoot   = 0.3048 * 0.3048          // m²
	poundKg      = 0.45359237               // exact, international yard and pound agreement, 1959
)

// Length prints a length of the plot given in metres: "3.60 m", or to a quarter
// of an inch "11 ft 9 3/4 in".
func (u Units) Length(metres float64) string {
	if u != FeetAndInch {
		return withUnit(metres, 2, "m")
	}
	parts, negative, ok := inchParts(metres, quarterInch)
	if !ok {
		return notKnown
	}
	feet, left := parts/(inchesInFoot*quarterInch), parts%(inchesInFoot*quarterInch)
	inches := minus(negative && feet == 0) + inchText(left, quarterInch)
	switch {
	case feet == 0:
		return inches
	case left == 0:
		return fmt.Sprintf("%s%d ft", minus(negative), feet)
	}
	return fmt.Sprintf("%s%d ft %s", minus(negative), feet, inches)
}

// Small prints a length of the size of a board or a peg, given in metres:
// "180 mm", or to an eighth of an inch "7 1/8 in".
func (u Units) Small(metres float64) string {
	if u != FeetAndInch {
		return withUnit(metres*1000, 0, "mm")
	}
	parts, negative, ok := inchParts(metres, eighthInch)
	if !ok {
		return notKnown
	}
	return minus(negative) + inchText(parts, eighthInch)
}

// Height prints a reduced level or the height of a contour, given in metres:
// "29.97 m", or as decimal feet "98.32 ft", as staffs in feet are read.
func (u Units) Height(metres float64) string {
	if u != FeetAndInch {
		return withUnit(metres, 2, "m")
	}
	return withUnit(metres/float64(Foot), 2, "ft")
}

// RainDepth prints a depth of rain given in millimetres: "112 mm", "4.41 in".
// Depths under 10 mm have one decimal.
func (u Units) RainDepth(mm float64) string {
	if u != FeetAndInch {
		return withUnit(mm, decimals(mm, 10), "mm")
	}
	return withUnit(mm/inchMM, 2, "in")
}

// Rate prints a rate of rain given in millimetres an hour: "18 mm/h",
// "0.71 in/h". Rates under 10 mm/h have one decimal.
func (u Units) Rate(mmPerHour float64) string {
	if u != FeetAndInch {
		return withUnit(mmPerHour, decimals(mmPerHour, 10), "mm/h")
	}
	return withUnit(mmPerHour/inchMM, 2, "in/h")
}

// Volume prints a volume given in cubic metres: "1.25 m³", "1.63 cubic yards".
func (u Units) Volume(m3 float64) string {
	if u != FeetAndInch {
		return withUnit(m3, 1+decimals(m3, 10), "m³")
	}
	return withUnit(m3/cubicYard, 1+decimals(m3/cubicYard, 10), "cubic yards")
}

// Area prints an area given in square metres: "4.32 m²", "46.5 square feet".
func (u Units) Area(m2 float64) string {
	if u != FeetAndInch {
		return withUnit(m2, 1+decimals(m2, 10), "m²")
	}
	return withUnit(m2/squareFoot, decimals(m2/squareFoot, 100), "square feet")
}

// Mass prints a mass given in kilograms: "740 kg", "1631 lb".
func (u Units) Mass(kg float64) string {
	if u != FeetAndInch {
		return withUnit(kg, decimals(kg, 10), "kg")
	}
	return withUnit(kg/poundKg, decimals(kg/poundKg, 10), "lb")
}

// Slope prints a gradient (rise over plan distance) as "1 in 12 (8.3 %)": the
// percentage is 100 times the gradient, n is 1 over it. A gradient flatter than
// 1 in 1000 is not told from level, nor one steeper than 20 in 1 from upright.
func Slope(gradient float64) string {
	g := math.Abs(gradient)
	switch {
	case math.IsNaN(g) || math.IsInf(g, 0):
		return notKnown
	case g < 0.001:
		return "flatter than 1 in 1000"
	case g > 20:
		return "steeper than 20 in 1" // n would print as 0.0
	}
	n := 1 / g
	return fmt.Sprintf("1 in %s (%s %%)", fixed(n, decimals(n, 10)), fixed(100*gradient, 1))
}

// decimals is 1 for figures that are printed under the limit, else 0.
func decimals(v, limit float64) int {
	if math.Abs(v) < limit-0.05 {
		return 1
	}
	return 0
}

func withUnit(v float64, decimals int, unit string) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return notKnown
	}
	return fixed(v, decimals) + " " + unit
}

// fixed prints with so many decimals and never as -0.
func fixed(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if zero, err := strconv.ParseFloat(text, 64); err == nil && zero == 0 {
		return strconv.FormatFloat(0, 'f', decimals, 64)
	}
	return text
}

func minus(negative bool) string {
	if negative {
		return "-"
	}
	return ""
}

// inchParts rounds metres to parts of an inch.
func inchParts(metres float64, perInch int) (parts int64, negative, ok bool) {
	if !(math.Abs(metres) < mostInches) { // not a number fails too
		return 0, false, false
	}
	parts = int64(math.Round(math.Abs(metres) / float64(Inch) * float64(perInch)))
	return parts, metres < 0 && parts > 0, true
}

// inchText prints parts of an inch as whole inches and a fraction in its
// lowest terms.
func inchText(parts int64, perInch int) string {
	whole, part, over := parts/int64(perInch), parts%int64(perInch), int64(perInch)
	for part > 0 && part%2 == 0 {
		part, over = part/2, over/2
	}
	switch {
	case part == 0:
		return fmt.Sprintf("%d in", whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d in", part, over)
	}
	return fmt.Sprintf("%d %d/%d in", whole, part, over)
}
