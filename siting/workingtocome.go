package siting

import (
	"fmt"

	"crossfall/geodata"
)

// toCome records where tall things may come.
func (l *ledger) toCome(p *geodata.Plot, said Light, things []ToCome) {
	for i, t := range things {
		if t.Area == nil {
			continue
		}
		id := fmt.Sprintf("to-come-%d", i+1)
		in := []Input{
			input("height", t.Height, "m", "given"), input("width", t.Width, "m", from(p.Site.ToCome[i].Width != nil)), input("latitude", *said.Latitude, "degrees", "given"),
			input("direct sun that it may take", 100*hardly, "percent", "default"),
		}
		l.add(id+".area", *t.Area, "m²",
			"places at which a round, upright thing takes less than that share of the hours of direct sun of every bed, on the four dates together; band: its height a tenth more or less, "+
				"shares of light let through, the interval of the fall, and the bands of what stands about",
			"positions of the sun: Meeus, Astronomical Algorithms (1998), chapters 12 and 25; bands: common practice and defaults of ours", in...)
		l.add(id+".share", *t.Share, "percent", "that area over the area of the plot", "the same", in...)
	}
}

// assumedToCome names the widths that were not said.
func assumedToCome(p *geodata.Plot) []Assumption {
	var out []Assumption
	for i, t := range p.Site.ToCome {
		if t.Width != nil {
			continue
		}
		value := fmt.Sprintf("%.0f m", toComeWidth)
		if isTree(t) {
			value = fmt.Sprintf("%.2f times its height", 2*crownShare[0])
		}
		out = append(out, Assumption{
			What: fmt.Sprintf("width of the %s to come", t.What), Value: value,
			Set: fmt.Sprintf("site.toml: width_m in [[to_come]] number %d", i+1),
		})
	}
	return out
}
