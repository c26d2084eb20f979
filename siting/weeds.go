package siting

import (
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/siting/caution"
	"crossfall/siting/firstwinter"
)

// BedWeed is a perennial weed met in some beds only.
type BedWeed struct {
	Weed firstwinter.Weed
	Beds []string // as they are named in site.toml
	At   geodata.Pos
}

// weeds finds the weeds named in site.toml; one that is not known is a fault, with
// the names near it.
func (s *settler) weeds(b *Brief, site geodata.Site, faults *geodata.Faults) {
	met := map[string]bool{}
	find := func(key, name string, at geodata.Pos) (firstwinter.Weed, bool) {
		w, known := firstwinter.Named(name)
		switch {
		case !known:
			faults.Add(geodata.Fault{
				Code: "weed-unknown", Pos: at, Read: name,
				Message: key + " names a weed that is not known", Want: weedWanted(name),
			})
		case met[w.Common]:
			faults.Add(geodata.Fault{
				Code: "weed-twice", Pos: at, Read: name,
				Message: key + " names " + w.Common + " twice", Want: "keep one of the two",
			})
			return w, false
		}
		met[w.Common] = true
		return w, known
	}
	for _, name := range site.Ground.Weeds {
		if w, ok := find("ground.weeds", name, site.Ground.WeedsAt); ok {
			b.Weeds = append(b.Weeds, w)
		}
	}
	for _, m := range site.Weeds {
		if w, ok := find("weeds", m.Name, m.At); ok {
			b.BedWeeds = append(b.BedWeeds, BedWeed{w, m.Beds, m.At})
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

// allWeeds are those met all over and those met in some beds.
func (b Brief) allWeeds() []firstwinter.Weed {
	out := slices.Clone(b.Weeds)
	for _, w := range b.BedWeeds {
		out = append(out, w.Weed)
	}
	return out
}

// weedsIn are the weeds met in one bed and not all over.
func (b Brief) weedsIn(bed string) []firstwinter.Weed {
	var out []firstwinter.Weed
	for _, w := range b.BedWeeds {
		if slices.ContainsFunc(w.Beds, func(name string) bool { return sameName(name, bed) }) {
			out = append(out, w.Weed)
		}
	}
	return out
}

// sameName is true for two names of one bed, whatever their capitals and the space
// round them.
func sameName(a, b string) bool {
	return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b))
}

// weedsOfNoBed tells of weeds said to be in a bed that there is none of.
func (b Brief) weedsOfNoBed(beds []Bed) []geodata.Fault {
	var out []geodata.Fault
	for _, w := range b.BedWeeds {
		for _, name := range w.Beds {
			if !slices.ContainsFunc(beds, func(b Bed) bool { return sameName(name, b.Name) }) {
				out = append(out, geodata.Fault{
					Code: "weed-of-no-bed", Severity: geodata.Warning, Pos: w.At, Read: name,
					Message: fmt.Sprintf("%s is said to be in a bed that is not there: nothing is covered against it in that place", w.Weed.Common),
					Want:    "name the beds as they are named on the plan",
				})
			}
		}
	}
	return out
}

// weedCautions warns of weeds that must be left alone.
func (j judge) weedCautions() []caution.Caution {
	var out []caution.Caution
	for _, w := range j.brief.allWeeds() {
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
