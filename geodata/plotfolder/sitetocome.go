package plotfolder

import (
	"fmt"
	"strings"

	"crossfall/geodata"
)

// checkToCome tells of tall things to come that lack a word or a height, or whose
// sizes are slips.
func (d *siteText) checkToCome(site geodata.Site, c *collector) {
	for i, t := range site.ToCome {
		if strings.TrimSpace(t.What) == "" && !d.leftOut("to_come.what", i) {
			pos, read := d.findToCome("what", i)
			c.problem(pos, "site-to-come-half", read, fmt.Sprintf("the tall thing %d that is to come has no name", i+1), `write what = "tree", "polytunnel", "shed" or what it is`)
		}
		if t.Height == nil && !d.leftOut("to_come.height_m", i) {
			pos, read := d.findToCome("height_m", i)
			c.problem(pos, "site-to-come-half", read, fmt.Sprintf("the tall thing %d that is to come has no height", i+1), "write height_m = and its height when it is grown or built, without quotes")
		}
		for _, r := range []siteRange{
			{key: "to_come.height_m", low: 0.3, high: 60, values: given(t.Height)},
			{key: "to_come.width_m", low: 0.1, high: 40, values: given(t.Width)},
		} {
			for _, v := range r.values {
				if v >= r.low && v <= r.high {
					continue
				}
				pos, read := d.find(r.key, i)
				c.problem(pos, "site-out-of-range", read, fmt.Sprintf("%s is %g", r.key, v), rangeWanted(r))
			}
		}
	}
}

func given(v *float64) []float64 {
	if v == nil {
		return nil
	}
	return []float64{*v}
}

// findToCome is the place of a setting of the i-th thing to come, else of any.
func (d *siteText) findToCome(key string, i int) (geodata.Pos, string) {
	for _, k := range []string{key, "what", "height_m", "width_m", "evergreen"} {
		if pos, read := d.find("to_come."+k, i); read != "" {
			return pos, read
		}
	}
	return geodata.Pos{File: d.file}, ""
}
