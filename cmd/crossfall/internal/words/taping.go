package words

import (
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/caution"
	"crossfall/siting/setout"
)

// Taping is how a sheet is to be taped.
type Taping struct {
	Slope bool // tapes lie on the ground, else they are held level
	Every bool // with two tapes to every corner and peg
}

// SheetPart is one part of the setting-out sheet: what is filled is shown, in
// this order.
type SheetPart struct {
	Title string
	Items []Item
	Lines []string
	Heads []string
	Rows  [][]string
	Tasks []string // to be ticked off, in order
}

// SetOutSheet is the whole sheet, in the order in which it is worked.
func (w Words) SetOutSheet(a *siting.Assessment, how Taping) []SheetPart {
	s := a.SettingOut
	parts := []SheetPart{w.tapingSaid(s, how), w.setOutCautions(a)}
	if len(s.Beds) == 0 {
		return shown(parts)
	}
	parts = append(parts, w.setOutMarks(s, how), w.setOutSteps(s))
	parts = append(parts, w.SetOutTables(s, how)...)
	parts = append(parts, w.boardTops(s))
	if how.Every {
		for _, b := range s.Beds {
			parts = append(parts, w.everyPoint(b, how))
		}
	}
	return shown(parts)
}

// SetOutTables are the figures of the sheet: the ends of the rows, the beds along
// their strings, the squaring and the pegs; all but the heights.
func (w Words) SetOutTables(s setout.Sheet, how Taping) []SheetPart {
	return shown([]SheetPart{w.rowEnds(s, how), w.alongStrings(s, how), w.squaring(s, how), w.boardPegs(s)})
}

// shown leaves out the parts that say nothing.
func shown(parts []SheetPart) []SheetPart {
	return slices.DeleteFunc(parts, func(p SheetPart) bool {
		return len(p.Items)+len(p.Lines)+len(p.Rows)+len(p.Tasks) == 0
	})
}

// Tape is a length to be taped: to a millimetre, or an eighth of an inch.
func (w Words) Tape(m float64) string {
	if w.Units != geodata.FeetAndInch {
		return fixed(m, 3) + " m"
	}
	if math.IsNaN(m) || math.IsInf(m, 0) {
		return unknown
	}
	foot := float64(geodata.Foot)
	eighths := math.Round(math.Abs(m) / foot * 96)
	feet := math.Floor(eighths / 96)
	inches := w.Units.Small((eighths - 96*feet) / 96 * foot)
	sign := ""
	if m < 0 && eighths > 0 {
		sign = "-"
	}
	switch {
	case feet == 0:
		return sign + inches
	case eighths == 96*feet:
		return fmt.Sprintf("%s%.0f ft", sign, feet)
	}
	return fmt.Sprintf("%s%.0f ft %s", sign, feet, inches)
}

// taped is a distance as the tape is held.
func (w Words) taped(t setout.Taped, how Taping) string {
	if how.Slope {
		return w.Tape(t.OnSlope)
	}
	return w.Tape(t.Distance)
}

func (w Words) tie(t setout.Tie, how Taping) string { return t.Mark + " " + w.taped(t.Taped, how) }

// tapingSaid says how to hold the tape and what the words mean.
func (w Words) tapingSaid(s setout.Sheet, how Taping) SheetPart {
	p := SheetPart{Title: "Setting out"}
	if s.Note != "" {
		p.Items = append(p.Items, Item{"Before you begin", sentence(w.Prose(s.Note))})
	}
	if len(s.Left) > 0 {
		p.Items = append(p.Items, Item{"Not set out", list(s.Left) + ": must not be built, so neither corners nor pegs are given"})
	}
	if len(s.Beds) == 0 {
		return p
	}
	square := "the two downhill corners by the bed's width and diagonals; shift the downhill side until both diagonals measure alike"
	held := "level, with a plumb line at its low end; all distances but those over the board tops are level"
	if how.Slope {
		square = "the two downhill corners by the bed's sides and diagonals; shift the downhill side until both diagonals measure what is given, which need not be alike"
		held = "on the slope, pulled tight along the ground; all distances but those over the board tops are worked for the ground as fitted"
	}
	return SheetPart{Title: p.Title, Items: append(p.Items,
		Item{"Hold the tape", held},
		Item{"Left and right", "of beds and rows: looking uphill. Of the line between two marks: standing at the mark named first and looking to the second"},
		Item{"String", "tied off a stride outside the two canes of a row. If it is off between them by more than is allowed, tape the ends again"},
		Item{"Squaring", square},
		Item{"Expected error", fmt.Sprintf("half the length and breadth of the patch in which a point lies 95 times in 100, by tapes good to %s (common practice)", w.tapeError())},
		Item{"Time", fmt.Sprintf("about %s for two people (%.0f to %.0f; a default of ours)", count(int(math.Round(s.Minutes.Value)), "minute"), s.Minutes.Low, s.Minutes.High)},
	)}
}

// tapeError is what a tape is taken to be good to.
func (w Words) tapeError() string {
	if w.Units == geodata.FeetAndInch {
		return w.Thin(setout.ReadingError) + " and " + w.Thin(setout.StretchError*10*float64(geodata.Foot)) + " for each 10 ft"
	}
	return significant(setout.ReadingError, 2) + " mm and " + significant(setout.StretchError, 2) + " mm for each metre"
}

// setOutCautions are all stops, and the warnings that bear on a bed, on services
// or on the ground that is dug.
func (w Words) setOutCautions(a *siting.Assessment) SheetPart {
	p := SheetPart{Title: "Before anything is driven or dug"}
	heed := map[string]bool{}
	for _, c := range a.Cautions {
		heed[c.ID] = c.Severity == caution.Stop || c.Severity == caution.Warning && (c.Bed != "" || slices.Contains(diggingKinds, c.Kind))
	}
	for _, c := range w.Cautions(a) {
		if heed[c.ID] {
			p.Lines = append(p.Lines, c.Mark+": "+c.Text)
		}
	}
	return p
}

// diggingKinds are the cautions of the whole plot that whoever digs must know.
var diggingKinds = []string{"service", "utilities", "unstable ground"}

// setOutMarks are the marks, and how canes are set where there are none.
func (w Words) setOutMarks(s setout.Sheet, how Taping) SheetPart {
	p := SheetPart{Title: "Marks to tape from", Heads: []string{"Mark", "Place", "What to do"}}
	for _, m := range s.Marks {
		do := "is there"
		if m.Proposed {
			where := m.Where
			if where == "" {
				where = "taped from " + w.ties(m.Ties, how) + ", on the " + m.Side + " of the line from the first to the second"
			}
			do = "set an upright cane " + w.Prose(where)
			if len(m.Apart) > 0 {
				do += "; it stands from " + w.ties(m.Apart, how)
			}
		}
		p.Rows = append(p.Rows, []string{m.Name, w.Place(m.At), do})
	}
	return p
}

func (w Words) ties(ties []setout.Tie, how Taping) string {
	out := make([]string, len(ties))
	for i, t := range ties {
		out[i] = w.tie(t, how)
	}
	return list(out)
}

// setOutSteps is the order of work.
func (w Words) setOutSteps(s setout.Sheet) SheetPart {
	p := SheetPart{Title: "In this order"}
	for _, t := range s.Steps {
		text := w.Prose(t.Do)
		if t.Minutes.Value > 0 {
			text += fmt.Sprintf(" (about %s)", count(int(math.Round(t.Minutes.Value)), "minute"))
		}
		p.Tasks = append(p.Tasks, text)
	}
	return p
}
