package siting

import (
	"crossfall/geodata"
	"crossfall/siting/rain"
)

// describeWater fills the water part of an Assessment.
func describeWater(p *geodata.Plot, winter *rain.Winter, burst rain.Burst) Water {
	w := Water{
		DesignRain: burst.Rate, DesignSource: burst.Source, DesignSaid: burst.Said,
		Storm: StormNotRun, Paths: []Path{}, PathsWithBeds: []Path{},
		Months: p.Rain.Monthly,
	}
	if winter != nil {
		total := winter.Total
		w.WinterRain, w.WinterMonths, w.WinterSource = &total, winter.Months, winter.Source
	}
	return w
}
