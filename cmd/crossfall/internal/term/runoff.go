package term

import (
	"bufio"
	"io"
	"strings"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// Runoff writes what winter rain does on the plot.
func Runoff(w io.Writer, a *siting.Assessment, opt Options) error {
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color, words: words.Words{Units: opt.Units}}
	p.para(p.words.Frame(a.Frame))
	if a.Name != "" {
		p.para("Plot: " + a.Name)
	}
	p.waterInShort(a)
	p.items("Winter rain", p.words.RainSaid(a))
	if rows := p.words.StormRows(a.Water.Storms); len(rows) > 0 {
		p.blank()
		p.table(words.StormHeads(), rows)
	}
	if rows := p.words.DayRows(a.Water.Days); len(rows) > 0 {
		p.items("Greatest days", p.words.DayItems(a.Water.Days))
		p.blank()
		p.table(words.DayHeads(), rows)
	}
	p.items("Where it runs over the ground as it is", p.words.PathItems(a.Water.Paths))
	p.items("Where it runs with the beds built", p.words.TurnedItems(a))
	p.items("Where it comes in and leaves", p.words.CrossingItems(a))
	p.items("Where it stands", p.words.HollowItems(a.Ground.Hollows))
	p.items("Damp ground and cold air", p.words.PlaceItems(a))
	for _, bed := range a.Beds {
		p.bedWater(bed)
	}
	p.items("Soil that a year carries off the plot", p.words.LossItems(a))
	p.items("What to do about it", p.words.AdviceItems(a))
	p.waterAssumptions(a)
	return b.Flush()
}

// waterInShort is the answer in a few sentences.
func (p *printer) waterInShort(a *siting.Assessment) {
	p.heading("In short")
	for _, t := range p.words.WaterShort(a) {
		p.hanging("  ", "    ", t, "")
	}
}

// bedWater is what winter rain does at one bed.
func (p *printer) bedWater(b siting.Bed) {
	items := p.words.Draining(b)
	if len(items) == 0 {
		return
	}
	p.heading("At " + b.Name + " (" + string(b.Edge) + ")")
	p.pairs(items, "  ")
	if rows := p.words.EdgeWaterRows(b); len(rows) > 0 {
		p.blank()
		p.table(p.words.EdgeWaterHeads(), rows)
	}
	if rows := p.words.RiskRows(b); len(rows) > 0 {
		p.blank()
		p.table(words.RiskHeads(), rows)
	}
	if t := b.Worth; t != "" {
		p.blank()
		p.hanging("  ", "  ", "Worth boarding? "+p.words.Prose(t), "")
	}
}

// waterAssumptions are those of rain and ground.
func (p *printer) waterAssumptions(a *siting.Assessment) {
	first := true
	for _, s := range a.Assumptions {
		if !strings.Contains(s.Set, "rain") && !strings.Contains(s.Set, "ground.") && !strings.Contains(s.Set, "latitude") {
			continue
		}
		if first {
			p.heading("What was assumed")
			first = false
		}
		p.hanging("  - ", "    ", p.words.Assumed(s), "")
	}
}
