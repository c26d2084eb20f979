package words

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/caution"
	"crossfall/siting/takeoff"
)

// Buying is the list of what to buy and carry.
func (w Words) Buying(q takeoff.List) []Item {
	if q.Compost.Value <= 0 && len(q.Boards) == 0 && len(q.Pegs) == 0 {
		return nil
	}
	whole := func(v float64) string { return fixed(v, 0) + " loads" }
	out := []Item{
		{"Compost to order, loose", w.VolumeBand(q.CompostOrder)},
		{"The same as laid", w.VolumeBand(q.Compost)},
		{"Its mass, moist", w.MassBand(q.Mass)},
		{"Loads to carry", of(q.Loads, whole)},
		{"Cardboard", count(q.Cardboard, "sheet")},
	}
	if q.CoverArea > 0 {
		out = append(out, Item{"Woven cover", w.Units.Area(q.CoverArea) + " in all its layers, and " + count(q.CoverPins, "pin")})
	}
	for _, b := range q.Boards {
		out = append(out, Item{"Boards " + w.section(b), w.boardCount(b)})
	}
	for _, p := range q.Pegs {
		out = append(out, Item{"Pegs " + w.Small(p.Size) + " square, " + w.Small(p.Length) + " long", w.pegCount(p)})
	}
	if q.Screws > 0 {
		out = append(out, Item{"Screws", strconv.Itoa(q.Screws)})
	}
	if q.YearlyTopUp.Value > 0 {
		out = append(out, Item{"Top-up each year", w.VolumeBand(q.YearlyTopUp)})
	}
	if q.Push != nil {
		out = append(out, Item{"Push on " + q.PushOn, w.Push(*q.Push)})
	}
	out = append(out, costItems(q.Cost)...)
	out = append(out, w.renewalItems(q)...)
	for _, n := range q.Notes {
		out = append(out, Item{"Note", sentence(w.Prose(n))})
	}
	return out
}

func (w Words) section(b takeoff.BoardLine) string {
	return w.Small(b.Height) + " by " + w.Small(b.Thickness) + ", " + w.Units.Length(b.Length/1000) + " long"
}

func (w Words) boardCount(b takeoff.BoardLine) string {
	left := ""
	if b.Waste > 0 {
		left = "; " + w.Units.Length(b.Waste/1000) + " left over"
	}
	if b.Proved {
		return strconv.Itoa(b.Count) + ", proved the least board in all" + left
	}
	if b.Bound <= 0 {
		return strconv.Itoa(b.Count) + ", not proved the least board in all" + left
	}
	return fmt.Sprintf("%d, not proved the least board in all: less than %s of this section cannot do%s", b.Count, w.Units.Length(b.Bound/1000), left)
}

// pegCount is a number of pegs, and the stakes that they come out of.
func (w Words) pegCount(p takeoff.PegLine) string {
	if p.FromStake == 0 {
		return strconv.Itoa(p.Count)
	}
	return fmt.Sprintf("%d; %d come out of a stake of %s, so %s", p.Count, p.FromStake, w.Units.Length(p.Stake/1000), count(p.Stakes, "stake"))
}

// renewalItems say what is bought again in the years after.
func (w Words) renewalItems(q takeoff.List) []Item {
	r := q.Renewal
	if r == nil {
		return nil
	}
	whole := func(unit string) func(float64) string {
		return func(v float64) string { return fixed(v, 0) + unit }
	}
	parts := []string{w.VolumeBand(r.TopUp) + " of compost as laid"}
	if r.BoardLength.High > 0 {
		parts = append(parts, w.LengthBand(r.BoardLength)+" of boards")
	}
	if r.Pegs.High > 0 {
		parts = append(parts, of(r.Pegs, whole(" pegs")))
	}
	t := list(parts)
	if r.Cost != nil && q.Cost != nil {
		t += "; " + of(*r.Cost, whole(strings.TrimRight(" "+q.Cost.Currency, " ")))
	}
	return []Item{{"Again in " + fixed(r.Years, 0) + " years", t}}
}

func costItems(c *takeoff.Cost) []Item {
	if c == nil {
		return nil
	}
	money := func(v float64) string { return strings.TrimSpace(fixed(v, 2) + " " + c.Currency) }
	var out []Item
	for _, p := range c.Parts {
		out = append(out, Item{"Cost of " + p.What, money(p.Amount)})
	}
	total := money(c.Total)
	if len(c.Missing) > 0 {
		total += ", without " + list(c.Missing) + " (no price given)"
	}
	return append(out, Item{"Cost in all", total})
}

// Cuts is how each board bought is cut, one line for each.
func (w Words) Cuts(b takeoff.BoardLine) []string {
	out := make([]string, len(b.Cuts))
	for i, c := range b.Cuts {
		parts := make([]string, len(c.Pieces))
		for j, p := range c.Pieces {
			parts[j] = w.Small(p.Length) + " " + p.For
		}
		out[i] = strings.Join(parts, "; ")
		if c.Waste > 0 {
			out[i] += "; waste " + w.Small(c.Waste)
		}
	}
	return out
}

// CutHead names the boards that a list of cuts is for.
func (w Words) CutHead(b takeoff.BoardLine) string { return "Boards " + w.section(b) }

// Caution is one caution in words.
type Caution struct {
	Mark string // "STOP", "WARNING" or "NOTE"
	Text string
	Tail string // where it holds, its source, who acknowledged it
	ID   string
}

// Cautions are all cautions, stops first, otherwise in their own order.
func (w Words) Cautions(a *siting.Assessment) []Caution {
	cs := slices.Clone(a.Cautions)
	slices.SortStableFunc(cs, func(x, y caution.Caution) int { return gravity(x.Severity) - gravity(y.Severity) })
	out := make([]Caution, len(cs))
	for i, c := range cs {
		out[i] = Caution{Mark: strings.ToUpper(string(c.Severity)), Text: sentence(w.Careful(c.Text)), Tail: w.tail(c), ID: c.ID}
	}
	return out
}

func gravity(s caution.Severity) int {
	switch s {
	case caution.Stop:
		return 0
	case caution.Warning:
		return 1
	}
	return 2
}

func (w Words) tail(c caution.Caution) string {
	var parts []string
	if c.Bed != "" {
		parts = append(parts, "Bed: "+c.Bed)
	}
	if c.At != nil {
		parts = append(parts, "At: "+w.Place(*c.At))
	}
	if c.Source != "" {
		parts = append(parts, "Source: "+w.Prose(c.Source))
	}
	if c.AcknowledgedBy != "" {
		parts = append(parts, "Acknowledged by "+c.AcknowledgedBy+" on "+c.AcknowledgedOn+", which restores nothing")
	}
	return sentence(strings.Join(parts, ". "))
}

// Assumed is a default in words: what, which value, and how to say otherwise.
func (w Words) Assumed(a siting.Assumption) string {
	return sentence(a.What + ": " + w.Prose(a.Value) + ". To say otherwise: " + a.Set)
}

// Work is one figure of the working in words.
type Work struct{ ID, Value, Band, Formula, Source, Inputs string }

// Input is one figure that went into another, and where it came from.
func (w Words) Input(p siting.Input) string {
	return fmt.Sprintf("%s %s (%s)", p.Name, w.Figure(p.Name, p.Value, p.Unit), p.From)
}

// Working is the working of every figure.
func (w Words) Working(bs []siting.Basis) []Work {
	out := make([]Work, len(bs))
	for i, b := range bs {
		in := make([]string, len(b.Inputs))
		for j, p := range b.Inputs {
			in[j] = w.Input(p)
		}
		out[i] = Work{
			ID: b.ID, Value: w.Figure(b.ID, b.Value, b.Unit), Formula: w.Prose(b.Formula), Source: b.Source, Inputs: strings.Join(in, "; "),
			Band: w.Figure(b.ID, b.Low, b.Unit) + " to " + w.Figure(b.ID, b.High, b.Unit),
		}
		if (geodata.Estimate{Value: b.Value, Low: b.Low, High: b.High}) == geodata.Exactly(b.Value) {
			out[i].Band = "none"
		}
	}
	return out
}
