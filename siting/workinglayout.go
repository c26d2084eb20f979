package siting

import (
	"fmt"

	"crossfall/geodata"
	"crossfall/siting/layout"
)

// marksSource is what marks and scores rest on.
const marksSource = "marks and their weights: defaults of ours (see what was assumed)"

// layout records how the score of the layout and its bound were come by.
func (l *ledger) layout(a *Layout) {
	if a == nil {
		return
	}
	if a.Placed > 0 {
		l.add("layout.score", geodata.Exactly(a.Score), "marks",
			"sum of the marks of the beds placed, less the cost of each row; rows in one direction by dynamic programming over intervals and rows, exact in their kind; "+
				"other layouts by simulated annealing",
			"Bellman 1957 (dynamic programming); Kirkpatrick, Gelatt and Vecchi 1983 (annealing); "+marksSource,
			input("beds placed", float64(a.Placed), "", "computed"), input("rows", float64(a.Rows), "", "computed"),
			input("marks that a row takes off", layout.DefaultRowCost, "marks", "default"),
			input("places looked at", float64(a.Places), "", "computed"), input("directions", float64(a.Directions), "", "computed"),
			input("step along a row", a.Step, "m", "computed"))
		l.add("layout.bound", geodata.Exactly(a.Bound), "marks",
			"the less of two bounds on any layout of as many beds: the best marks of single places in one row; and the Lagrangian bound over points of the ground "+
				"that one bed at most may cover, its prices bettered along the subgradient of a running mean of choices",
			"Held, Wolfe and Crowder 1974; Barahona and Anbil 2000 (the volume algorithm)", input("score of the layout found", a.Score, "marks", "computed"))
		l.add("layout.gap", geodata.Exactly(a.GapPercent), "percent",
			"100 (bound - score) / score", "the two figures above",
			input("bound", a.Bound, "marks", "computed"), input("score", a.Score, "marks", "computed"))
	}
	if a.MostBeds > 0 {
		l.add("layout.most-beds", geodata.Exactly(float64(a.MostBeds)), "beds",
			"the number placed where it is the number wished for; else the Lagrangian bound on the number of beds of which each takes the points of the ground under it and "+
				"half of the path round it for itself alone, rounded down",
			"Held, Wolfe and Crowder 1974; Barahona and Anbil 2000 (the volume algorithm)",
			input("beds placed", float64(a.Placed), "", "computed"), input("places looked at", float64(a.Places), "", "computed"))
	}
	if d := a.Drawn; d != nil {
		l.add("layout.free-better", geodata.Exactly(100*d.Share), "percent",
			"share of simulated surfaces that all agree with the heights in which the beds placed freely have more marks than those drawn",
			fmt.Sprintf("the simulated surfaces of the classes of edge; a rank is told from %.0f %% on, a default of ours; %s", 100*clearShare, marksSource),
			input("marks of the beds drawn", d.Drawn, "marks", "computed"), input("marks of as many placed freely", d.Free, "marks", "computed"))
	}
}

// marks records what was taken off a bed's place.
func (l *ledger) marks(id string, j judge, d decision, b Bed) {
	if b.Marks == nil {
		return
	}
	m, _ := j.marksOf(d.bed)
	l.add(id+".marks", geodata.Exactly(*b.Marks), "marks", fmt.Sprintf("%.0f less what is taken off", layout.FullMarks), marksSource,
		input("for the class of edge", m.class, "marks", "computed"), input("for the fall", m.fall, "marks", "computed"),
		input("for a long side off the contour", m.turned, "marks", "computed"), input("for ground that the survey does not tell", m.unknown, "marks", "computed"),
		input("for water from above", m.runOn, "marks", "computed"), input("for damp ground", m.damp, "marks", "computed"),
		input("for sun that is missing", m.dark, "marks", "computed"), input("for the way from the gate", m.carrying, "marks", "computed"))
}
