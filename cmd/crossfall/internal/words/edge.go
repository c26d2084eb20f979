package words

import (
	"fmt"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/frame"
)

// EdgeHeads are the heads of the table of a bed's possible edges; "At risk" is
// left out where nothing is known of it.
func EdgeHeads(b siting.Bed) []string {
	heads := []string{"Edge", "Compost", "Boards", "Pegs", "Digging", "Lasts", "Cost"}
	if riskKnown(b) {
		heads = append(heads, "At risk")
	}
	return heads
}

func riskKnown(b siting.Bed) bool {
	for _, o := range b.Options {
		if o.CompostAtRisk != nil {
			return true
		}
	}
	return false
}

// EdgeRows are the four ways to edge a bed, one a row; none where nothing is to
// be built.
func (w Words) EdgeRows(b siting.Bed, currency string) [][]string {
	var out [][]string
	for _, o := range b.Options {
		row := w.edgeRow(o, currency)
		if riskKnown(b) {
			row = append(row, w.riskSaid(o))
		}
		out = append(out, row)
	}
	return out
}

func (w Words) edgeRow(o siting.EdgeOption, currency string) []string {
	name := string(o.Edge)
	if o.Chosen {
		name += ", chosen"
	}
	if !o.Stands {
		return []string{name + ": cannot stand here", "none", "none", "none", "none", "none", "none"}
	}
	boards, pegs, digging, lasts, cost := "none", "none", "none", "no boards", "no price given"
	if o.Boards > 0 {
		boards = fmt.Sprintf("%d, %s in all", o.Boards, w.Units.Length(o.BoardLength))
	}
	if o.Pegs > 0 {
		pegs = fmt.Sprintf("%d, %s deep", o.Pegs, w.deep(geodata.Exactly(o.PegDepth)))
	}
	if o.Digging > 0 {
		digging = w.Litres(o.Digging)
	}
	if o.Life != nil {
		lasts = years(*o.Life)
	}
	if o.Cost != nil {
		cost = strings.TrimSpace(fixed(*o.Cost, 2) + " " + currency)
	}
	return []string{name, w.Units.Volume(o.Compost.Value), boards, pegs, digging, lasts, cost}
}

func (w Words) riskSaid(o siting.EdgeOption) string {
	switch {
	case !o.Stands:
		return "none"
	case o.CompostAtRisk == nil:
		return "not known"
	}
	return of(*o.CompostAtRisk, w.risk)
}

// keptSaid sets what a winter may take with open edges beside what it may take
// as chosen, or with boards where open edges are chosen; empty where it is not
// known.
func (w Words) keptSaid(b siting.Bed) string {
	var open, other *siting.EdgeOption
	name := "as chosen"
	for i := range b.Options {
		switch o := &b.Options[i]; {
		case o.CompostAtRisk == nil:
		case o.Edge == frame.OpenEdged:
			open = o
		case o.Chosen, o.Edge == frame.Boarded && b.Edge == frame.OpenEdged:
			other = o
		}
	}
	if open == nil || other == nil {
		return ""
	}
	if b.Edge == frame.OpenEdged {
		name = "with boards"
	}
	return fmt.Sprintf("A winter may take %s of compost with open edges, %s %s.", w.riskSaid(*open), name, w.riskSaid(*other))
}

// Litres is a volume of earth.
func (w Words) Litres(litres float64) string {
	if w.Units == geodata.FeetAndInch {
		return cubicFeet(litres/litresInCubicFoot, "")
	}
	return significant(litres, 2) + " litres"
}

// EdgeReasons say what speaks against the edges that were not chosen.
func (w Words) EdgeReasons(b siting.Bed) []Item {
	var out []Item
	for _, o := range b.Options {
		if o.Against != "" {
			out = append(out, Item{"Why not " + string(o.Edge), w.Prose(o.Against)})
		}
	}
	return out
}

// bow is how far a board bends, which in inches is often next to nothing.
func (w Words) bow(mm float64) string {
	if w.Units == geodata.FeetAndInch {
		if mm < 25.4/8 {
			return "under 1/8 in"
		}
		return w.Small(mm)
	}
	return fixed(mm, 1) + " mm"
}

// years is a length of life.
func years(e geodata.Estimate) string {
	return of(e, func(v float64) string { return strings.TrimSuffix(fixed(v, 1), ".0") + " years" })
}

func sentenceCase(t string) string { return strings.ToUpper(t[:1]) + t[1:] }

// steps says how a stepped bed goes up.
func (w Words) steps(u *siting.Build) string {
	t := strconv.Itoa(u.BaysAlong) + " bays along the bed"
	switch {
	case u.BaysAlong < 2:
		t = strconv.Itoa(u.BaysAcross) + " bays across the bed"
	case u.BaysAcross > 1:
		t += " and " + strconv.Itoa(u.BaysAcross) + " across it"
	}
	return t + ", each up to " + w.Small(u.StepRise) + " above the next"
}
