package dxf

import (
	"strconv"

	"crossfall/geodata"
)

// unitCode is the unit that the drawing's header names.
type unitCode struct {
	code  int // of $INSUNITS; 0 not said
	value string
	line  int
}

// header reads the section of variables, for $INSUNITS.
func (r *reader) header(p pair, ok bool) (pair, bool) {
	variable := ""
	for ; ok && !ends(p); p, ok = r.next() {
		switch {
		case p.code == 9:
			variable = p.value
		case variable == "$INSUNITS" && p.code == 70:
			n, err := strconv.Atoi(p.value)
			if err != nil {
				r.fs.Problem(r.at(p.line), "not-a-number", p.value, "the code of the drawing's unit is not a whole number", "export the drawing again")
				continue
			}
			r.unit = unitCode{n, p.value, p.line}
		}
	}
	return p, ok
}

// unitOf are the codes of $INSUNITS that ground is drawn in (DXF reference,
// header variables).
func unitOf(code int) (u geodata.Unit, word string) {
	switch code {
	case 1:
		return geodata.Inch, "inches"
	case 2:
		return geodata.Foot, "feet"
	case 4:
		return geodata.Millimetre, "millimetres"
	case 5:
		return geodata.Centimetre, "centimetres"
	case 6:
		return geodata.Metre, "metres"
	case 7:
		return 1000 * geodata.Metre, "kilometres"
	case 10:
		return geodata.Yard, "yards"
	case 14:
		return geodata.Metre / 10, "decimetres"
	case 21:
		return geodata.SurveyFoot, "United States survey feet"
	}
	return 0, ""
}

// drawingUnit settles the unit. What the options say goes before the header,
// which often only repeats what the program's template had.
func (r *reader) drawingUnit() geodata.Unit {
	u, word := unitOf(r.unit.code)
	switch {
	case r.opt.Unit != 0:
		if u != 0 && u != r.opt.Unit {
			r.fs.Warn(r.at(r.unit.line), "dxf-unit-overruled", r.unit.value, "the drawing says "+word+": the unit that was asked for was taken instead", "")
		}
		return r.opt.Unit
	case r.unit.code == 0:
		r.fs.Problem(geodata.Pos{File: r.file}, "units-not-said", "", "the drawing does not say in what unit it is drawn", "is it drawn in metres, millimetres or feet? set the drawing's unit and save it again, or say the unit of the plot")
		return geodata.Metre
	case u == 0:
		r.fs.Problem(r.at(r.unit.line), "unit-unknown", r.unit.value, "the drawing's unit is not one that ground is drawn in", "set the drawing's unit to metres and save it again")
		return geodata.Metre
	}
	r.fs.Note(r.at(r.unit.line), "dxf-unit", "the drawing says that it is drawn in "+word+": check the width of the plot")
	return u
}
