package words

import (
	"strings"

	"crossfall/siting"
	"crossfall/siting/setout"
)

// SetOutHeads are the heads of a bed's table of corners.
func SetOutHeads() []string {
	return []string{"Corner", "Tape from the marks", "Side of the line", "Expected error"}
}

// SetOutRow is one corner taped from two marks.
func (w Words) SetOutRow(c setout.Corner) []string {
	ties := make([]string, len(c.Ties))
	for i, t := range c.Ties {
		ties[i] = t.Mark + " " + w.Tape(t.Distance)
	}
	tape, side := strings.Join(ties, ", "), c.Side
	if len(ties) == 0 {
		tape = "no sound pair of marks; lies at " + w.Place(c.At)
	}
	if side == "" {
		side = "not said"
	}
	return []string{c.Name, tape, side, "±" + w.Small(c.Error.Value)}
}

// Suspects are the heights that look mis-booked.
func (w Words) Suspects(g siting.Ground) []Item {
	out := make([]Item, len(g.Suspects))
	for i, s := range g.Suspects {
		out[i] = Item{s.Name, sentence(w.Prose(s.Reason))}
	}
	return out
}

// NextReading is the height most worth taking next.
func (w Words) NextReading(g siting.Ground) string { return sentence(w.Prose(g.NextHeight)) }

// Uncertainty says how sure the ground is and how to read the figures.
func (w Words) Uncertainty(a *siting.Assessment) []Item {
	g := a.Ground
	out := []Item{
		{"Ground taken as", strings.TrimSuffix(sentence(g.Surface+": "+w.Prose(g.SurfaceWhy)), ": .")},
		{"Fall of the ground", sentence(w.Prose(g.FallSaid))},
	}
	if !g.Uneven {
		out = append(out,
			Item{"Flattest", w.Percent(g.LeastFall.Percent) + " at " + w.Place(g.LeastFall.At)},
			Item{"Steepest", w.Percent(g.GreatestFall.Percent) + " at " + w.Place(g.GreatestFall.At)})
	}
	out = append(out, []Item{
		{"Heights read to", w.Thin(g.Precision) + ", one standard deviation"},
		{"Heights scatter about the ground by", w.Thin(g.ResidualSpread)},
	}...)
	if g.Uneven {
		out = append(out, Item{"Uneven", "the ground changes more than the heights can follow; take more between them"})
	}
	for _, n := range g.Notes {
		out = append(out, Item{"Note", sentence(w.Prose(n))})
	}
	return append(out, Item{"Figures in brackets", "the band within which the figure lies: 95 times in 100 for what was measured, the ends of the range for what rests on defaults."})
}
