package takeoff

import "crossfall/geodata"

// costOf prices the list: compost by the cubic metre ordered, boards by the
// metre bought, cover by the square metre, the rest each. Nil without a single price.
func costOf(list List, said *lines, site geodata.Site) *Cost {
	if !priced(site) {
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
	c.add("screws", float64(list.Screws), site.Prices.Screw)
	c.add("cardboard", float64(list.Cardboard), site.Prices.Cardboard)
	c.add("woven cover", list.CoverArea, site.Prices.Cover)
	c.add("cover pins", float64(list.CoverPins), site.Prices.Pin)
	if c.Currency == "" {
		said.add("no currency was said: the cost is in the money of the prices given")
	}
	return c
}

// priced tells whether anything has a price.
func priced(site geodata.Site) bool {
	p := site.Prices
	for _, price := range []*float64{site.Compost.PricePerM3, site.Boards.PricePerM, site.Pegs.Price, p.Screw, p.Cardboard, p.Cover, p.Pin} {
		if price != nil {
			return true
		}
	}
	return false
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
