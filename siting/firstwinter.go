package siting

import (
	"fmt"
	"strings"

	"crossfall/geodata"
	"crossfall/siting/caution"
	"crossfall/siting/erosion"
	"crossfall/siting/firstwinter"
	"crossfall/siting/frame"
)

// weeds finds the weeds named in site.toml; one that is not known is a fault, with
// the names near it.
func (s *settler) weeds(b *Brief, g geodata.GroundWords, faults *geodata.Faults) {
	met := map[string]bool{}
	for _, name := range g.Weeds {
		w, ok := firstwinter.Named(name)
		switch {
		case !ok:
			faults.Add(geodata.Fault{
				Code: "weed-unknown", Pos: g.WeedsAt, Read: name,
				Message: "ground.weeds names a weed that is not known", Want: weedWanted(name),
			})
		case met[w.Common]:
			faults.Add(geodata.Fault{
				Code: "weed-twice", Pos: g.WeedsAt, Read: name,
				Message: "ground.weeds names " + w.Common + " twice", Want: "keep one of the two",
			})
		default:
			met[w.Common] = true
			b.Weeds = append(b.Weeds, w)
		}
	}
}

// weedWanted is advice for a weed that is not known.
func weedWanted(name string) string {
	near := firstwinter.NamesNear(name)
	for i, n := range near {
		near[i] = fmt.Sprintf("%q", n)
	}
	if near == nil {
		return "write one of " + strings.Join(firstwinter.Names(), ", ") + "; annual weeds need no cover"
	}
	return "write " + strings.Join(near, " or ") + "; or its botanical name"
}

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
		Volume: d.compost().Value, Exposed: j.exposed(d),
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

// weedCautions warns of weeds that must be left alone.
func (j judge) weedCautions() []caution.Caution {
	var out []caution.Caution
	for _, w := range j.brief.Weeds {
		if w.Leave == "" {
			continue
		}
		out = append(out, caution.Caution{
			ID: "weed." + strings.ReplaceAll(strings.ToLower(w.Common), " ", "-"), Severity: caution.Warning, Kind: "weeds",
			Text:   strings.ToUpper(w.Common[:1]) + w.Common[1:] + " (" + w.Botanical + "): " + w.Leave + ".",
			Source: firstwinter.CommonPractice,
		})
	}
	return out
}
