package plotfolder

import (
	"fmt"
	"strings"
)

// rainUnits are the units that a header may name for depths of rain, in mm.
// Inches are written "in" here.
var rainUnits = map[string]float64{
	"": 1, "mm": 1, "cm": 10, "in": 25.4,
	"0.1 mm": 0.1, "1/10 mm": 0.1, "tenths of mm": 0.1, "0.01 mm": 0.01, "1/100 mm": 0.01, "hundredths of mm": 0.01,
	"0.01 in": 0.254, "1/100 in": 0.254, "hundredths of an in": 0.254, "hundredths of in": 0.254,
}

const unitAdvice = "write mm or inches in brackets after the name, or 0.1 mm, 0.01 mm or 0.01 in"

// settleUnit finds the unit of the depths: millimetres unless the header names
// another.
func (r *rainTable) settleUnit() bool {
	if r.depth < 0 {
		r.c.problem(r.headerLine(), "column-missing", r.Header.Text, "there is no column of rain", rainAdvice)
		return false
	}
	title := r.Titles()[r.depth]
	unit := title.Unit
	if strings.HasPrefix(title.Name, "in") { // the unit alone
		unit = title.Name
	}
	mm, known := rainUnits[strings.ReplaceAll(strings.ReplaceAll(unit, "inches", "in"), "inch", "in")]
	r.unit = mm
	switch {
	case !known:
		r.c.problem(r.Pos(*r.Header, title.Cell), "unit-unknown", title.Cell.Text, fmt.Sprintf("%q is not a unit of rain that is read here", unit), unitAdvice)
	case strings.HasPrefix(unit, "in"):
		r.c.note(r.Pos(*r.Header, title.Cell), "rain-in-inches", "rain was read in inches")
	case mm != 1:
		r.c.note(r.Pos(*r.Header, title.Cell), "rain-unit", fmt.Sprintf("rain was read in units of %g mm", mm))
	}
	return known
}

// Years of rain, mm. The wettest place known has a mean of 11 871 mm
// (Mawsynram, from memory). Under 150 mm nothing is grown without watering, and
// over 4000 mm few gardens lie; these two are defaults of ours.
const (
	mostYear    = 12000.0
	wettestSeen = 4000.0
	driestSeen  = 150.0
)

// believable tells whether a year may have so many mm of rain, and doubts the
// unit of what few places have.
func (r rainTable) believable(year float64) bool {
	cell := r.Titles()[r.depth].Cell
	pos := r.Pos(*r.Header, cell)
	const tenths = "if the figures are tenths or hundredths, say so in the header: rain (0.1 mm), rain (0.01 mm) or rain (0.01 in)"
	switch {
	case year > mostYear:
		r.c.problem(pos, "rain-unit-wrong", cell.Text, fmt.Sprintf("this is %.0f mm of rain in a year, more than falls anywhere", year), tenths)
		return false
	case year > wettestSeen:
		r.c.warn(pos, "rain-unit-doubtful", cell.Text, fmt.Sprintf("this is %.0f mm of rain in a year, as on the wettest mountains", year), tenths)
	case year < driestSeen && year*25.4 <= wettestSeen:
		r.c.warn(pos, "rain-unit-doubtful", cell.Text, fmt.Sprintf("this is %.3g mm of rain in a year, as in a desert", year),
			"if the figures are inches, say so in the header: rain (in)")
	case year < driestSeen:
		r.c.warn(pos, "rain-unit-doubtful", cell.Text, fmt.Sprintf("this is %.3g mm of rain in a year, as in a desert", year), unitAdvice)
	}
	return true
}
