package soil_test

import (
	"testing"

	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
)

// The flow chart of Thien 1979, Journal of Agronomic Education 8:54-55, from memory.
func TestTextureByHand(t *testing.T) {
	for _, c := range []struct {
		ribbon, feel string
		want         soil.Texture
	}{
		{soil.NoBall, "", soil.Sand}, {soil.NoRibbon, "", soil.LoamySand},
		{soil.ShortRibbon, soil.Gritty, soil.SandyLoam}, {soil.ShortRibbon, soil.Smooth, soil.SiltLoam}, {soil.ShortRibbon, soil.Neither, soil.Loam},
		{soil.MiddleRibbon, soil.Gritty, soil.SandyClayLoam}, {soil.MiddleRibbon, soil.Smooth, soil.SiltyClayLoam}, {soil.MiddleRibbon, soil.Neither, soil.ClayLoam},
		{soil.LongRibbon, soil.Gritty, soil.SandyClay}, {soil.LongRibbon, soil.Smooth, soil.SiltyClay}, {soil.LongRibbon, soil.Neither, soil.Clay},
	} {
		got, ok := soil.TextureByHand(c.ribbon, c.feel)
		assert.True(t, ok)
		assert.Equal(t, c.want, got, "%s, %s", c.ribbon, c.feel)
	}
	_, ok := soil.TextureByHand(soil.ShortRibbon, "")
	assert.False(t, ok)
	_, ok = soil.TextureByHand("3 mm", soil.Gritty)
	assert.False(t, ok)
}

// TR-55 (1986), appendix A, from memory.
func TestGroupsOfTextures(t *testing.T) {
	want := map[soil.Texture]soil.Group{
		soil.Sand: 'A', soil.LoamySand: 'A', soil.SandyLoam: 'A', soil.SiltLoam: 'B', soil.Loam: 'B',
		soil.SandyClayLoam: 'C', soil.ClayLoam: 'D', soil.SiltyClayLoam: 'D', soil.SandyClay: 'D', soil.SiltyClay: 'D', soil.Clay: 'D',
	}
	for texture, group := range want {
		assert.Equal(t, group, soil.GroupOf(texture), texture)
	}
	for _, texture := range soil.Textures() {
		got, ok := soil.TextureNamed(string(texture))
		assert.True(t, ok)
		assert.Equal(t, texture, got)
	}
}
