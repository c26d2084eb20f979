package words

import (
	"fmt"
	"strconv"
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

// BuildList says what to make of a bed; nil where nothing may be built.
func (w Words) BuildList(b siting.Bed) []Item {
	if b.Build == nil {
		return nil
	}
	u := b.Build
	out := []Item{
		{"Compost", w.VolumeBand(u.Compost) + ", " + w.Small(u.Fill) + " deep at the least"},
		{"Top", "falls " + fixed(u.TopAcross, 1) + " % across, " + fixed(u.TopAlong, 1) + " % along"},
	}
	if u.RunDownhill != nil && u.RunUphill != nil {
		out = append(out, Item{"Open edges", fmt.Sprintf("rake them back from the outline: over %s downhill and %s uphill; after a wet winter they lie out over %s and %s",
			w.Small(u.RunDownhill.Value), w.Small(u.RunUphill.Value), w.Small(u.RunDownhill.High), w.Small(u.RunUphill.High))})
	}
	if u.Retained.High > 0 && u.BoardDownhill > 0 {
		out = append(out, Item{"Compost against the lowest board", w.SmallBand(u.Retained)})
	}
	out = append(out, w.boardItems(b)...)
	out = append(out, w.pegItems(b)...)
	if u.SlipFactor > 0 {
		out = append(out, Item{"Against slipping in winter", "factor of safety " + fixed(u.SlipFactor, 1)})
	}
	for _, c := range u.Changes {
		out = append(out, Item{"Changed from the wish", w.Prose(c)})
	}
	for _, n := range u.Notes {
		out = append(out, Item{"Heed", w.Careful(n)})
	}
	return out
}

// stackSaid says how boards stand on one another; empty for one board.
func (w Words) stackSaid(stack []float64) string {
	if len(stack) < 2 {
		return ""
	}
	parts := make([]string, len(stack))
	for i, h := range stack {
		parts[len(stack)-1-i] = w.Small(h)
	}
	return " (" + strings.Join(parts, " on ") + ")"
}

func (w Words) boardItems(b siting.Bed) []Item {
	u := b.Build
	var out []Item
	side := func(name string, bought float64, stack []float64) {
		if bought > 0 {
			out = append(out, Item{name, w.Small(bought) + " high" + w.stackSaid(stack) + ", " + w.Small(u.BoardThickness) + " thick"})
		}
	}
	side("Board on the uphill side", u.BoardUphill, u.StackUphill)
	side("Board on the downhill side", u.BoardDownhill, u.StackDownhill)
	if b.BoardHeightUphill != nil && u.BoardUphill > 0 {
		out = append(out, Item{"Height needed uphill", w.deep(*b.BoardHeightUphill)})
	}
	if b.BoardHeightDownhill != nil && u.BoardDownhill > 0 {
		out = append(out, Item{"Height needed downhill", w.deep(*b.BoardHeightDownhill)})
	}
	if b.SunkenDepth != nil && b.SunkenDepth.High > 0 {
		out = append(out, Item{"Sink the edge", w.deep(*b.SunkenDepth) + " into the ground"})
	}
	if len(out) > 0 && u.BoardLife.Value > 0 {
		out = append(out, Item{"Life of the boards", years(u.BoardLife)})
	}
	if u.Digging > 0 {
		out = append(out, Item{"Earth to lift for the edges", w.Litres(u.Digging)})
	}
	if u.BoardStress > 0 {
		out = append(out, Item{"Boards when new", fmt.Sprintf("bent to %s %% of their strength in winter; bow %s between pegs, in the end %s",
			fixed(u.BoardStress*100, 0), w.bow(u.BoardSag.Low), w.bow(u.BoardSag.High))})
	}
	if u.BaysAlong > 1 || u.BaysAcross > 1 {
		out = append(out, Item{"Steps", w.steps(u)})
	}
	if u.CrossBoards > 0 {
		out = append(out, Item{"Cross boards", strconv.Itoa(u.CrossBoards)})
	}
	return out
}

func (w Words) pegItems(b siting.Bed) []Item {
	p := b.Pegs
	if p == nil || p.Count == 0 {
		return nil
	}
	length, driven := w.Small(p.Length)+" long", w.deep(p.Embedment)+" into the ground"
	if p.Point > 0 {
		length += " with a point of " + w.Small(p.Point)
		driven += ", and the point below that"
	}
	out := []Item{
		{"Pegs", fmt.Sprintf("%d, %s square, %s, no more than %s apart", p.Count, w.Small(p.Size), length, w.Units.Length(p.Spacing/1000))},
		{"Drive the pegs", driven},
		{"Pegs, factor of safety", fixed(p.FactorWinter, 1) + " in winter, " + fixed(p.FactorDrained, 1) + " drained; " + fixed(p.FactorBlocked, 1) + " in a bed full of water, which they are not made for"},
	}
	if p.CodeDepth > 0 {
		out = append(out, Item{"Pole formula of the building code", w.Small(p.CodeDepth) + " deep; made for poles, an upper bound that decides nothing"})
	}
	if p.Life != nil {
		out = append(out, Item{"Life of the pegs", years(*p.Life)})
	}
	return out
}

// deep is a depth or a height to be reached: in feet and inches it is rounded up.
func (w Words) deep(mm geodata.Estimate) string { return w.SmallBand(w.upward(mm)) }

// upward rounds sizes in feet and inches up to eighths of an inch.
func (w Words) upward(mm geodata.Estimate) geodata.Estimate {
	if w.Units != geodata.FeetAndInch {
		return mm
	}
	up := func(v float64) float64 { return 1000 * upward.inches(v/1000, 8) }
	return geodata.Estimate{Value: up(mm.Value), Low: up(mm.Low), High: up(mm.High)}
}

// PegPlaces are the pegs' positions, one a line.
func (w Words) PegPlaces(b siting.Bed) []string {
	if b.Pegs == nil || b.Build == nil {
		return nil
	}
	out := make([]string, len(b.Pegs.Positions))
	for i, p := range b.Pegs.Positions {
		out[i] = w.Place(p)
	}
	return out
}
