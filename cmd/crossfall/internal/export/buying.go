package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting/takeoff"
)

// Buying writes the buying list, one thing a row with its unit, the low and high
// ends of what is an estimate, and what to know; then the cost where prices were
// given, and what was assumed.
func Buying(w io.Writer, q takeoff.List, units geodata.Units) error {
	b := buying{units: units, rows: [][]string{{"what", "amount", "low", "high", "unit", "note"}}}
	b.volume("compost to order, loose", q.CompostOrder, "")
	b.volume("compost as laid", q.Compost, "the same compost, trodden and settled")
	b.mass("compost, moist", q.Mass)
	b.estimate("loads to carry", q.Loads, 0, "loads", "")
	b.count("cardboard", q.Cardboard, "sheets", "")
	b.area("woven ground cover", q.CoverArea, "all layers")
	b.count("pins for the cover", q.CoverPins, "pins", "")
	for _, l := range q.Boards {
		b.boards(l)
	}
	for _, l := range q.Pegs {
		b.pegs(l)
	}
	b.count("screws", q.Screws, "screws", "")
	b.volume("compost each year after", q.YearlyTopUp, "top-up")
	b.cost(q.Cost)
	for _, n := range q.Notes {
		b.rows = append(b.rows, []string{"note", "", "", "", "", words.Words{Units: units}.Prose(n)})
	}
	return csv.NewWriter(w).WriteAll(b.rows)
}

// buying gathers the rows of a buying list.
type buying struct {
	units geodata.Units
	rows  [][]string
}

// estimate adds a thing with its band; nothing where none of it is bought.
func (b *buying) estimate(what string, e geodata.Estimate, decimals int, unit, note string) {
	if e.High <= 0 {
		return
	}
	b.rows = append(b.rows, []string{what, fixed(e.Value, decimals), fixed(e.Low, decimals), fixed(e.High, decimals), unit, note})
}

func (b *buying) volume(what string, m3 geodata.Estimate, note string) {
	if b.units == geodata.FeetAndInch {
		const cubicYard = 0.9144 * 0.9144 * 0.9144 // m3, exact
		b.estimate(what, m3.Times(1/cubicYard), 2, "cubic yards", note)
		return
	}
	b.estimate(what, m3, 2, "m3", note)
}

func (b *buying) mass(what string, kg geodata.Estimate) {
	if b.units == geodata.FeetAndInch {
		b.estimate(what, kg.Times(1/0.45359237), 0, "lb", "") // the international pound, exact
		return
	}
	b.estimate(what, kg, 0, "kg", "")
}

func (b *buying) area(what string, m2 float64, note string) {
	unit := "m2"
	if b.units == geodata.FeetAndInch {
		m2, unit = m2/(0.3048*0.3048), "square feet"
	}
	if m2 > 0 {
		b.rows = append(b.rows, []string{what, fixed(m2, 1), "", "", unit, note})
	}
}

// count adds a number of things; nothing where there are none.
func (b *buying) count(what string, n int, unit, note string) {
	if n > 0 {
		b.rows = append(b.rows, []string{what, strconv.Itoa(n), "", "", unit, note})
	}
}

func (b *buying) boards(l takeoff.BoardLine) {
	note := "proved the least board in all"
	if !l.Proved {
		note = "not proved the least board in all"
	}
	what := fmt.Sprintf("boards %s by %s, %s long", b.units.Small(l.Height/1000), b.units.Small(l.Thickness/1000), b.units.Length(l.Length/1000))
	b.count(what, l.Count, "boards", note)
}

func (b *buying) pegs(l takeoff.PegLine) {
	note := ""
	if l.FromStake > 0 {
		note = fmt.Sprintf("%d come out of a stake of %s: %d stakes", l.FromStake, b.units.Length(l.Stake/1000), l.Stakes)
	}
	what := fmt.Sprintf("pegs %s square, %s long with the point", b.units.Small(l.Size/1000), b.units.Small(l.Length/1000))
	b.count(what, l.Count, "pegs", note)
}

// cost adds the cost by parts and in all, with what has no price.
func (b *buying) cost(c *takeoff.Cost) {
	if c == nil {
		return
	}
	row := func(what string, amount float64, note string) {
		b.rows = append(b.rows, []string{what, fixed(amount, 2), "", "", c.Currency, note})
	}
	for _, p := range c.Parts {
		row("cost of "+p.What, p.Amount, "")
	}
	note := ""
	if len(c.Missing) > 0 {
		note = "without " + strings.Join(c.Missing, ", ") + ": no price given"
	}
	row("cost in all", c.Total, note)
}
