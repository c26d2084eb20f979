package words

import (
	"fmt"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/frame"
)

// BedHeads are the heads of the table of beds.
func BedHeads() []string {
	return []string{"Bed", "Edge", "Firm", "Fall", "Boards", "Pegs", "Fill"}
}

// BedRow is one bed in the table of beds.
func (w Words) BedRow(b siting.Bed) []string {
	firm := "yes"
	if !b.EdgeFirm {
		firm = "no"
	}
	boards, pegs, fill := "none", "none", "none"
	if b.Build != nil {
		boards, fill = w.boardsShort(b), w.Small(b.Build.Fill)
	}
	if b.Build != nil && b.Pegs != nil && b.Pegs.Count > 0 {
		pegs = fmt.Sprintf("%d, %s deep", b.Pegs.Count, w.deep(geodata.Exactly(b.Pegs.Embedment.Value)))
	}
	return []string{b.Name, w.edgeSaid(b), firm, w.fallShort(b), boards, pegs, fill}
}

// fallShort is the fall for a table: no single figure where it cannot be told.
func (w Words) fallShort(b siting.Bed) string {
	if !b.FallTold {
		return fmt.Sprintf("cannot tell: %s to %s %%", fixed(b.FallPercent.Low, 1), fixed(b.FallPercent.High, 1))
	}
	return w.Percent(b.FallPercent)
}

// edgeSaid is the class, with the stop that takes the building away.
func (w Words) edgeSaid(b siting.Bed) string {
	if Stopped(b) {
		return fmt.Sprint(b.Edge) + "; stopped, see cautions"
	}
	return fmt.Sprint(b.Edge)
}

// Stopped tells whether a bed that its class would allow must not be built yet.
func Stopped(b siting.Bed) bool { return b.Build == nil && b.Edge != frame.DoNotBuild }

// boardsShort is the heights of the boards on the uphill and downhill sides.
func (w Words) boardsShort(b siting.Bed) string {
	up, down := b.Build.BoardUphill, b.Build.BoardDownhill
	switch {
	case up <= 0 && down <= 0:
		return "none"
	case up <= 0:
		return w.Small(down) + " down"
	case up == down:
		return w.Small(up)
	}
	return w.Small(up) + " up, " + w.Small(down) + " down"
}

// Decided says what decided a bed's class and how near the next one is.
func (w Words) Decided(b siting.Bed) []Item {
	out := []Item{{"Edge", w.edgeSaid(b)}}
	if b.EdgeBecause != "" {
		out = append(out, Item{"Because", w.Prose(b.EdgeBecause)})
	}
	out = append(out, Item{"Firm", w.firmSaid(b)})
	if t := chanceSaid(b); t != "" {
		out = append(out, Item{"Likely", sentence(t)})
	}
	if b.NextEdge != "" {
		out = append(out, Item{"Next class", w.Prose(b.NextEdge)})
	}
	if b.MilderEdge != "" {
		out = append(out, Item{"Milder class", w.Prose(b.MilderEdge)})
	}
	if b.Worth != "" {
		out = append(out, Item{"Worth boarding?", strings.TrimSpace(sentence(w.Prose(b.Worth)) + " " + w.keptSaid(b))})
	}
	if len(b.Cautions) > 0 {
		out = append(out, Item{"Cautions", strings.Join(b.Cautions, ", ")})
	}
	return out
}

func rangeSaid(r []frame.Class) string {
	if len(r) == 0 {
		return "another class"
	}
	first, last := fmt.Sprint(r[0]), fmt.Sprint(r[len(r)-1])
	if first == last {
		return "the fall cannot be told, though over its whole band the edge would be " + first
	}
	return "over the band of the fall it may be anything from " + first + " to " + last
}

// Ground says how a bed lies and what water reaches it.
func (w Words) Ground(b siting.Bed) []Item {
	low := "cannot tell"
	if b.LowEnd != "" {
		low = b.LowEnd + ", looking uphill"
	}
	out := []Item{
		{"Size", w.Units.Length(b.Length) + " by " + w.Units.Length(b.Width)},
		{"Middle", w.Place(b.Centre)},
		{"Long side", degrees(b.LongSide) + ", " + fixed(b.OffContour, 0) + "° off the contour"},
		{"Fall of the ground", w.Prose(b.FallSaid)},
		{"Fall across", w.SmallBand(b.FallAcross)},
		{"Fall along", w.SmallBand(b.FallAlong)},
		{"Low end", low},
		{"Water leaves to the", w.Bearing(b.RunoffBearing)},
		{"Slope draining on to it", w.slopeAbove(b)},
		{"Run-on in the design storm", w.Flow(b.RunOnRate)},
		{"Depth of sheet flow", of(b.SheetDepth, w.Thin)},
	}
	for _, n := range b.PlaceNotes {
		out = append(out, Item{"Note", sentence(w.Prose(n))})
	}
	return out
}

// slopeAbove is the slope that drains on to a bed, and whether more may lie
// beyond the survey.
func (w Words) slopeAbove(b siting.Bed) string {
	t := w.LengthBand(b.RunOnLength)
	if b.Water != nil && b.Water.Area.RisesOver && b.Water.Area.Outside.Value == 0 {
		t += "; the ground rises beyond the survey, and nothing is counted from there"
	}
	return t
}

// Thin is a depth of water in millimetres, to a tenth in SI units.
func (w Words) Thin(mm float64) string {
	if w.Units == geodata.FeetAndInch {
		return significant(mm/25.4, 2) + " in"
	}
	return fixed(mm, 1) + " mm"
}
