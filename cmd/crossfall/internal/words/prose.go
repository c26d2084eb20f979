package words

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"crossfall/geodata"
)

// measured finds a figure, or two of them, with a unit in running text; before
// it the words that make it a greatest, after it its band in brackets, or the
// words that make it a depth of rain.
var measured = sync.OnceValue(func() *regexp.Regexp {
	const number = `\d+(?:\.\d+)?`
	return regexp.MustCompile(`(no deeper than |no more than |at most )?\b(` + number + `)(?:( to | and | by | x | × )(` + number + `))?\s?` +
		`(mm/h\b|mm/m\b|m/s\b|kg/m3\b|kg/m³|m³|m²|m3\b|m2\b|mm\b|kg\b|m\b|newtons\b|kPa\b|pascals\b|` +
		`litres a second\b|litres of water a second\b|litres\b|tonnes a hectare a year\b|tonnes a hectare\b)` +
		`(?: \((` + number + `) to (` + number + `)\))?( in \d+ minutes\b| of rain\b| if they vary\b)?`)
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
		unit := m[5]
		if unit == "mm" && m[8] != "" {
			unit = rainUnit
		}
		way := nearest
		switch {
		case up && m[1] != "":
			way = downward
		case up:
			way = upward
		}
		first, ok := w.converted(m[2], unit, way)
		if !ok {
			return s
		}
		if m[6] != "" {
			low, _ := w.converted(m[6], unit, way)
			high, _ := w.converted(m[7], unit, way)
			first = band(first, low, high)
		}
		if m[4] == "" {
			return m[1] + first + m[8]
		}
		second, _ := w.converted(m[4], unit, way)
		if shared, ok := sharedUnit(first, second); ok && unit != "mm" && unit != "m" {
			first = strings.TrimSuffix(first, shared)
		}
		return m[1] + first + m[3] + second + m[8]
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
