package siting

import (
	"fmt"

	"crossfall/geodata"
	"crossfall/siting/soil"
)

// texture settles the texture of the soil, from its class or from the hand test,
// and how fast water soaks into it.
func (s *settler) texture(b *Brief, g geodata.GroundWords) {
	if t, ok := soil.TextureNamed(g.Texture); ok {
		b.Texture = t
	} else if t, ok := soil.TextureByHand(g.Ribbon, g.Feel); ok {
		b.Texture = t
	} else {
		s.assume("texture of the soil", "not known: soil loss between sandy loam and silt loam, wet-day runoff between groups B and D",
			"site.toml: ground.texture, or ground.ribbon and ground.feel by a hand test")
	}
	if p := g.TestPit; p != nil && p.Length != nil && p.Width != nil && p.From != nil && p.To != nil && p.Minutes != nil {
		rate := soil.PitRate(*p.Length, *p.Width, *p.From, *p.To, *p.Minutes*60)
		b.Soaks = geodata.Estimate{Value: rate, Low: rate / 2, High: rate * 2}
		b.SoaksSaid = fmt.Sprintf("the test pit soaked %.0f mm an hour", rate*3.6e6)
		return
	}
	if rate, ok := soil.SoakOrder(b.Texture); ok {
		b.Soaks = rate
		b.SoaksSaid = fmt.Sprintf("%s soaks in the order of %.0f mm an hour; a test pit on the spot must settle it", b.Texture, rate.Value*3.6e6)
	}
}
