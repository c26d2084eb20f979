package takeoff

import "crossfall/geodata"

// costOf prices the list: compost by the cubic metre ordered, boards by the
// metre bought, pegs each. Nil without a single price.
func costOf(list List, said *lines, site geodata.Site) *Cost {
	if site.Compost.PricePerM3 == nil && site.Boards.PricePerM == nil && site.Pegs.Price == nil {
		return nil
	}
	metres, pegs := 0.0, 0
	for _, l := range list.Boards {
		metres += l.Length / 1000 * float64(l.Count)
	}
	for _, p := range list.Pegs {
		pegs += p.Count
	}
	c := &Cost{Currency: site.Compost.Currency, Parts: []CostPart{}, Missing: []string{}}
	c.add("compost", list.CompostOrder.Value, site.Compost.PricePerM3)
	c.add("boards", metres, site.Boards.PricePerM)
	c.add("pegs", float64(pegs), site.Pegs.Price)
	c.add("screws", float64(list.Screws), nil)
	c.add("cardboard", float64(list.Cardboard), nil)
	if c.Currency == "" {
		said.add("no currency was said: the cost is in the money of the prices given")
	}
	return c
}

// add prices one part; a part that is wanted and has no usable price is named.
func (c *Cost) add(what string, amount float64, price *float64) {
	if amount == 0 {
		return
	}
	if price == nil || value(price, -1) < 0 {
		c.Missing = append(c.Missing, what)
		return
	}
	part := CostPart{What: what, Amount: amount * *price}
	c.Parts = append(c.Parts, part)
	c.Total += part.Amount
}
