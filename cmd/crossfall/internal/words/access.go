package words

import (
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/access"
)

// AccessHeads are the heads of AccessRows.
func (w Words) AccessHeads() []string {
	over := strings.ReplaceAll(w.far(access.Stretch), " ", NoBreak)
	return []string{"Compost to", "By", "Way", "Up, each load", "Steepest rise over " + over, "Push, full load", "Loads"}
}

// AccessRows are the ways to the beds, one row for each bed that is built.
func (w Words) AccessRows(a *siting.Assessment) [][]string {
	var rows [][]string
	for _, b := range a.Beds {
		switch x := b.Access; {
		case x == nil:
			continue
		case x.By == access.NoWay:
			rows = append(rows, []string{b.Name, "nobody gets there", "", "", "", "", of(x.Loads, whole)})
		default:
			by := "barrow"
			switch {
			case x.By == access.OnFoot && x.ByHand < x.Length:
				by = "barrow, then " + w.far(x.ByHand) + " on foot"
			case x.By == access.OnFoot:
				by = "on foot"
			}
			rows = append(rows, []string{
				b.Name, by, w.far(x.Length), w.climbed(x.Climb), w.Percent(x.SteepestRise), w.Push(x.Push), of(x.Loads, whole),
			})
		}
	}
	return rows
}

// far is a length that is walked, to the metre or foot, and to two figures from a
// hundred on.
func (w Words) far(m float64) string {
	unit := " m"
	if w.Units == geodata.FeetAndInch {
		m, unit = m/float64(geodata.Foot), " ft"
	}
	if m >= 100 {
		return significant(m, 2) + unit
	}
	return fixed(m, 0) + unit
}

// climbed is what a load is lifted, to a tenth of a metre or half a foot.
func (w Words) climbed(m geodata.Estimate) string {
	if w.Units == geodata.FeetAndInch {
		return of(m.Times(1/float64(geodata.Foot)), func(v float64) string { return significant(math.Round(2*v)/2, 3) + " ft" })
	}
	return of(m, func(v float64) string { return fixed(v, 1) + " m" })
}

func whole(v float64) string { return fixed(v, 0) }

// AccessSaid says where compost comes from, what the whole job takes, and what
// may be done about ways that are hard.
func (w Words) AccessSaid(a *siting.Assessment) []Item {
	c := a.Carrying
	var from []string
	for _, s := range c.From {
		said := s.Said
		if s.Assumed {
			said += " (assumed: no gate and no heap is drawn)"
		}
		from = append(from, said)
	}
	var out []Item
	if len(from) > 0 {
		out = append(out, Item{"From", sentence(strings.Join(from, "; "))})
	}
	if c.Walked != nil {
		out = append(out, Item{"The whole job", sentence(of(*c.Walked, w.far) + " walked, there and back, and " + of(*c.Climbed, w.far) + " climbed with full loads")})
	}
	for _, b := range a.Beds {
		if b.Access == nil {
			continue
		}
		said := append([]string{}, b.Access.Advice...)
		if b.Access.By != access.ByBarrow {
			said = append([]string{b.Access.Said}, said...)
		}
		if len(said) > 0 {
			out = append(out, Item{b.Name, sentence(w.Prose(strings.Join(said, "; ")))})
		}
	}
	return out
}

// AccessNotes say what the ways rest on.
func (w Words) AccessNotes(a *siting.Assessment) []string {
	var out []string
	for _, n := range a.Carrying.Notes {
		out = append(out, sentence(w.Prose(n)))
	}
	return out
}

// cutOff names the beds that no barrow gets to; empty without one.
func cutOff(beds []siting.Bed) string {
	var onFoot, none []string
	for _, b := range beds {
		switch {
		case b.Access == nil:
		case b.Access.By == access.OnFoot:
			onFoot = append(onFoot, b.Name)
		case b.Access.By == access.NoWay:
			none = append(none, b.Name)
		}
	}
	var parts []string
	if len(none) > 0 {
		parts = append(parts, "nobody gets to "+list(none))
	}
	if len(onFoot) > 0 {
		parts = append(parts, "no barrow gets to "+list(onFoot))
	}
	if len(parts) == 0 {
		return ""
	}
	return sentence(strings.Join(parts, ", and ") + " as drawn: see how compost gets to the beds")
}
