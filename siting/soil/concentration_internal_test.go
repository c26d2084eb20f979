package soil

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The formula of Kerby 1959 and the time in which a kinematic wave crosses a plane
// (Woolhiser & Liggett 1967), worked by hand; Kerby's formula in feet, (0.67 N L /
// sqrt S)^0.467 minutes, gives 9.510 and 11.779 minutes.
func TestTimesOverAPlane(t *testing.T) {
	assert.InDelta(t, 9.480, kerby(.4, 40, .08)/60, .001)
	assert.InEpsilon(t, 9.510, kerby(.4, 40, .08)/60, .005)
	assert.InDelta(t, 11.742, kerby(.2, 100, .05)/60, .001)
	assert.InEpsilon(t, 11.779, kerby(.2, 100, .05)/60, .005)
	assert.InEpsilon(t, 3.188, waveTime(.05, 20, 40, .1)/60, 1e-3)
	assert.InEpsilon(t, 13.448, waveTime(.24, 30, 25, .08)/60, 1e-3)
}

// Five minutes at least and 365 m at most: the range of Kerby 1959, from memory; the
// floor is a default of ours.
func TestConcentrationHasAFloor(t *testing.T) {
	e, err := Concentration(2, .2, 60, "bare")
	require.NoError(t, err)
	assert.Equal(t, 300., e.Value)
	long, err := Concentration(100, .05, 20, "rough grass")
	require.NoError(t, err)
	assert.Greater(t, long.Low, 300.)
	assert.Less(t, long.Low, long.Value)
	assert.Less(t, long.Value, long.High)
	for _, bad := range [][3]float64{{0, .1, 20}, {400, .1, 20}, {10, -.1, 20}, {10, .1, 0}} {
		_, err := Concentration(bad[0], bad[1], bad[2], "turf")
		assert.ErrorIs(t, err, ErrRange)
	}
}
