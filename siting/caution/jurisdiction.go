package caution

import "strings"

// RetainedRule is what one place publishes about holding ground back. It is
// read beside the default of ours, which is more careful than most: what the
// place itself says today rules.
type RetainedRule struct {
	Place string // a country code, or with a state: "us", "au-vic"
	// Stop is the height, m, over which that place wants advice or a permit where
	// that is less than RetainedStop; 0 otherwise.
	Stop   float64
	Text   string
	Source string
}

// RetainedRules lists the published heights, states before their countries.
func RetainedRules() []RetainedRule {
	return []RetainedRule{
		{"au-nsw", 0, "New South Wales lets walls and fill of up to 600 mm go without consent, 1 m or more from the lot boundary and from easements, sewers and water mains, 2 m from another wall, with a drain, and turning no water on to a neighbour",
			"New South Wales exempt development code, clauses 2.29 and 2.30, text of 2014"},
		{"au-vic", 0.40, "in Victoria a council asks a permit for walls over 400 mm unless they stand back by their own height", "City of Boroondara's published guide"},
		{"au-wa", 0.50, "in Western Australia councils ask a permit from 500 mm", "a council's published guide"},
		{"au", 0, "the states differ: 400 to 600 mm without a permit", "published guides of New South Wales, Victoria and Western Australia"},
		{"ca-bc", 0, "in British Columbia a municipality asks a permit over 1.20 m, or for a series of walls less than twice as far apart as they are high", "District of Sechelt"},
		{"ca-on", 0, "in Ontario a permit is asked over 1.00 m", "Ontario building code (from memory)"},
		{"ca", 0, "provinces and municipalities differ: 1.00 to 1.20 m", "District of Sechelt; Ontario from memory"},
		{"ie", 0, "ask the planning authority", "no height is known here"},
		{"nz", 0, "no building consent is asked up to 1.50 m where nothing bears behind, and sloping ground above counts as bearing", "Building Act 2004, Schedule 1"},
		{"uk", 0, "a wall over 1.00 m beside a road, or over 2.00 m elsewhere, needs planning permission in England and Wales, and one over 1.37 m within 3.66 m of a street the council's approval; a drop of more than 600 mm wants a guard",
			"General Permitted Development Order 2015, Schedule 2, Part 2, class A; Highways Act 1980, section 167; Approved Document K (from memory)"},
		{"us", 0, "most places ask no permit up to 4 ft measured from the foot of the wall, some only up to 3 ft, and a design over 24 in of unbalanced ground",
			"International Building Code 105.2 and International Residential Code R105.2 and R404.4; cities of Orinda and Norton"},
	}
}

// RetainedRuleIn is the rule of a country, or of a state written after it as in
// "au-vic"; ok is false where none is known.
func RetainedRuleIn(country string) (rule RetainedRule, ok bool) {
	at := countryOf(country)
	for _, r := range RetainedRules() {
		if r.Place == at || strings.HasPrefix(at, r.Place+"-") {
			return r, true
		}
	}
	return RetainedRule{}, false
}
