package sitingtest

import "crossfall/siting"

// layout is a layout of which one bed did not fit.
func layout() *siting.Layout {
	bearing := 82.0
	return &siting.Layout{
		Wished: 5, Placed: 4, MostBeds: 4, Method: "rows in one direction", Rows: 3, RowBearing: &bearing,
		Score: 262.4, Bound: 269.1, GapPercent: 2.553, InKind: true, Places: 1840, Directions: 12, Step: 0.5,
		InTheWay: []siting.Hindrance{{Why: "the boundary, with the path kept inside it", Share: 0.44}, {Why: `the hedge "North"`, Share: 0.12}},
		Said: []string{
			"4 of 5 beds fit, and no layout of the places looked at holds more: most other places are stopped by the boundary, with the path kept inside it and the hedge \"North\"",
			"4 beds in 3 rows of one direction: best of its kind, proved",
			"no layout of as many beds of 1840 places in 12 directions could be more than 2.6 % better",
		},
	}
}
