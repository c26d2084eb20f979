package siting

import (
	"crossfall/geodata"
	"crossfall/siting/rain"
	"crossfall/siting/soil"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// describeStorms are the design storms as the Assessment carries them.
func (j judge) describeStorms(bursts [3]rain.Burst) []DesignStorm {
	out := []DesignStorm{}
	for _, b := range bursts {
		s := DesignStorm{ReturnYears: b.ReturnYears, Minutes: b.Minutes, Depth: b.Depth, Rate: b.Rate, Source: b.Source}
		if b.Day.Value > 0 {
			day := b.Day
			s.Day = &day
			e, said, told := soil.MixedDayRunoff(day, j.covers(), j.brief.Texture)
			if s.DayRunoffOf = said; told {
				s.DayRunoff = &e
			}
		}
		out = append(out, s)
	}
	return out
}

// covers are the parts of the plot by cover: roofs are sealed, the rest is as said.
func (j judge) covers() []soil.Part {
	whole, roofs := planar.Area(j.plot.Boundary), 0.0
	for _, f := range j.plot.OfKind(geodata.ObstacleKind) {
		if p, ok := f.Shape.(orb.Polygon); ok && (f.What == "shed" || f.What == "polytunnel") {
			roofs += planar.Area(p)
		}
	}
	return []soil.Part{{Cover: soil.Sealed, Area: min(roofs, whole)}, {Cover: j.brief.Cover, Area: max(0, whole-roofs)}}
}
