package cli

import (
	"fmt"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
)

// measure is one quantity as people say it, and the site.toml figure it stands
// for.
type measure struct {
	unit      string
	bare      geodata.Unit // what a bare number of length is in; 0: not a length
	scale     float64      // site.toml figure for one unit
	low, high float64      // of the site.toml figure, inclusive; see within
}

// measures are the units of one set of questions.
type measures struct {
	long, board, short measure // bed lengths in m, board lengths in m, sections in mm
	perLength          measure // money for each metre of board
	perVolume          measure // money for each cubic metre of compost
	load               measure // litres
}

// within is the measure with the range that site.toml allows for a setting, so
// that what is answered here can be read there.
func (m measure) within(key string) measure {
	if low, high, ok := plotfolder.Range(key); ok {
		m.low, m.high = low, high
	}
	return m
}

func metric() measures {
	return measures{
		long:      measure{unit: "m", bare: geodata.Metre, scale: 1},
		board:     measure{unit: "m", bare: geodata.Metre, scale: 1},
		short:     measure{unit: "mm", bare: geodata.Millimetre, scale: 1},
		perLength: measure{unit: "for each metre", scale: 1},
		perVolume: measure{unit: "for each cubic metre", scale: 1},
		load:      measure{unit: "litres", scale: 1},
	}
}

// feetAndInches are the same quantities in the international foot and inch.
func feetAndInches() measures {
	const foot, inch = float64(geodata.Foot), float64(geodata.Inch)
	m := metric()
	m.long.unit, m.long.bare, m.long.scale = "feet", geodata.Foot, foot
	m.board.unit, m.board.bare, m.board.scale = "feet", geodata.Foot, foot
	m.short.unit, m.short.bare, m.short.scale = "inches", geodata.Inch, inch*1000
	m.perLength.unit, m.perLength.scale = "for each foot", 1/foot
	m.perVolume.unit, m.perVolume.scale = "for each cubic yard", 1/(27*foot*foot*foot)
	m.load.unit, m.load.scale = "cubic feet", 1000*foot*foot*foot
	return m
}

// parse turns one typed figure into the site.toml figure. A length may bring
// its own unit.
func (m measure) parse(text string) (float64, error) {
	want, v, err := "a number", 0.0, error(nil)
	if m.bare != 0 {
		want = `a length such as 1.25 m, 30 cm or 4'6"`
		v, err = geodata.ParseLength(text, m.bare)
		v /= float64(m.bare)
	} else {
		v, err = strconv.ParseFloat(strings.TrimSpace(text), 64)
	}
	v *= m.scale
	if err != nil || !(v >= m.low && v <= m.high) { // not a number fails both
		return 0, fmt.Errorf("write %s, from %s to %s %s", want, m.said(m.low), m.said(m.high), m.unit)
	}
	return v, nil
}

// said is a site.toml figure in this measure, to three figures.
func (m measure) said(v float64) string {
	return strconv.FormatFloat(roundTo(v/m.scale, 3), 'f', -1, 64)
}

// all is several site.toml figures in this measure.
func (m measure) all(values []float64) string {
	said := make([]string, len(values))
	for i, v := range values {
		said[i] = m.said(v)
	}
	return strings.Join(said, ", ")
}

// roundTo keeps so many significant figures.
func roundTo(v float64, figures int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', figures, 64), 64)
	if err != nil {
		return v
	}
	return r
}

// number asks for the figure of one setting; Enter leaves it unsaid and shows
// what is taken.
func (a *asker) number(question, key string, m measure, shown string, into **float64) {
	m = m.within(key)
	a.ask(question+", "+m.unit, shown, func(answer string) error {
		v, err := m.parse(answer)
		if err != nil {
			return err
		}
		*into = &v
		return nil
	})
}

// numbers asks for several figures of one setting, parted by commas.
func (a *asker) numbers(question, key string, m measure, shown string, into *[]float64) {
	m = m.within(key)
	a.ask(question+", "+m.unit, shown, func(answer string) error {
		var all []float64
		for _, word := range strings.FieldsFunc(answer, func(r rune) bool { return r == ',' || r == ';' }) {
			v, err := m.parse(word)
			if err != nil {
				return fmt.Errorf("%w, with commas between several", err)
			}
			all = append(all, v)
		}
		if len(all) == 0 {
			return fmt.Errorf("write one or more numbers, parted by commas")
		}
		*into = all
		return nil
	})
}
