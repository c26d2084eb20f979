package siting

import (
	"fmt"
	"strings"

	"crossfall/siting/erosion"
)

// advise says what the figures ask for, the plot first and then bed by bed.
func (j judge) advise(a *Assessment, decided []decision) []Advice {
	out := []Advice{}
	if l := bareLoss(a.Water.YearlyLoss); l != nil && (j.brief.Cover == "bare" || j.brief.Cover == "dug") {
		out = append(out, Advice{
			What: "sow grass on the ground between the beds, or mulch it, before winter",
			Why: fmt.Sprintf("bare, the plot loses about %.2g tonnes a hectare a year (%.2g to %.2g): %s",
				l.Loss.Value, l.Loss.Low, l.Loss.High, l.Said),
		})
	}
	for _, d := range a.Water.Drains {
		out = append(out, drainAdvice(d))
	}
	for i, d := range decided {
		out = append(out, j.adviseBed(a.Beds[i], d)...)
	}
	return out
}

// bareLoss is the loss of bare ground, or nil.
func bareLoss(losses []CoverLoss) *CoverLoss {
	for _, l := range losses {
		if l.Cover == string(erosion.Bare) {
			return &l
		}
	}
	return nil
}

// drainAdvice turns a drain into advice.
func drainAdvice(d Drain) Advice {
	a := Advice{Bed: d.Bed, What: "a " + d.Kind}
	switch {
	case d.Kind == DrainTrench && d.Why != "":
		a.What, a.Why = "keep beds out of the hollow; a trench to drain it has no free way", d.Why
		return a
	case d.Kind == DrainTrench:
		a.What = "keep beds out of the hollow, or drain it by a trench"
	}
	if d.Why != "" {
		a.What, a.Why = "a "+d.Kind+" is wanted, and none can be given yet", d.Why
		return a
	}
	a.Why = d.Said
	for _, n := range d.Notes {
		a.Why += "; " + n
	}
	return a
}

// adviseBed is the advice for one bed.
func (j judge) adviseBed(b Bed, d decision) []Advice {
	if b.Water == nil {
		return nil
	}
	var out []Advice
	add := func(what, why string) { out = append(out, Advice{What: what, Why: why, Bed: b.Name}) }
	for _, a := range erosion.Advise(erosion.Bedside{Above: j.slopeAbove(d, j.rate), Way: erosion.Way(d.chosen.Class), Risks: j.risks(d)}) {
		add(a.What, a.Why)
	}
	if len(b.PlaceNotes) > 0 && strings.HasPrefix(b.PlaceNotes[0], DampPlace) {
		add("move it to drier ground, or expect it to be late in spring", b.PlaceNotes[0])
	}
	return out
}
