package words

import (
	"fmt"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
)

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
