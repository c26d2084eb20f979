package siting_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What the working of a peg's depth names is all that it takes to work the depth
// anew: Broms (1964), short pile in clay, the sunken edge as a key, to the next
// 20 mm.
func TestPegDepthFollowsFromItsWorking(t *testing.T) {
	worked := 0
	for _, b := range assess(t, read(t, "hillside")).Working {
		if !strings.HasSuffix(b.ID, ".pegs.embedment") {
			continue
		}
		require.Contains(t, b.Formula, "D = 1.5 b + sqrt(M (1 + g) / (2.25 c b))")
		in := map[string]float64{}
		for _, p := range b.Inputs {
			in[p.Name] = p.Value
		}
		side, c := in["peg, side b"]/1000, 1000*in["undrained strength c of the ground"]
		moment := in["factor of safety F asked"] * in["load P at the peg that carries most, winter"] *
			(in["height e of that load above the ground"] + in["depth s of the sunken edge"]/2) / 1000
		d := 1.5*side + math.Sqrt(moment*(1+in["fall across g"])/(2.25*c*side))
		assert.InDelta(t, 20*math.Ceil(d*50), b.Value, 1e-9, b.ID)
		worked++
	}
	assert.Equal(t, 4, worked)
}
