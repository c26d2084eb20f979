package siting

import (
	"math"

	"crossfall/siting/caution"
	"crossfall/siting/frame"
)

// caution gathers the cautions of every bed and of the whole plot.
func (a *Assessment) caution(j judge, decided []decision) {
	all := []caution.Caution{}
	for _, d := range decided {
		all = append(all, d.cautions...)
	}
	all = append(all, caution.Unlocated(j.plot)...)
	all = append(all, j.weedCautions()...)
	all = append(all, caution.Ponding(j.ponds, nil)...)
	all = append(all, caution.General(conditions(a, j, decided))...)
	acknowledged, faults := caution.Acknowledge(all, j.plot.Site.Acknowledged)
	a.Cautions = acknowledged
	a.Findings = append(a.Findings, faults...)
	caution.Defer(a.Cautions)
	caution.Sort(a.Cautions)
}

// conditions says which cautions of the whole plot apply.
func conditions(a *Assessment, j judge, decided []decision) caution.Conditions {
	c := caution.Conditions{Country: j.plot.Site.Place.Country, Slope: a.Ground.GreatestFall.Percent.Value / 100}
	if a.Quantities.Push != nil {
		c.Push, c.PushOn = a.Quantities.Push.Value, a.Quantities.PushOn
	}
	for _, d := range a.Water.Drains {
		c.Digging = c.Digging || len(d.Points) > 0
	}
	for _, d := range decided {
		if d.chosen.Class == frame.DoNotBuild {
			continue
		}
		c.Compost = true
		if _, length, ok := d.rise(); ok {
			c.Way = math.Max(c.Way, length)
		}
		c.Boards = c.Boards || d.chosen.Boards != nil
		c.Digging = c.Digging || d.chosen.Pegs != nil
		c.Channel = c.Channel || d.chosen.Channel != ""
	}
	return c
}
