package words

import (
	"strconv"

	"crossfall/siting"
)

// Totals are the few figures by which two layouts are laid side by side.
func (w Words) Totals(a *siting.Assessment) []Item {
	q := a.Quantities
	boards, pegs, digging := 0, 0, 0.0
	for _, b := range q.Boards {
		boards += b.Count
	}
	for _, p := range q.Pegs {
		pegs += p.Count
	}
	for _, b := range a.Beds {
		if b.Build != nil {
			digging += b.Build.Digging
		}
	}
	out := []Item{
		{"Beds", strconv.Itoa(len(a.Beds))},
		{"Edges", classesSaid(a.Beds)},
		{"Compost to order", w.VolumeBand(q.CompostOrder)},
		{"Its mass, moist", w.MassBand(q.Mass)},
		{"Boards", strconv.Itoa(boards)},
		{"Pegs", strconv.Itoa(pegs)},
		{"Earth to lift", w.Litres(digging)},
	}
	if q.Push != nil {
		out = append(out, Item{"Push on " + q.PushOn, w.Push(*q.Push)})
	}
	return append(out, costItems(q.Cost)...)
}
