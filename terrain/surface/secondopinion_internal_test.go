package surface

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rolling is 80 heights on ground with waves 22 m long.
func rolling(seed uint64) [][3]float64 {
	rng := rand.New(rand.NewPCG(seed, 1))
	var rows [][3]float64
	for i := range 80 {
		x, y := 2*float64(i%10)+rng.Float64(), 1.9*float64(i/10)+rng.Float64()
		z := 50 - .06*y + .3*math.Sin(2*math.Pi*x/22)*math.Cos(2*math.Pi*y/22)
		rows = append(rows, [3]float64{x, y, z + .012*rng.NormFloat64()})
	}
	return rows
}

// The thin plate keeps quiet where the smooth surface suits the heights, and
// speaks up where its hyperparameters make it far too stiff.
func TestSecondOpinion(t *testing.T) {
	said := func(f *Fit) bool {
		for _, n := range f.Notes {
			if strings.HasPrefix(n, "Another way of fitting, a thin plate, differs") {
				return true
			}
		}
		return false
	}
	for seed := range uint64(6) {
		spots := spotsOf(rolling(seed))
		fit, err := FitSpots(spots, Options{})
		require.NoError(t, err)
		require.Equal(t, SmoothKind, fit.Kind)
		assert.False(t, said(fit), "seed %d: %v", seed, fit.Notes)
		stiff, err := FitSpots(spots, Options{hyper: &Hyper{Range: 60, Variance: 1e-3, NoiseFactor: 1}})
		require.NoError(t, err)
		assert.True(t, said(stiff), "seed %d", seed)
	}
}
