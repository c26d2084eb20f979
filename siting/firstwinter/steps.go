package firstwinter

import (
	"fmt"
	"slices"
	"strings"

	"crossfall/siting/takeoff"
)

// before is the work that must be done when the wet season begins.
func (b *builder) before() {
	dug := func(x Bed) bool { return x.Pegs || x.Sunken || x.Channel }
	for _, w := range b.weeds {
		if w.Leave != "" {
			b.step(-begins, -begins, w.within(), "", "leave "+w.Common+" alone", "%s", w.Leave)
		}
	}
	if b.in.Unasked {
		b.step(-begins, -4, b.in.names(dug), "", "ask about services, and have them located and drawn", "nothing is driven or cut into the ground before every one of them is accounted for")
	}
	b.step(-begins, -4, nil, "", "mark out the beds and buy what is on the list", "what is missing when the dry months come is missing for a year")
	b.weedOut()
	if b.in.Turf {
		b.step(-4, -3, nil, CommonPractice, "mow the grass as low as it goes under the beds, rake it off, and score the turf across the slope",
			"long grass rots to slime under cardboard, and a bed slides on it in its first winter")
	}
	b.step(-4, -3, b.in.names(func(x Bed) bool { return x.Channel }), CommonPractice,
		"dig the cut-off channels, turf or sow them, and keep their outlets on grass", "grass wants about 8 weeks before the first storm runs in it")
	if b.in.Soakaway {
		b.step(-4, -3, nil, "", "dig the soakaway, while the water table is low", "in the wet season its pit stands in water")
	}
	b.step(-3, -2, b.in.names(func(x Bed) bool { return x.Sunken }), "", "let the edges in, firm the ground back against both sides, and drive the pegs",
		"a slot cut in wet ground smears and does not grip, and the first storm finds every gap under a board")
	b.step(-3, -2, b.in.names(func(x Bed) bool { return x.Boards && !x.Sunken }), "", "set the boards and drive the pegs", "in wet ground pegs go in easily and hold little")
	b.compost()
	b.lay()
	b.step(-1, -1, b.in.names(dug), "", "if the edges are not in by now, leave the turf whole: lay cardboard under a cover, carry no compost, and build after the wet season",
		"cut turf and loose compost without an edge are what the first winter takes")
}

// within is the beds that a weed was met in; nil: all over.
func (m Met) within() []string {
	if len(m.Beds) == 0 {
		return nil
	}
	return m.Beds
}

// weedOut is what is done to weeds before they are covered.
func (b *builder) weedOut() {
	for _, w := range b.weeds {
		if w.Leave == "" {
			b.step(-4, -3, w.within(), CommonPractice, w.Common+": "+w.First, "it spreads %s", w.Spreads)
		}
	}
}

// compost is the carrying, on dry ground and into finished edges.
func (b *builder) compost() {
	volume := 0.0
	for _, x := range b.in.Beds {
		volume += x.Volume
	}
	loads := takeoff.Loads(volume, b.in.Litres)
	least, most := b.covers[0].Cardboard, 0
	for _, c := range b.covers {
		least, most = min(least, c.Cardboard), max(most, c.Cardboard)
	}
	sheets := "one sheet thick"
	switch {
	case least < most:
		sheets = fmt.Sprintf("%d to %d sheets thick, as each bed asks", least, most)
	case most > 1:
		sheets = fmt.Sprintf("%d sheets thick", most)
	}
	b.step(-2, -1, nil, CommonPractice, fmt.Sprintf("lay cardboard, %s, the uphill sheet over the lower one like tiles, wet it, and fill one bed at a time", sheets),
		"about %.0f loads go up while the ground is dry; card that lies bare for a night blows away, and wet card under a whole bed of compost does not", loads)
}

// lay is the covering of the beds.
func (b *builder) lay() {
	for layers := 1; layers <= b.mostLayers(); layers++ {
		var beds []string
		var against []string
		for _, c := range b.covers {
			if c.Layers == layers {
				beds = append(beds, c.Bed)
				for _, a := range c.Against {
					if !slices.Contains(against, a) {
						against = append(against, a)
					}
				}
			}
		}
		if beds == nil {
			continue
		}
		thick := "one layer of woven cover"
		if layers > 1 {
			thick = fmt.Sprintf("%d layers of woven cover", layers)
		}
		b.step(-1, -1, beds, CommonPractice, "cover with "+thick+", the uphill strip over the lower one, its upper edge dug in",
			"against %s; a layer lets about three tenths of the light through, so that %d let through %.2g %%; until it comes off, plant only through small cuts", strings.Join(against, ", "), layers, through(layers))
	}
}

func (b *builder) mostLayers() int {
	most := 0
	for _, c := range b.covers {
		most = max(most, c.Layers)
	}
	return most
}

// through is the light that layers let through, percent.
func through(layers int) float64 {
	share := 100.0
	for range layers {
		share *= LightThrough
	}
	return share
}

// over is the work of the wet season.
func (b *builder) over() {
	last := seasonLength - 1
	channels := b.in.names(func(x Bed) bool { return x.Channel })
	b.step(0, 0, channels, "", "before the first storm, clear the channels and their outlets of leaves and earth", "a channel that is stopped spills where nobody chose")
	b.step(0, last, channels, "", "look at the channels after every heavy rain, and clear them", "leaves and earth gather where the water slows")
	signs := "compost on the grass below"
	if len(b.in.names(func(x Bed) bool { return x.Boards })) > 0 {
		signs = "water through a gap under a board, pegs that lean, " + signs
	}
	b.step(0, last, nil, "", "after heavy rain look, from the path: "+signs, "it is small on its first day")
	b.step(0, last, nil, CommonPractice, "leave off while a boot leaves a print that fills with water: no digging, no pegs, no barrow on the grass",
		"wet turf tears and slides, and wet soil that is trodden or cut stays hard for years")
}

// after is the work once the ground dries.
func (b *builder) after() {
	first := seasonLength
	b.step(first, first+1, b.in.names(func(x Bed) bool { return x.Pegs }), CommonPractice, "drive every peg again, and see that boards stand upright", "frost and wet and dry lift pegs")
	b.step(first, first+1, b.in.names(func(x Bed) bool { return x.Sunken }), "", "firm the ground back where it has opened along the sunken edges", "an open slot leads water under the board")
	b.step(first, first+1, nil, CommonPractice, "top up the compost", "it settles by 20 to 30 %% in its first year; 25 to 50 mm a year keep it up")
	for _, c := range b.covers {
		b.lift(c)
	}
}

// lift is the lifting of one cover; beds whose covers come off together stand in
// one step.
func (b *builder) lift(c Cover) {
	if c.Layers == 0 {
		return
	}
	what := "lift the cover, on a dull day"
	for i := range b.steps {
		s := &b.steps[i]
		if s.What == what && s.First == c.LiftMonth && s.Year == c.LiftYear {
			s.Beds = append(s.Beds, c.Bed)
			return
		}
	}
	why := "the rain is past, and plants want the light"
	if c.Against[0] != rainOnly {
		why = fmt.Sprintf("after %.0f months (%.0f to %.0f) in the dark: roots that are brown and break are dead; where any is white and bends, lay the cover back for another growing season",
			c.Months.Value, c.Months.Low, c.Months.High)
	}
	b.steps = append(b.steps, Step{First: c.LiftMonth, Last: c.LiftMonth, Year: c.LiftYear, What: what, Why: why, Beds: []string{c.Bed}, Source: CommonPractice})
}
