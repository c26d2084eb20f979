package words

import (
	"fmt"
	"slices"
	"strconv"

	"crossfall/siting"
	"crossfall/siting/firstwinter"
)

// laterYears names the year of a step after the first.
var laterYears = map[int]string{2: "next year", 3: "third year", 4: "fourth year", 5: "fifth year"}

// when names the months of a step and, after the first, its year.
func when(months string, year int) string {
	if y := laterYears[year]; y != "" {
		return months + ", " + y
	}
	return months
}

// WorkShort is the order of work, one line a step; nil without beds to build.
func (w Words) WorkShort(a *siting.Assessment) []Item {
	return w.workSteps(a, func(s firstwinter.Step) string { return s.What })
}

// Work is the order of work with its reasons.
func (w Words) Work(a *siting.Assessment) []Item {
	return w.workSteps(a, func(s firstwinter.Step) string {
		t := s.What + ": " + s.Why
		if s.Source != "" {
			t += " (" + s.Source + ")"
		}
		return t
	})
}

func (w Words) workSteps(a *siting.Assessment, said func(firstwinter.Step) string) []Item {
	p := a.OrderOfWork
	if len(p.Steps) == 0 {
		return nil
	}
	out := []Item{{"Wet season", sentence(firstwinter.Months(p.Season.First, p.Season.Last) + ": " + p.Season.Why)}}
	for _, s := range p.Steps {
		t := said(s)
		if len(s.Beds) > 0 {
			t = list(s.Beds) + ": " + t
		}
		out = append(out, Item{when(firstwinter.Months(s.First, s.Last), s.Year), sentence(w.Prose(t))})
	}
	return out
}

// buildBefore says by when the beds must stand; "" without beds to build.
func buildBefore(a *siting.Assessment) string {
	p := a.OrderOfWork
	if len(p.Steps) == 0 {
		return ""
	}
	t := "Build before " + p.Season.First.String() + ", when the wet season begins"
	if Covered(a) {
		t += ", and cover the beds as told under the order of work"
	}
	return t + "."
}

// CoverHeads are the heads of CoverRows.
func CoverHeads() []string {
	return []string{"Bed", "Cardboard", "Woven cover", "Against", "Covered for", "Off from"}
}

// Covered tells whether any bed is to be covered.
func Covered(a *siting.Assessment) bool {
	return slices.ContainsFunc(a.OrderOfWork.Covers, func(c firstwinter.Cover) bool { return c.Layers > 0 })
}

// CoverRows are what lies under and over each bed.
func CoverRows(a *siting.Assessment) [][]string {
	var rows [][]string
	for _, c := range a.OrderOfWork.Covers {
		row := []string{c.Bed, count(c.Cardboard, "sheet"), "none", "none", "none", "none"}
		if c.Layers > 0 {
			row[2], row[3] = count(c.Layers, "layer"), list(c.Against)
			row[4] = of(*c.Months, func(v float64) string { return fixed(v, 0) + " months" })
			row[5] = when(c.LiftMonth.String(), c.LiftYear)
		}
		rows = append(rows, row)
	}
	return rows
}

// WeedsMet are the weeds named, with what each asks.
func (w Words) WeedsMet(a *siting.Assessment) []Item {
	var out []Item
	for _, m := range a.OrderOfWork.Weeds {
		t := "spreads " + m.Spreads
		if len(m.Beds) > 0 {
			t = "in " + list(m.Beds) + "; " + t
		}
		if m.Months != nil {
			t += fmt.Sprintf("; %s first; %s of cardboard, %s of cover for %s", m.First, count(m.Cardboard, "sheet"), count(m.Layers, "layer"),
				of(*m.Months, func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) + " months" }))
		} else {
			t += "; " + m.Leave
		}
		out = append(out, Item{m.Common + " (" + m.Botanical + ")", sentence(w.Prose(t) + " (" + m.Source + ")")})
	}
	return out
}

// WetGround is what may be carried to each bed over wet ground.
func (w Words) WetGround(a *siting.Assessment) []Item {
	var out []Item
	for _, l := range a.OrderOfWork.Wet {
		out = append(out, Item{l.Bed, sentence(w.Prose(l.Said))})
	}
	return out
}
