package words

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"crossfall/siting"
	"crossfall/siting/frame"
)

func TestChanceSaid(t *testing.T) {
	none, some, nearly := 0.0, 0.115, 0.996
	chances := func(path *float64, cs ...siting.ClassChance) siting.Bed {
		return siting.Bed{Chances: siting.Chances{EdgeChances: cs, PathChance: path}}
	}
	cases := []struct {
		bed  siting.Bed
		want string
	}{
		{chances(nil), ""},
		{chances(nil, siting.ClassChance{Class: frame.Boarded, Share: 1}), "boarded in 100 of 100 simulated surfaces"},
		{
			chances(&some, siting.ClassChance{Class: frame.OpenEdged, Share: 0.004}, siting.ClassChance{Class: frame.Boarded, Share: nearly}),
			"open-edged in under 1 of 100 simulated surfaces and boarded in over 99 of 100; a drawn runoff path crosses it in 12 of 100",
		},
		{
			chances(nil, siting.ClassChance{Class: frame.Boarded, Share: 0.945}, siting.ClassChance{Class: frame.SunkenEdges, Share: 0.055}),
			"boarded in 95 of 100 simulated surfaces and boarded with sunken edges and pegs in 5 of 100",
		},
		{chances(&none), "a drawn runoff path crosses it in 0 of 100 simulated surfaces"},
	}
	for _, c := range cases {
		assert.Equal(t, c.want, chanceSaid(c.bed))
	}
}
