package landxml

import (
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/xmlscan"
)

// unitOf is a unit that the file names.
type unitOf struct {
	name string
	unit geodata.Unit
	pos  geodata.Pos
}

// linear are the words of LandXML 1.2 for its linear unit, in small letters.
func linear(word string) (geodata.Unit, bool) {
	switch strings.ToLower(word) {
	case "meter", "metre":
		return geodata.Metre, true
	case "centimeter":
		return geodata.Centimetre, true
	case "millimeter":
		return geodata.Millimetre, true
	case "kilometer":
		return 1000 * geodata.Metre, true
	case "foot", "feet":
		return geodata.Foot, true
	case "inch":
		return geodata.Inch, true
	case "mile", "miles":
		return 5280 * geodata.Foot, true
	case "ussurveyfoot":
		return geodata.SurveyFoot, true
	}
	return 0, false
}

// takeUnit reads the element Metric or Imperial. Where it names a unit of
// elevations that is another one, nobody can tell which of the two the heights
// of points are in, and the file is refused.
func (r *reader) takeUnit(e *xmlscan.Element) {
	if e.Parent == nil || e.Parent.Name != "Units" {
		return
	}
	word, given := e.Attr("linearUnit")
	u, known := linear(word)
	switch {
	case !given:
		return
	case !known:
		r.Faults.Problem(e.Pos, "unit-unknown", word, "this is no linear unit of LandXML", "export in metres or feet")
		return
	}
	r.units = append(r.units, unitOf{word, u, e.Pos})
	if up, given := e.Attr("elevationUnit"); given {
		if v, known := linear(up); !known || math.Abs(float64(v/u)-1) > 1e-5 { // the two kinds of foot may mix
			r.Faults.Problem(e.Pos, "units-differ", up, "elevations have another unit than places, and it is not clear which of them the points use", "export the file with one unit for both")
		}
	}
}

// unit settles the unit of the whole file.
func (r *reader) unit() geodata.Unit {
	switch {
	case len(r.units) == 0 && r.opt.Unit == 0:
		r.Faults.Problem(r.File(), "units-not-said", "", "the file does not say in what unit its points are", "are they metres or feet? export the file with its units, or say the unit of the plot")
		return geodata.Metre
	case len(r.units) == 0:
		return r.opt.Unit
	}
	for _, u := range r.units[1:] {
		if u.unit != r.units[0].unit {
			r.Faults.Problem(u.pos, "units-differ", u.name, "the file names two different units", "export the file with one unit")
		}
	}
	return r.units[0].unit
}
