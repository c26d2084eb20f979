package words

import (
	"math"
	"strings"

	"crossfall/geodata"
)

const (
	// rainUnit marks a depth of rain in millimetres, which no ruler measures.
	rainUnit = "mm of rain"
	// loadUnit is of what lies on, pulls at or leaves a piece of ground.
	loadUnit = " lb on 100 square ft"
	// litresInCubicFoot and kilogramsInPound are exact: a foot is .3048 m, a pound
	// .45359237 kg.
	litresInCubicFoot = 28.316846592
	kilogramsInPound  = .45359237
	// newtonsInPoundForce is exact: standard gravity is 9.80665 m/s2.
	newtonsInPoundForce = kilogramsInPound * 9.80665
	// poundsForce is a pascal in pounds of force on 100 square feet.
	poundsForce = 100 * .3048 * .3048 / newtonsInPoundForce
	// poundsOnSquareFoot is a tonne on a hectare: 1000 kg over 10 000 m2.
	poundsOnSquareFoot = .1 / kilogramsInPound * .3048 * .3048
)

// inUnits formats a figure whose unit has a counterpart in feet and inches.
func (w Words) inUnits(v float64, unit string) (string, bool) {
	switch unit {
	case "mm":
		return w.Small(v), true
	case rainUnit:
		return w.rain(v), true
	case "mm/h":
		return w.rate(v), true
	case "m":
		return w.Units.Length(v), true
	case "m2", "m²":
		return w.Units.Area(v), true
	case "m3", "m³":
		return w.Units.Volume(v), true
	case "kg":
		return w.Units.Mass(v), true
	}
	return w.inPounds(v, unit)
}

// inPounds is inUnits for what is not a length, an area, a volume or a mass.
func (w Words) inPounds(v float64, unit string) (string, bool) {
	two := func(scale float64, unit string) (string, bool) { return significant(v*scale, 2) + unit, true }
	switch unit {
	case "newtons", "N":
		return w.Push(geodata.Exactly(v)), true
	case "litres a second", "L/s":
		return cubicFeet(v*60/litresInCubicFoot, " a minute"), true
	case "litres of water a second":
		return cubicFeet(v*60/litresInCubicFoot, " of water a minute"), true
	case "litres":
		return cubicFeet(v/litresInCubicFoot, ""), true
	case "kg/m3", "kg/m³":
		return two(.3048*.3048*.3048/kilogramsInPound, " pounds a cubic foot")
	case "pascals", "Pa":
		return two(poundsForce, loadUnit)
	case "kPa":
		return two(10*poundsForce, " pounds of force a square foot")
	case "N/mm²":
		return two(1e6*.0254*.0254/newtonsInPoundForce, " pounds of force a square inch")
	case "tonnes a hectare a year":
		return two(100*poundsOnSquareFoot, loadUnit+" a year")
	case "tonnes a hectare", "t/ha":
		return two(100*poundsOnSquareFoot, loadUnit)
	case "mm square":
		return w.Small(v) + " square", true
	}
	return "", false
}

// cubicFeet is a volume to two figures, with what follows the unit.
func cubicFeet(v float64, tail string) string {
	if t := significant(v, 2); t != "1" {
		return t + " cubic feet" + tail
	}
	return "1 cubic foot" + tail
}

// Figure is a figure of the working in its own unit, to three significant
// figures; soil and compost loss to two, and a mass of it no finer than a tenth.
func (w Words) Figure(id string, v float64, unit string) string {
	loss := strings.Contains(id, "loss") || strings.Contains(id, "at-risk")
	if loss && unit == "kg" {
		return w.risk(v)
	}
	if w.Units == geodata.FeetAndInch {
		switch {
		case unit == "mm" && strings.HasPrefix(id, "water."):
			unit = rainUnit
		case unit == "mm" && math.Abs(v) < 25.4:
			return w.Thin(v)
		}
		if t, ok := w.inUnits(v, unit); ok {
			return t
		}
	}
	n := 3
	if loss {
		n = 2
	}
	return strings.TrimSpace(significant(v, n) + " " + unit)
}
