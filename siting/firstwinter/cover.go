package firstwinter

import (
	"slices"
	"time"

	"crossfall/geodata"
)

// rainOnly is one layer through the wet season, on bare compost without weeds.
const rainOnly = "rain on bare compost"

// coverOf is what lies under and over one bed: of everything the most that any
// weed asks.
func coverOf(b Bed, in Input, s Season) Cover {
	c := Cover{Bed: b.Name, Cardboard: 1, Against: []string{}}
	var longest geodata.Estimate
	for _, w := range slices.Concat(in.Weeds, b.Weeds) {
		if w.Leave != "" {
			continue
		}
		c.Cardboard, c.Layers = max(c.Cardboard, w.Cardboard), max(c.Layers, w.Layers())
		c.Against = append(c.Against, w.Common)
		longest = geodata.Estimate{Value: max(longest.Value, w.Months.Value), Low: max(longest.Low, w.Months.Low), High: max(longest.High, w.Months.High)}
	}
	switch {
	case c.Layers > 0:
		c.Months = &longest
		c.LiftMonth, c.LiftYear = s.lift(int(longest.Value+0.5), in.Latitude)
	case b.Exposed:
		through := geodata.Exactly(seasonLength + 1)
		c.Layers, c.Against, c.Months = 1, []string{rainOnly}, &through
		c.LiftMonth, c.LiftYear = later(s.Last, 1), s.year(seasonLength)
	}
	return c
}

// lift is when a cover, laid in the month before the season, may come off: after
// so many months, and in a month in which the weed would show.
func (s Season) lift(after int, latitude *float64) (time.Month, int) {
	for !grows(later(s.First, after-1), latitude) {
		after++
	}
	return later(s.First, after-1), s.year(after - 1)
}
