package siting

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/siting/frame"
	"crossfall/siting/takeoff"
)

// EdgeOption is one of the four ways to edge a bed, with what it takes. Figures
// are null or 0 where nothing of the kind stands here.
type EdgeOption struct {
	Edge    frame.Class `json:"edge"`
	Chosen  bool        `json:"chosen"`
	Stands  bool        `json:"stands"`            // such an edge holds with a factor of safety of 2
	Against string      `json:"against,omitempty"` // what speaks against it
	// CompostAtRisk is the compost that a winter may carry off; null where the rain
	// does not tell it.
	CompostAtRisk *geodata.Estimate `json:"compost_at_risk_kg"`
	Compost       *geodata.Estimate `json:"compost_m3"`
	Fill          float64           `json:"fill_mm"`
	Boards        int               `json:"boards"`         // bought, of the lengths on sale
	BoardLength   float64           `json:"board_length_m"` // of all those boards
	Pegs          int               `json:"pegs"`
	PegDepth      float64           `json:"peg_embedment_mm"`
	Digging       float64           `json:"digging_litres"` // earth lifted for sunken edges
	Life          *geodata.Estimate `json:"board_life_years"`
	Cost          *float64          `json:"cost"` // of boards and pegs; null without their prices
}

// compare sets the bed's options beside its decision.
func (b *Bed) compare(j judge, d decision) {
	if options := edgeOptions(j, d); len(options) > 0 {
		b.Options, b.Worth = options, worthBoarding(d, options, j.plot.Site.Compost.Currency)
	}
}

// edgeOptions sets the bed's four edges side by side; nil where it must not be
// built.
func edgeOptions(j judge, d decision) []EdgeOption {
	var out []EdgeOption
	risks := j.atRisk(d)
	for _, a := range frame.Alternatives(j.chosenCase(d)) {
		o := EdgeOption{Edge: a.Class, Chosen: a.Class == d.chosen.Class, Stands: a.Design != nil, Against: a.Against}
		if a.Design != nil {
			if err := o.take(j, d, *a.Design); err != nil {
				o = EdgeOption{Edge: a.Class, Chosen: o.Chosen, Against: err.Error()}
			}
		}
		if risk, ok := risks[o.Edge]; ok && o.Stands {
			o.CompostAtRisk = &risk
		}
		out = append(out, o)
	}
	return out
}

// chosenCase is the case that the chosen design was made for.
func (j judge) chosenCase(d decision) frame.Case {
	g := d.ground
	if d.open {
		return j.caseAt(d, g.Slope.High, g.Across.High, g.Along.High)
	}
	return j.caseAt(d, g.Slope.Value, g.Across.Value, g.Along.Value)
}

// take fills in what one edge takes to make.
func (o *EdgeOption) take(j judge, d decision, design frame.Design) error {
	// The compost summed over the ground for the design chosen, as the wedges of
	// both on a plane stand to one another.
	if d.chosen.Volume > 0 {
		d.fill.Volume *= design.Volume / d.chosen.Volume
	}
	d.chosen = design
	list, _, err := takeoff.Count([]takeoff.BedInput{takeoffInput(d)}, j.brief.offered(j.plot.Site))
	if err != nil {
		return err
	}
	compost := list.Compost
	o.Compost, o.Fill = &compost, design.Fill*1000
	for _, b := range list.Boards {
		o.Boards += b.Count
		o.BoardLength += float64(b.Count) * b.Length / 1000
	}
	if design.Pegs != nil {
		o.Pegs, o.PegDepth = design.Pegs.Count, design.Pegs.Embedment.Value*1000
	}
	o.Digging = 1000 * design.SlotVolume(d.bed.Length, d.bed.Width)
	if design.Boards != nil {
		life := design.Boards.Life
		o.Life = &life
	}
	o.Cost = edgeCost(list, j.plot.Site)
	return nil
}

// edgeCost is the cost of boards and pegs alone; nil unless both have a price.
func edgeCost(list takeoff.List, site geodata.Site) *float64 {
	if site.Boards.PricePerM == nil || site.Pegs.Price == nil || list.Cost == nil {
		return nil
	}
	sum := 0.0
	for _, p := range list.Cost.Parts {
		if p.What == "boards" || p.What == "pegs" {
			sum += p.Amount
		}
	}
	return &sum
}

// worthBoarding is the short answer to whether boards are worth it.
func worthBoarding(d decision, options []EdgeOption, currency string) string {
	chosen, ok := optionOf(options, d.chosen.Class)
	if !ok {
		return ""
	}
	if d.chosen.Class == frame.OpenEdged {
		t := "no: open edges will do here"
		if g := d.gravest(); g != frame.OpenEdged {
			t = fmt.Sprintf("not at the fall as measured; over its band the edge may be %s: let another height settle it, or board it to be safe", g)
		}
		if boarded, ok := optionOf(options, frame.Boarded); ok && boarded.Stands {
			t += fmt.Sprintf("; boards would take %s", boarded.taken(currency))
		}
		return t
	}
	open, _ := optionOf(options, frame.OpenEdged)
	t := "yes: " + open.Against
	if d.chosen.Class.Severity() > frame.Boarded.Severity() {
		if plain, ok := optionOf(options, frame.Boarded); ok && plain.Against != "" && plain.Against != open.Against {
			t += "; and boards alone are not enough: " + plain.Against
		}
	}
	t += fmt.Sprintf(". It takes %s", chosen.taken(currency))
	if milder, how, ok := strings.Cut(d.chosen.MilderEdge, ", "); ok && milder == string(frame.OpenEdged) && strings.HasPrefix(how, "with ") {
		first, _, _ := strings.Cut(how, "; ")
		t += ". It could stay open-edged " + first
	}
	return t
}

func optionOf(options []EdgeOption, class frame.Class) (EdgeOption, bool) {
	for _, o := range options {
		if o.Edge == class {
			return o, true
		}
	}
	return EdgeOption{}, false
}

// taken says what an option takes: boards, pegs, money and how long it lasts.
func (o EdgeOption) taken(currency string) string {
	t := fmt.Sprintf("%s and %s", many(o.Boards, "board"), many(o.Pegs, "peg"))
	if o.Cost != nil {
		t += fmt.Sprintf(" for %s", strings.TrimSpace(fmt.Sprintf("%.2f %s", *o.Cost, currency)))
	}
	if o.Life != nil {
		t += fmt.Sprintf(", for about %.0f years", math.Max(1, o.Life.Value))
		if years := math.Max(1, o.Life.Value); o.Cost != nil {
			t += fmt.Sprintf(": %s a year", strings.TrimSpace(fmt.Sprintf("%.2f %s", *o.Cost/years, currency)))
		}
	}
	return t
}

func many(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}
