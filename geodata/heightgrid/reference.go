package heightgrid

import (
	"fmt"

	"crossfall/geodata"
)

// Reference says what the coordinates and heights of a file are measured in
// and from, as far as the file says so.
type Reference struct {
	EPSG         int  // code of the coordinate system in the EPSG register; 0 not said
	VerticalEPSG int  // code of the height system; 0 not said
	Geographic   bool // plan coordinates are degrees of longitude and latitude
	// Guessed is true when Geographic rests on the size of the numbers alone.
	Guessed bool
	// Unit is the file's unit in the plan; 0 when not said or Geographic.
	// What was read is metres all the same.
	Unit geodata.Unit
	// HeightUnit is the file's unit of height; 0 when not said: then metres are
	// taken.
	HeightUnit geodata.Unit
}

// metres is how many metres (or degrees) one unit of the plan is.
func (r Reference) metres() float64 {
	if r.Geographic || r.Unit == 0 {
		return 1
	}
	return float64(r.Unit)
}

// rise is how many metres one unit of height is.
func (r Reference) rise() float64 {
	if r.HeightUnit == 0 {
		return 1
	}
	return float64(r.HeightUnit)
}

// check refuses what would give wrong lengths.
func (r Reference) check() error {
	switch r.EPSG {
	case 3857, 3785, 900913, 102100, 102113:
		return refuse("grid-web-mercator",
			fmt.Sprintf("the file is in the web maps' projection (EPSG:%d), in which lengths are far too long away from the equator", r.EPSG),
			"convert it to the national grid or to a UTM zone")
	}
	return nil
}

// notes tells what was taken for granted about units.
func (r Reference) notes() geodata.Faults {
	var fs geodata.Faults
	add := func(code string, s geodata.Severity, message, want string) {
		fs.Add(geodata.Fault{Code: code, Severity: s, Message: message, Want: want})
	}
	switch {
	case r.Geographic && r.Guessed:
		add("grid-in-degrees", geodata.Warning, "the numbers look like degrees of longitude and latitude, and are taken so",
			"say the unit in a .prj file beside it if they are metres")
	case r.Geographic:
		add("grid-in-degrees", geodata.Warning, "the coordinates are degrees of longitude and latitude, not metres", "")
	case r.Unit == 0:
		add("grid-unit-not-said", geodata.Note, "the file does not say the unit of its coordinates; metres are taken", "")
	case r.Unit != geodata.Metre:
		add("grid-unit-turned", geodata.Note, fmt.Sprintf("the coordinates are in %s and were turned into metres", unitWord(r.Unit)), "")
	}
	foot := r.Unit == geodata.Foot || r.Unit == geodata.SurveyFoot
	switch {
	case r.HeightUnit == 0 && foot && !r.Geographic:
		add("height-unit-not-said", geodata.Warning, "the coordinates are in feet, but the file does not say whether the heights are too; metres are taken",
			"ask whoever made the file; feet taken for metres make every slope 3.3 times too steep")
	case r.HeightUnit == 0:
		add("height-unit-not-said", geodata.Note, "the file does not say the unit of its heights; metres are taken", "")
	case r.HeightUnit != geodata.Metre:
		add("height-unit-turned", geodata.Note, fmt.Sprintf("the heights are in %s and were turned into metres", unitWord(r.HeightUnit)), "")
	}
	return fs
}

// unitWord names a unit in the plural.
func unitWord(u geodata.Unit) string {
	switch u {
	case geodata.Metre:
		return "metres"
	case geodata.Centimetre:
		return "centimetres"
	case geodata.Millimetre:
		return "millimetres"
	case geodata.Inch:
		return "inches"
	case geodata.Foot:
		return "feet"
	case geodata.SurveyFoot:
		return "United States survey feet"
	case geodata.Yard:
		return "yards"
	}
	return fmt.Sprintf("units of %g m", float64(u))
}

// unitCoded is the unit of length with a code of the EPSG register: 9001 metre,
// 9002 foot, 9003 United States survey foot, 9096 yard, 1025 millimetre, 1033
// centimetre, 9036 kilometre (from memory, but for the first three).
func unitCoded(code int) (geodata.Unit, bool) {
	switch code {
	case 9001:
		return geodata.Metre, true
	case 9002:
		return geodata.Foot, true
	case 9003:
		return geodata.SurveyFoot, true
	case 9096:
		return geodata.Yard, true
	case 1025:
		return geodata.Millimetre, true
	case 1033:
		return geodata.Centimetre, true
	case 9036:
		return 1000, true
	}
	return 0, false
}

// heightUnitOf is the unit of a height system whose code alone is given: 5702
// NGVD29, 6360 and 8228 NAVD88 in feet; 5703 NAVD88, 5701 Newlyn, 5773 EGM96,
// 5621 EVRF2007 in metres (EPSG register, from memory).
func heightUnitOf(code int) (geodata.Unit, bool) {
	switch code {
	case 5702, 6360:
		return geodata.SurveyFoot, true
	case 8228:
		return geodata.Foot, true
	case 5701, 5703, 5773, 5621:
		return geodata.Metre, true
	}
	return 0, false
}

// metreGrid tells whether a projected system of the EPSG register is known to
// count in metres: UTM zones on WGS84 and ETRS89 and some national grids.
func metreGrid(code int) bool {
	switch {
	case code >= 32601 && code <= 32660, code >= 32701 && code <= 32760, code >= 25828 && code <= 25838:
		return true
	}
	switch code {
	case 27700, 29902, 29903, 2157, 2154, 2193, 28992, 3035, 2056, 31370:
		return true
	}
	return false
}
