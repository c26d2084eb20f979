package words

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"crossfall/geodata"
)

// measured finds a figure, or two of them, with a unit in running text, and
// the words before it that make it a greatest.
var measured = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(no deeper than |no more than |at most )?\b(\d+(?:\.\d+)?)(?:( to | and | by | x | × )(\d+(?:\.\d+)?))?\s?(mm/h\b|mm/m\b|m/s\b|kg/m3\b|kg/m³|m³|m²|m3\b|m2\b|mm\b|kg\b|m\b|newtons\b)`)
})

// Prose turns the figures inside a sentence of the assessment into the
// reader's units. Units that people do not build with, such as m/s, stay.
func (w Words) Prose(t string) string { return w.prose(t, false) }

// Careful is Prose with lengths rounded up: for distances to be kept and
// depths to be reached, which rounding must not shorten. A length that must
// not be passed ("no deeper than") is rounded down.
func (w Words) Careful(t string) string { return w.prose(t, true) }

func (w Words) prose(t string, up bool) string {
	if w.Units != geodata.FeetAndInch {
		return t
	}
	return measured().ReplaceAllStringFunc(t, func(s string) string {
		m := measured().FindStringSubmatch(s)
		way := nearest
		switch {
		case up && m[1] != "":
			way = downward
		case up:
			way = upward
		}
		first, ok := w.converted(m[2], m[5], way)
		if !ok {
			return s
		}
		if m[4] == "" {
			return m[1] + first
		}
		second, _ := w.converted(m[4], m[5], way)
		return m[1] + first + m[3] + second
	})
}

// rounding is the way to round a length to parts of an inch.
type rounding int

const (
	nearest rounding = iota
	upward
	downward
)

// converted is one figure of running text in the reader's units.
func (w Words) converted(number, unit string, way rounding) (string, bool) {
	v, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return "", false
	}
	switch {
	case unit == "mm" && v < thinMillimetres:
		return w.Thin(v), true
	case unit == "mm":
		v = 1000 * way.inches(v/1000, 8)
	case unit == "m":
		v = way.inches(v, 4)
	}
	return w.inUnits(v, unit)
}

// thinMillimetres is the size under which a figure is that of a sheet of water
// or a fraction, which eighths of an inch would drown.
const thinMillimetres = 6

// inches is a length in metres brought to a whole number of parts of an inch;
// nearest leaves it to the formatting.
func (r rounding) inches(metres, perInch float64) float64 {
	inch := float64(geodata.Inch)
	parts := metres / inch * perInch
	switch r {
	case upward:
		parts = math.Ceil(parts - 1e-6)
	case downward:
		parts = math.Floor(parts + 1e-6)
	default:
		return metres
	}
	return parts / perInch * inch
}

// inUnits formats a figure whose unit has a counterpart in feet and inches.
func (w Words) inUnits(v float64, unit string) (string, bool) {
	switch unit {
	case "mm":
		return w.Small(v), true
	case "m":
		return w.Units.Length(v), true
	case "m2", "m²":
		return w.Units.Area(v), true
	case "m3", "m³":
		return w.Units.Volume(v), true
	case "kg":
		return w.Units.Mass(v), true
	case "mm/h":
		return w.rate(v), true
	case "newtons":
		return w.Push(geodata.Exactly(v)), true
	}
	return "", false
}

// Figure is a figure of the working in its own unit, to three significant
// figures; soil and compost loss to two.
func (w Words) Figure(id string, v float64, unit string) string {
	if w.Units == geodata.FeetAndInch {
		if t, ok := w.inUnits(v, unit); ok {
			return t
		}
	}
	n := 3
	if strings.Contains(id, "loss") {
		n = 2
	}
	return strings.TrimSpace(significant(v, n) + " " + unit)
}
