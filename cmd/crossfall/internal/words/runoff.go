package words

import (
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/terrain/drainage"
)

// RainSaid says what rain was used and where it came from.
func (w Words) RainSaid(a *siting.Assessment) []Item {
	wa := a.Water
	var out []Item
	if wa.WinterRain == nil {
		out = append(out, Item{"Winter rain", sentence("no rain figures were given")})
	} else {
		out = append(out, Item{"Winter rain", sentence(of(*wa.WinterRain, w.rain) + ", " + wa.WinterMonths + "; from " + w.Prose(wa.WinterSource))})
	}
	if wa.DesignSource != "" {
		out = append(out, Item{"Storms from", sentence(w.Prose(wa.DesignSource))})
	}
	if wa.DesignSaid != "" {
		out = append(out, Item{"Taken as", sentence(w.Prose(wa.DesignSaid))})
	}
	return out
}

// StormHeads are the heads of the table of design storms.
func StormHeads() []string {
	return []string{"Met once in", "15 minutes", "Rate", "A day", "Of the day runs off"}
}

// StormRows are the design storms, one a row.
func (w Words) StormRows(storms []siting.DesignStorm) [][]string {
	var out [][]string
	for _, s := range storms {
		day, off := "not known", s.DayRunoffOf
		if s.Day != nil {
			day = of(*s.Day, w.rain)
		}
		if s.DayRunoff != nil {
			off = of(*s.DayRunoff, w.rain)
		}
		out = append(out, []string{yearsSaid(s.ReturnYears), of(s.Depth, w.rain), of(s.Rate, w.rate), day, w.Prose(off)})
	}
	return out
}

// DayHeads are the heads of the table of the greatest days.
func DayHeads() []string {
	return []string{"Met once in", "Greatest day of a winter", "Of a year", "Of all storms"}
}

// DayRows are the greatest days of the record by return period; none without one.
func (w Words) DayRows(d *siting.RainDays) [][]string {
	if d == nil {
		return nil
	}
	cell := func(levels []siting.DayLevel, i int) string {
		if i >= len(levels) {
			return "too few"
		}
		t := of(levels[i].Depth, w.rain)
		if levels[i].Extrapolated {
			t += ", beyond the record"
		}
		return t
	}
	var out [][]string
	for i, l := range d.Winters {
		out = append(out, []string{yearsSaid(l.ReturnYears), cell(d.Winters, i), cell(d.Years, i), cell(d.Storms, i)})
	}
	return out
}

// DayItems say where the greatest days come from.
func (w Words) DayItems(d *siting.RainDays) []Item {
	if d == nil {
		return nil
	}
	out := []Item{{"Greatest days of", sentence(d.From + ", as read at a fixed hour; the greatest 24 hours are 1.13 times as much on average")}}
	for _, m := range d.Models {
		out = append(out, Item{"Fitted", sentence(m)})
	}
	if d.StormsWhy != "" {
		out = append(out, Item{"Of all storms", sentence(w.Prose(d.StormsWhy))})
	}
	return out
}

// yearsSaid is a return period.
func yearsSaid(years float64) string { return strconv.FormatFloat(years, 'f', -1, 64) + " years" }

// PathItems are paths, each in a sentence.
func (w Words) PathItems(paths []siting.Path) []Item {
	var out []Item
	for _, p := range paths {
		out = append(out, Item{"Runoff " + p.Name, sentence(w.Units.Length(p.Length) + " long: " + w.Prose(p.Said) + pathChance(p))})
	}
	return out
}

// TurnedItems are the paths that the beds change, each in a sentence, and what
// becomes of the others; none where no frame turns water.
func (w Words) TurnedItems(a *siting.Assessment) []Item {
	var changed []siting.Path
	for _, p := range a.Water.PathsWithBeds {
		if len(p.TurnedBy) > 0 || p.End == string(drainage.EntersRegion) {
			changed = append(changed, p)
		}
	}
	if len(a.Water.PathsWithBeds) == 0 {
		return nil
	}
	out := w.PathItems(changed)
	switch others := len(a.Water.PathsWithBeds) - len(changed); {
	case len(changed) == 0:
		out = append(out, Item{"All", "They run as before: no frame of boards stands in their way."})
	case others > 0:
		out = append(out, Item{"The others", "They run as before."})
	}
	return out
}

// HollowItems are the places where water stands.
func (w Words) HollowItems(hollows []siting.Hollow) []Item {
	var out []Item
	for i, h := range hollows {
		out = append(out, Item{"Hollow " + strconv.Itoa(i+1), sentence(w.Small(h.Depth) + " deep over " + w.Units.Area(h.Area) + ", holding " +
			w.Units.Volume(h.Volume) + "; deepest at " + w.Place(h.At) + ", spills at " + w.Place(h.Spill))})
	}
	return out
}

// PlaceItems are the damp places of the plot and those where cold air lies.
func (w Words) PlaceItems(a *siting.Assessment) []Item {
	var out []Item
	for _, p := range a.Water.Places {
		t := w.Prose(p.Said) + "; about " + w.Place(p.At)
		if len(p.Beds) > 0 {
			t += "; " + list(p.Beds) + " in it"
		}
		out = append(out, Item{sentenceCase(p.What), sentence(t)})
	}
	return out
}

// CrossingItems are the stretches of boundary that water crosses.
func (w Words) CrossingItems(a *siting.Assessment) []Item {
	var out []Item
	for _, c := range a.Water.Inflow {
		out = append(out, Item{"Comes in by", w.crossing(c, "from ")})
	}
	for _, c := range a.Water.Outflow {
		out = append(out, Item{"Leaves by", w.crossing(c, "the water of ")})
	}
	return out
}

// crossing is one stretch in a sentence.
func (w Words) crossing(c siting.Crossing, from string) string {
	t := "the " + c.Side
	if c.Width > 0 {
		t += ", over " + w.Units.Length(c.Width)
	}
	t += " about " + w.Place(c.At)
	share := "of all"
	switch {
	case c.Area.Value > 0:
		t += ", " + from + of(c.Area, w.Units.Area)
	case c.Width > 0:
		share = "of the width over which water comes in"
	}
	if c.Share > 0 && c.Share < .995 {
		t += ": " + fixed(100*c.Share, 0) + " % " + share
	}
	if c.Area.Value <= 0 && c.Width > 0 {
		t += "; how much comes from beyond is not counted"
	}
	return sentence(t)
}

// LossItems are the yearly soil loss of the plot under each cover.
func (w Words) LossItems(a *siting.Assessment) []Item {
	var out []Item
	for _, l := range a.Water.YearlyLoss {
		out = append(out, Item{sentenceCase(l.Cover), sentence(w.soilLoss(l.Loss) + strings.TrimRight(": "+w.Prose(l.Said), ": "))})
	}
	if a.Water.LossNote != "" {
		out = append(out, Item{"Note", sentence(w.Prose(a.Water.LossNote))})
	}
	return out
}

// soilLoss is a yearly soil loss in tonnes a hectare; in feet and inches on the
// size of a garden.
func (w Words) soilLoss(e geodata.Estimate) string {
	scale, unit := 1., " tonnes a hectare a year"
	if w.Units == geodata.FeetAndInch {
		scale, unit = 100*poundsOnSquareFoot, loadUnit+" a year"
	}
	return of(e.Times(scale), func(v float64) string { return significant(v, 2) }) + unit
}

// AdviceItems are what to do about winter water.
func (w Words) AdviceItems(a *siting.Assessment) []Item {
	var out []Item
	for _, d := range a.Water.Advice {
		name := "The plot"
		if d.Bed != "" {
			name = sentenceCase(d.Bed)
		}
		out = append(out, Item{name, sentence(w.Prose(d.What)) + " " + sentence(w.Prose(d.Why))})
	}
	return out
}
