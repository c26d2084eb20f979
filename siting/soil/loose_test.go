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
	// .2 Pa at a roughness of .06, .2049 mm deep, and .7 Pa at .011, .7170 mm
	assert.InDelta(t, .6755, e.Low, 5e-5)
	assert.InDelta(t, 29.73, e.High, 5e-3)
	_, ok = soil.MovingLength(geodata.Exactly(20), geodata.Exactly(1), geodata.Exactly(.001))
	assert.False(t, ok)
}

// The criterion of Shields 1936 (from memory) with .045 for particles of 5 mm of 1100
// and 1300 kg/m3, worked by hand: .045 x 100 x 9.81 x .005 = .22 Pa and .66.
func TestPullsOnCompost(t *testing.T) {
	assert.InDelta(t, .22, soil.StillPull, .025)
	assert.InDelta(t, .66, soil.CarryPull, .045)
}

// At that very length the pull on loose compost is .5 Pa again.
func TestPullOnLooseCompost(t *testing.T) {
	slope := geodata.Exactly(.1)
	r := soil.RunOn{PerMetre: geodata.Exactly(2.0742e-5)}
	assert.InDelta(t, .5, r.OnLoose(slope).Value, 1e-4)
	assert.Less(t, r.OnLoose(slope).Low, .5)
	assert.Greater(t, r.OnLoose(slope).High, .5)
}
