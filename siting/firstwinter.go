package siting

import (
	"crossfall/siting/caution"
	"crossfall/siting/erosion"
	"crossfall/siting/firstwinter"
	"crossfall/siting/frame"
)

// orderOfWork is the plan of the first year for the beds that may be built.
func (j judge) orderOfWork(a *Assessment, decided []decision) firstwinter.Plan {
	in := firstwinter.Input{
		Monthly: j.plot.Rain.Monthly, Turf: j.brief.Turf, Weeds: j.brief.Weeds,
		Unasked: len(caution.Unlocated(j.plot)) > 0, Barrow: j.brief.Barrow, Litres: j.brief.Load,
		Load: j.brief.density().Times(j.brief.Load / 1000),
	}
	in.Latitude, _ = onEarth(j.plot)
	for _, d := range a.Water.Drains {
		in.Soakaway = in.Soakaway || d.Kind == Soakaway && len(d.Points) > 0
	}
	for i, d := range decided {
		if d.chosen.Class != frame.DoNotBuild {
			in.Beds = append(in.Beds, j.bedOfWork(a, a.Beds[i], d))
		}
	}
	return firstwinter.Make(in)
}

// bedOfWork is one bed as the order of work sees it.
func (j judge) bedOfWork(a *Assessment, b Bed, d decision) firstwinter.Bed {
	c := d.chosen
	out := firstwinter.Bed{
		Name: b.Name, Boards: c.Boards != nil, Pegs: c.Pegs != nil && c.Pegs.Count > 0,
		Sunken: b.SunkenDepth != nil && b.SunkenDepth.Value > 0,
		Volume: d.compost().Value, Exposed: j.exposed(d), Weeds: j.brief.weedsIn(b.Name),
	}
	for _, w := range a.Water.Drains {
		out.Channel = out.Channel || w.Kind == CutOffChannel && w.Bed == b.Name && len(w.Points) > 0
	}
	if rise, _, ok := d.rise(); ok {
		out.Way = &rise
	}
	return out
}

// exposed tells whether a bed may lose enough of its compost over a winter to be
// worth a sheet; where rain does not tell it, an open-edged bed may.
func (j judge) exposed(d decision) bool {
	risks := j.risks(d)
	if risks == nil {
		return d.chosen.Class == frame.OpenEdged
	}
	for _, r := range risks {
		if r.Way == erosion.Way(d.chosen.Class) {
			return r.Share.Value > erosion.WorthCovering
		}
	}
	return false
}
