package siting

import (
	"crossfall/siting/rain"
	"crossfall/siting/soil"
)

// describeStorms are the design storms as the Assessment carries them.
func (j judge) describeStorms(bursts [3]rain.Burst) []DesignStorm {
	out := []DesignStorm{}
	for _, b := range bursts {
		s := DesignStorm{ReturnYears: b.ReturnYears, Minutes: b.Minutes, Depth: b.Depth, Rate: b.Rate, Source: b.Source}
		if b.Day.Value > 0 {
			day := b.Day
			s.Day = &day
			e, said, told := soil.DayRunoff(day, j.brief.Cover, j.brief.Texture)
			if s.DayRunoffOf = said; told {
				s.DayRunoff = &e
			}
		}
		out = append(out, s)
	}
	return out
}
