package siting

import (
	"fmt"

	"crossfall/geodata"
	"crossfall/siting/takeoff"
)

// buying records the figures of the buying list.
func (l *ledger) buying(j judge, q takeoff.List) {
	if q.Compost.Value <= 0 {
		return
	}
	site := j.plot.Site
	practice := "common practice, no source"
	laid := input("compost as laid", q.Compost.Value, "m³", "computed")
	l.add("buying.compost", q.Compost, "m³", "compost of all beds, each over the ground under it", "see the compost of each bed")
	l.add("buying.compost-order", q.CompostOrder, "m³", "loose compost over compost as laid, times that", practice, laid,
		input("factor", q.CompostOrder.Value/q.Compost.Value, "", from(site.Compost.OrderFactor != nil)))
	l.add("buying.loads", q.Loads, "", "compost as laid over one load, rounded up", practice, laid, input("one load", j.brief.Load, "litres", from(site.Carrying.Load != nil)))
	l.add("buying.mass", q.Mass, "kg", "compost as laid times its moist density", "see what the fill is taken as", laid)
	l.add("buying.cardboard", geodata.Exactly(float64(q.Cardboard)), "sheets", "least rows and columns of lapped sheets over each bed and its overhang, times the sheets thick, and a tenth more", practice)
	if q.CoverArea > 0 {
		l.add("buying.cover", geodata.Exactly(q.CoverArea), "m²", "(length + 0.6 m) (width + 0.6 m) times the layers, bed by bed", practice)
		l.add("buying.cover-pins", geodata.Exactly(float64(q.CoverPins)), "", "one every 0.5 m along its edges", practice)
	}
	for i, b := range q.Boards {
		l.add(fmt.Sprintf("buying.boards-%d", i+1), geodata.Exactly(float64(b.Count)), "",
			fmt.Sprintf("the least board in all, of %.0f by %.0f mm in the lengths on sale, that holds the cut list; each piece takes its length and a saw cut", b.Height, b.Thickness),
			"bin completion: Korf, AAAI 2002; lower bound: Martello & Toth, Knapsack Problems (1990), section 8.3",
			input("length of a board", b.Length/1000, "m", from(len(site.Boards.Lengths) > 0)), input("left over", b.Waste/1000, "m", "computed"),
			input("least that boards of this section can be in all", b.Bound/1000, "m", "computed"))
	}
	l.buyingRest(j, q)
}

// buyingRest records what is counted off the frames, the push and the years after.
func (l *ledger) buyingRest(j judge, q takeoff.List) {
	practice := "common practice, no source"
	if q.Screws > 0 {
		l.add("buying.screws", geodata.Exactly(float64(q.Screws)), "", "2 for each peg and board, 3 for each corner and board, 2 for each cross board", practice)
	}
	l.add("buying.yearly-top-up", q.YearlyTopUp, "m³", "area of the beds times 25 to 50 mm", practice)
	if q.Push != nil {
		l.add("buying.push", *q.Push, "N", "m g (sin a + mu cos a) with mu 0.10 on a lawn, 0.02 to 0.15, on "+q.PushOn,
			"rolling resistance of a good surface: Health and Safety Executive, pushing and pulling; the rest: defaults of ours",
			input("barrow", j.brief.Barrow, "kg", from(j.plot.Site.Carrying.Barrow != nil)), input("one load", j.brief.Load, "litres", from(j.plot.Site.Carrying.Load != nil)))
	}
	if q.Cost != nil {
		l.add("buying.cost", geodata.Exactly(q.Cost.Total), q.Cost.Currency, "amounts times the prices given", "site.toml")
	}
	if r := q.Renewal; r != nil {
		l.add("buying.renewals.top-up", r.TopUp, "m³", "yearly top-up times the years", practice, input("years", r.Years, "years", "default"))
		l.add("buying.renewals.boards", r.BoardLength, "m", "length of the pieces times the lives begun in those years, less the first", "life of the boards of each bed")
		l.add("buying.renewals.pegs", r.Pegs, "", "pegs times the lives begun in those years, less the first", "life of the pegs of each bed")
	}
}
