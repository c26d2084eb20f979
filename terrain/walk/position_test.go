package walk_test

import (
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/terrain/walk"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// On a plane of 0.03 east and 0.04 north, whose gradient is 0.05, places good to
// 0.4 m make heights good to 10 mm good to hypot(10, 0.05 times 400) = 22.36 mm.
func TestErrorsOfPlacesWidenHeights(t *testing.T) {
	p := &geodata.Plot{}
	for i := range 9 {
		x, y := float64(i%3)*5, float64(i/3)*5
		p.Spots = append(p.Spots, geodata.SpotHeight{
			At: orb.Point{x, y}, Height: 30 + 0.03*x + 0.04*y, Sigma: 0.010, PositionError: 0.4, Readings: 1,
		})
	}
	fit, err := walk.FitPlot(p)
	require.NoError(t, err)
	assert.InDelta(t, math.Sqrt(500)/1000, fit.Sigma, 1e-6)
	assert.InDelta(t, 0.010, p.Spots[0].Sigma, 1e-12, "the plot's own heights stay as they are")

	for i := range p.Spots {
		p.Spots[i].Height = 30
	}
	fit, err = walk.FitPlot(p)
	require.NoError(t, err)
	assert.InDelta(t, 0.010, fit.Sigma, 1e-9, "on level ground the place does not matter")
}
