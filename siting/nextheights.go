package siting

import (
	"fmt"

	"crossfall/geodata"
	"crossfall/siting/frame"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
)

// mostPlanned is the number of heights of a survey for which the next readings
// are planned together; past it only the best one is named.
const mostPlanned = 120

// edgeFalls are the falls at which the class of edge changes: defaults of ours
// of the rules of the frame.
var edgeFalls = []float64{0.05, 0.10, 0.20, 0.33}

// NextHeight is a height worth taking, in walking order.
type NextHeight struct {
	At      orb.Point `json:"at"`
	Settles []string  `json:"settles"`
	Repeats bool      `json:"repeats"` // a height already taken, to be read once more
	Said    string    `json:"said"`
}

// openQuestions are the beds whose class of edge the survey does not settle.
func openQuestions(decided []decision) []surface.Question {
	var out []surface.Question
	for _, d := range decided {
		if d.firm || d.refused != "" || d.spread() == 0 {
			continue
		}
		q := surface.Question{
			Name: d.bed.Name,
			Says: fmt.Sprintf("whether %s is %s or %s", d.bed.Name, d.mildest(), d.gravest()),
		}
		for _, p := range probes(d.bed, d.ground.Axes) {
			q.Pairs = append(q.Pairs, surface.Pair{From: p.from, To: p.to})
		}
		for _, limit := range edgeFalls {
			if limit > d.ground.Slope.Low && limit < d.ground.Slope.High {
				q.Limits = append(q.Limits, limit)
			}
		}
		if len(q.Limits) > 0 && d.gravest() != frame.OpenEdged {
			out = append(out, q)
		}
	}
	return out
}

// nextHeights plans the readings that would do most for what is open, as one
// walk of so many. Nothing is planned for a survey whose every decision is firm.
func nextHeights(p *geodata.Plot, fit *surface.Fit, decided []decision, count int) []NextHeight {
	out := []NextHeight{}
	questions := openQuestions(decided)
	if count <= 0 || len(questions) == 0 || len(p.Spots) > mostPlanned || fit.Uneven {
		return out
	}
	readings, err := surface.Next(fit, questions, p.Boundary, surface.NextOptions{Count: count, Keep: func(q orb.Point) bool { return walkable(p, q) }})
	if err != nil {
		return out // the questions are ours: nothing to tell a grower
	}
	for _, r := range readings {
		said := fmt.Sprintf("At %s", placeSaid(r.At))
		if r.Repeats {
			said += ", read once more"
		}
		out = append(out, NextHeight{
			At: r.At, Settles: append([]string{}, r.Settles...), Repeats: r.Repeats,
			Said: said + ": helps to settle " + joined(r.Settles),
		})
	}
	return out
}

// walkable tells whether a staff can stand at a point: not inside a building, a
// fenced thing or a no-go area.
func walkable(p *geodata.Plot, q orb.Point) bool {
	for _, f := range p.Fixtures {
		if f.Kind != geodata.ObstacleKind && f.Kind != geodata.NoGoKind {
			continue
		}
		if area, ok := f.Shape.(orb.Polygon); ok && geodata.Inside(area[0], q) {
			return false
		}
	}
	return true
}

// joined lists words with commas and an and.
func joined(words []string) string {
	switch len(words) {
	case 0:
		return "the ground as a whole"
	case 1:
		return words[0]
	}
	out := words[0]
	for _, w := range words[1 : len(words)-1] {
		out += ", " + w
	}
	return out + " and " + words[len(words)-1]
}
