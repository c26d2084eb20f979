package caution

import (
	"fmt"
	"strings"

	"crossfall/geodata"
)

// DefaultClearance is the distance, m, kept on each side of a buried service
// when no larger rule is known: default of ours, in the middle of the 18 to
// 24 inches that most of the United States ask for each side and above the
// 500 mm hand-digging distance of HSE HSG47.
const DefaultClearance = 0.60

// One-sided errors of a service's drawn line, m, where the drawing names none
// (position_error_m): defaults of ours.
const (
	LocatedError = 0.1 // traced, or seen in a trial hole
	DrawnError   = 0.3 // drawn from a plan or from memory
)

// clearanceRule is what a country asks for. No carrier means every carrier.
type clearanceRule struct {
	country string
	carrier geodata.Carrier
	metres  float64
	source  string
}

// clearanceRules holds the published distances, the special ones first.
var clearanceRules = []clearanceRule{
	{"us-mi", "", 48 * 0.0254, "Michigan: 48 inch caution zone (from memory, check with the local notification centre)"},
	{"us", "", 0.61, "United States: 24 inches each side, the wider of the state tolerance zones (18 to 24 inches, 24 in Indiana)"},
	{"uk", "", 0.5, "HSE HSG47, 3rd edition 2014: hand digging within 500 mm of a located service (from memory)"},
	{"ie", "", 0.5, "Ireland, HSA code of practice 2016: 500 mm by hand (from memory)"},
	{"ca", "", 1.0, "Canada: expose by hand within 1 m (from memory)"},
	{"au", geodata.Drain, 1.0, newSouthWales},
	{"au", geodata.WaterPipe, 1.0, newSouthWales},
	{"au", "", 0, "Australia: ask before digging, by hand too, in most states; no distance is published"},
	{"nz", "", 0, "New Zealand: ask before digging; no distance is published"},
}

const newSouthWales = "New South Wales exempt development code, clauses 2.29 and 2.30: a retaining wall stands 1 m or more from a sewer or water main"

// countryNames brings the usual ways of writing a country to one.
var countryNames = map[string]string{
	"gb": "uk", "united kingdom": "uk", "great britain": "uk", "britain": "uk",
	"england": "uk", "scotland": "uk", "wales": "uk", "northern ireland": "uk",
	"ireland": "ie", "usa": "us", "united states": "us", "united states of america": "us",
	"canada": "ca", "australia": "au", "new zealand": "nz",
}

func countryOf(word string) string {
	word = strings.ToLower(strings.TrimSpace(word))
	if name, ok := countryNames[word]; ok {
		return name
	}
	return word
}

// ClearanceFor is the distance to keep on each side of a buried service, m, by
// the country's rule but never under DefaultClearance, and where it comes from.
// country is a two-letter code or an English name; "us-" and a state's letters
// take that state's rule when it is wider. A country without a rule, or none
// named, takes the default, and the source says so.
func ClearanceFor(carrier geodata.Carrier, country string) (metres float64, source string) {
	if strings.TrimSpace(country) == "" {
		return DefaultClearance, "default of ours (0.60 m); no country is named"
	}
	at := countryOf(country)
	for _, r := range clearanceRules {
		if !r.holdsIn(at) || (r.carrier != "" && r.carrier != carrier) {
			continue
		}
		if r.metres > DefaultClearance {
			return r.metres, r.source
		}
		return DefaultClearance, "default of ours (0.60 m), not under the local rule; " + r.source
	}
	return DefaultClearance, fmt.Sprintf("default of ours (0.60 m); no rule is known here for %q", country)
}

// holdsIn is true for the rule's own country or state, and for a state of a
// country whose rule it is.
func (r clearanceRule) holdsIn(country string) bool {
	return r.country == country || strings.HasPrefix(country, r.country+"-")
}

// Clearance is the distance kept on each side of one buried service, m.
type Clearance struct {
	Rule       float64 // by ClearanceFor
	Error      float64 // what the drawn line may be off
	RuleSource string
	ErrorSaid  string // where Error comes from, as the end of a sentence
}

// Needed is the rule's distance widened by the error of the drawn line, m.
func (c Clearance) Needed() float64 { return c.Rule + c.Error }

// Around is the clearance of a drawn buried service. The error of its line is
// position_error_m where that is over 0, else LocatedError or DrawnError. Half
// the width of a wide pipe or duct is not known here: draw it as an area.
func Around(f geodata.Fixture, country string) Clearance {
	c := Clearance{Error: DrawnError, ErrorSaid: "because the service is drawn but not located: default of ours"}
	c.Rule, c.RuleSource = ClearanceFor(f.Carries, country)
	switch {
	case f.PositionError > 0:
		c.Error, c.ErrorSaid = f.PositionError, "as its drawn line may be off (position_error_m)"
	case f.Located != "":
		c.Error, c.ErrorSaid = LocatedError, "as a located line may still be off: default of ours"
	}
	return c
}

// Clear is the distance, m, that the cautions of this package keep between a
// fixture and what is driven or cut: 0 when they ask for none.
func Clear(f geodata.Fixture, country string) float64 {
	keep := 0.0
	switch {
	case f.Kind == geodata.ServiceKind && !f.Overhead:
		keep = Around(f, country).Needed()
	case f.Kind == geodata.TreeKind:
		keep, _ = RootRadius(f.StemDiameter)
	}
	if Foul(f) {
		keep = max(keep, FoulClearance)
	}
	return keep
}
