package siting

import (
	"fmt"

	"crossfall/geodata"
	"crossfall/siting/erosion"
	"crossfall/siting/soil"
)

// texture settles what the soil is made of, from an analysis, its class or the
// hand test, how easily it washes away, and how fast water soaks into it.
func (s *settler) texture(b *Brief, g geodata.GroundWords, faults *geodata.Faults) {
	b.Texture = textureOf(g)
	b.Erodibility = erosion.Erodibility(b.Texture)
	switch {
	case g.Analysis != nil:
		k, err := erosion.ErodibilityOf(analysisOf(*g.Analysis, b.Texture))
		if err != nil {
			faults.Add(geodata.Fault{
				Code: "soil-analysis", Pos: geodata.Pos{File: "site.toml"}, Message: "ground.analysis: " + err.Error(),
				Want: "write sand_percent, silt_percent, clay_percent and organic_percent of a mineral soil, the first three making 100",
			})
			return
		}
		b.Erodibility = k
	case b.Texture == "":
		s.assume("texture of the soil", "not known: soil loss between sandy loam and silt loam, wet-day runoff between groups B and D",
			"site.toml: ground.texture, or ground.ribbon and ground.feel by a hand test")
	}
	s.soaks(b, g.TestPit)
}

// textureOf is the class as given, or by the hand test; "" when neither was said.
func textureOf(g geodata.GroundWords) soil.Texture {
	if t, ok := soil.TextureNamed(g.Texture); ok {
		return t
	}
	t, _ := soil.TextureByHand(g.Ribbon, g.Feel)
	return t
}

// Figures of an analysis that names no structure: fine granular, as garden
// topsoil is; a default of ours.
const usualStructure = 2

// permeabilities are the classes of Agriculture Handbook 703 (1997), from memory,
// from 1 rapid to 6 very slow; moderate where the texture is not known.
var permeabilities = map[soil.Texture]int{
	soil.Sand: 1, soil.LoamySand: 2, soil.SandyLoam: 2, soil.Loam: 3, soil.SiltLoam: 3, soil.Silt: 3,
	soil.SandyClayLoam: 4, soil.ClayLoam: 4, soil.SiltyClayLoam: 5, soil.SandyClay: 5, soil.SiltyClay: 6, soil.Clay: 6,
}

// analysisOf is an analysis with the gaps filled.
func analysisOf(a geodata.SoilAnalysis, t soil.Texture) erosion.Analysis {
	percent := func(p *float64, otherwise float64) float64 {
		if p == nil {
			return otherwise
		}
		return *p
	}
	out := erosion.Analysis{
		Sand: percent(a.Sand, 0), Silt: percent(a.Silt, 0), Clay: percent(a.Clay, 0), VeryFineSand: percent(a.VeryFineSand, -1),
		Organic: percent(a.Organic, 0), Stones: percent(a.Stones, 0), Structure: usualStructure, Permeability: permeabilities[t],
	}
	if out.Permeability == 0 {
		out.Permeability = permeabilities[soil.Loam]
	}
	return out
}

// soaks settles the rate that a soakaway is sized by: that of the test pit, or the
// low end of what the texture lets through.
func (s *settler) soaks(b *Brief, p *geodata.TestPit) {
	if p != nil && p.Length != nil && p.Width != nil && p.From != nil && p.To != nil && p.Minutes != nil {
		b.SoakDesign = soil.PitRate(*p.Length, *p.Width, *p.From, *p.To, *p.Minutes*60)
		b.SoaksSaid = fmt.Sprintf("the test pit soaked %.0f mm an hour", b.SoakDesign*3.6e6)
		return
	}
	if rate, ok := soil.SoakOrder(b.Texture); ok {
		b.SoakDesign = rate.Low
		b.SoaksSaid = fmt.Sprintf("%s soaks in the order of %.0f mm an hour, taken as a tenth of that; a test pit on the spot must settle it", b.Texture, rate.Value*3.6e6)
	}
}
