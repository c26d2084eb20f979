package plotfolder

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
)

// twoUnitsGap is how many times as far apart two groups of heights must lie as
// each is high, with a metre added, to be taken for two units; a default of ours.
const twoUnitsGap = 5

// checkTwoUnits refuses heights that fall into two groups far apart of which the
// upper, taken as feet, would lie among the lower: no ground does that.
func checkTwoUnits(s survey, c *collector) bool {
	spots := slices.Clone(s.spots)
	slices.SortStableFunc(spots, func(a, b geodata.SpotHeight) int { return cmp.Compare(a.Height, b.Height) })
	cut := 0
	for i := 1; i < len(spots); i++ {
		if cut == 0 || spots[i].Height-spots[i-1].Height > spots[cut].Height-spots[cut-1].Height {
			cut = i
		}
	}
	if cut == 0 {
		return true
	}
	low, high := spots[:cut], spots[cut:]
	tall := func(g []geodata.SpotHeight) float64 { return g[len(g)-1].Height - g[0].Height }
	slack := max(tall(low), tall(high)*float64(geodata.Foot)) + 1
	foot := float64(geodata.Foot)
	if high[0].Height-low[len(low)-1].Height < twoUnitsGap*slack ||
		high[len(high)-1].Height*foot > low[len(low)-1].Height+slack || high[0].Height*foot < low[0].Height-slack {
		return true
	}
	var names []string
	for _, h := range high {
		names = append(names, h.Name)
	}
	const most = 8
	if len(names) > most {
		names = append(names[:most:most], fmt.Sprintf("and %d more", len(high)-most))
	}
	c.problem(high[0].Source, "heights-in-two-units", strings.Join(names, ", "),
		fmt.Sprintf("these heights lie %.0f m above the others, and would lie among them if they were feet", high[0].Height-low[len(low)-1].Height),
		"write the unit beside each height, such as 99.5 ft, or mend them")
	return false
}
