package report

import (
	"fmt"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// waterPart is what winter rain does on the plot.
func waterPart(w words.Words, a *siting.Assessment, opt Options) part {
	p := part{ID: "water", Title: "Water", Blocks: texts(w.WaterShort(a))}
	add := func(blocks ...block) { p.Blocks = append(p.Blocks, blocks...) }
	add(titled("Winter rain", block{Items: w.RainSaid(a)}, grid("Design storms", words.StormHeads(), w.StormRows(a.Water.Storms)))...)
	add(rainCharts(a, opt)...)
	add(titled("Greatest days", block{Items: w.DayItems(a.Water.Days)}, grid("Greatest days", words.DayHeads(), w.DayRows(a.Water.Days)))...)
	add(titled("Where it runs over the ground as it is", block{Items: w.PathItems(a.Water.Paths)})...)
	add(titled("Where it runs with the beds built", block{Items: w.TurnedItems(a)})...)
	add(titled("Where it comes in and leaves", block{Items: w.CrossingItems(a)})...)
	add(titled("Where it stands", block{Items: w.HollowItems(a.Ground.Hollows)})...)
	add(titled("Damp ground and cold air", block{Items: w.PlaceItems(a)})...)
	add(stormBlocks(w, a)...)
	for _, b := range a.Beds {
		if b.Water != nil {
			add(waterAt(w, b)...)
		}
	}
	add(titled("Soil that a year carries off the plot", block{Items: w.LossItems(a)})...)
	add(titled("What to do about it", block{Items: w.AdviceItems(a)})...)
	return p
}

// waterAt is what it does at one bed.
func waterAt(w words.Words, b siting.Bed) []block {
	return titled(fmt.Sprintf("At %s (%s)", b.Name, b.Edge),
		block{Items: w.Draining(b)},
		grid("Water at the edges of "+b.Name, w.EdgeWaterHeads(), w.EdgeWaterRows(b)),
		grid("Compost at risk on "+b.Name, words.RiskHeads(), w.RiskRows(b)))
}

// rainCharts are the drawings of the rain that there are figures for.
func rainCharts(a *siting.Assessment, opt Options) []block {
	var out []block
	for i, f := range plan.RainFigures(a, opt.plan()) {
		out = append(out, block{Figure: &figure{Figure: f, Name: fmt.Sprintf("rain-%d", i+1)}})
	}
	return out
}
