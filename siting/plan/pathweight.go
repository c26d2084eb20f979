package plan

import "crossfall/siting"

// faintest is the part of its width that the line of a path keeps which no
// simulated surface bears out; a default of ours.
const faintest = 0.4

// weighed is the style of a path's line: the fewer simulated surfaces bear it
// out, the thinner.
func weighed(style Style, p siting.Path) Style {
	if p.Share != nil {
		style.Width *= faintest + (1-faintest)*(*p.Share)
	}
	return style
}

// weighedSaid adds to a legend what the width of paths tells, where it tells
// anything.
func weighedSaid(words string, p siting.Path) string {
	if p.Share == nil {
		return words
	}
	return words + "; the thinner the line, the less sure"
}
