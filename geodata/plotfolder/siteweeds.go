package plotfolder

import (
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
)

// checkWeeds tells of weeds met in some beds that lack their name or the beds, and
// keeps where each was read.
func (d *siteText) checkWeeds(site geodata.Site, c *collector) {
	if n := len(site.Weeds); n > geodata.MostListed {
		pos, read := d.findWeed("name", geodata.MostListed)
		c.problem(pos, "site-list-too-long", read, fmt.Sprintf("weeds has %d entries, over %d", n, geodata.MostListed), "keep those that are needed")
		return
	}
	for i, w := range site.Weeds {
		pos, read := d.findWeed("name", i)
		site.Weeds[i].At = pos
		if strings.TrimSpace(w.Name) == "" && !d.leftOut("weeds.name", i) {
			c.problem(pos, "site-weed-half", read, fmt.Sprintf("the weed %d has no name", i+1), `write name = "couch grass" or what it is, by common or botanical name`)
		}
		at, read := d.findWeed("beds", i)
		nameless := slices.ContainsFunc(w.Beds, func(b string) bool { return strings.TrimSpace(b) == "" })
		if (len(w.Beds) == 0 || nameless) && !d.leftOut("weeds.beds", i) {
			c.problem(at, "site-weed-half", read, fmt.Sprintf("the beds of the weed %d are not named", i+1),
				`write beds = ["bed 1", "bed 3"], as they are named on the plan; a weed met all over stands in ground.weeds`)
		}
		if n := len(w.Beds); n > geodata.MostListed {
			c.problem(at, "site-list-too-long", read, fmt.Sprintf("weeds.beds has %d entries, over %d", n, geodata.MostListed), "name a weed met all over in ground.weeds")
			continue
		}
		for _, b := range w.Beds {
			checkLetters(at, "the name of a bed", b, c)
		}
	}
}

// findWeed is the place of a setting of the i-th weed, else of any.
func (d *siteText) findWeed(key string, i int) (geodata.Pos, string) {
	for _, k := range []string{key, "name", "beds"} {
		if pos, read := d.find("weeds."+k, i); read != "" {
			return pos, read
		}
	}
	return geodata.Pos{File: d.file}, ""
}
