package soil_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Worked by hand: a pull of .5 Pa on 10 % needs y = .5 / (9810 x .0995) = .5122
// mm; at a roughness of .05 that carries 2.0742e-5 m2/s, which 20 mm/h that runs
// off whole yields from 3.73 m.
func TestLengthAtWhichCompostMoves(t *testing.T) {
	e, ok := soil.MovingLength(geodata.Exactly(20), geodata.Exactly(1), geodata.Exactly(.1))
	require.True(t, ok)
	assert.InDelta(t, 3.73, e.Value, .005)
	assert.Less(t, e.Low, e.Value)
	assert.Greater(t, e.High, e.Value)
	_, ok = soil.MovingLength(geodata.Exactly(20), geodata.Exactly(1), geodata.Exactly(.001))
	assert.False(t, ok)
}

// At that very length the pull on loose compost is .5 Pa again.
func TestPullOnLooseCompost(t *testing.T) {
	slope := geodata.Exactly(.1)
	r := soil.RunOn{PerMetre: geodata.Exactly(2.0742e-5)}
	assert.InDelta(t, .5, r.OnLoose(slope).Value, 1e-4)
	assert.Less(t, r.OnLoose(slope).Low, .5)
	assert.Greater(t, r.OnLoose(slope).High, .5)
}
