package surface_test

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/terrain/surface"
)

// Recomputed independently from the bordered system [E + n lambda I, T; T', 0]
// (Wahba 1990, chapter 2) for the eight heights.
func TestThinPlate(t *testing.T) {
	for _, c := range []struct{ lambda, freedom, score, middle, beyond float64 }{
		{.01, 7.827629, .0052050788, 1.57141630, 1.36199583},
		{1, 4.334054, .0039679256, 1.54690217, 1.38820846},
	} {
		f, err := surface.FitThinPlate(eightPoints(), c.lambda)
		require.NoError(t, err)
		assert.InDelta(t, c.freedom, f.Freedom, 5e-7)
		near(t, c.score, f.Score, "score")
		z, _ := f.HeightAt(orb.Point{10, 5})
		near(t, c.middle, z, "(10, 5)")
		z, _ = f.HeightAt(orb.Point{25, 5})
		near(t, c.beyond, z, "(25, 5)")
	}
	f, err := surface.FitThinPlate(eightPoints(), 1)
	require.NoError(t, err)
	g, _ := f.GradientAt(orb.Point{3, 8})
	near(t, -.00691908, g.East, "east")
	near(t, -.08607593, g.North, "north")
	assert.InDeltaSlice(t, []float64{-.09926012, -.03884361, .03755408, .02663199, -.01393870, -.13067209, .05033792, .06957296}, f.LeftOut, 6e-9)

	stiff, err := surface.FitThinPlate(eightPoints(), 1e6)
	require.NoError(t, err)
	assert.InDelta(t, 3.000002, stiff.Freedom, 5e-7)
	g, _ = stiff.GradientAt(orb.Point{4, 4})
	assert.InDelta(t, -.00855556, g.East, 5e-8, "the plane")
	assert.InDelta(t, -.08666667, g.North, 5e-8, "the plane")
	z, _ := stiff.HeightAt(orb.Point{10, 5})
	near(t, 1.53375002, z, "the plane")

	best, err := surface.FitThinPlate(eightPoints(), 0)
	require.NoError(t, err)
	assert.LessOrEqual(t, best.Freedom, 4.0, "half the heights")
}

// Leaving one out is refitting without it, n lambda held.
func TestThinPlateLeaveOneOut(t *testing.T) {
	all := eightPoints()
	f, err := surface.FitThinPlate(all, 1)
	require.NoError(t, err)
	for i, s := range all {
		rest := append(append([]geodata.SpotHeight(nil), all[:i]...), all[i+1:]...)
		r, err := surface.FitThinPlate(rest, 8./7)
		require.NoError(t, err)
		z, _ := r.HeightAt(s.At)
		assert.InDelta(t, s.Height-z, f.LeftOut[i], 1e-9)
	}
	// The gradient is that of the height.
	p, d := orb.Point{6, 3}, 1e-5
	g, _ := f.GradientAt(p)
	e, _ := f.HeightAt(orb.Point{p[0] + d, p[1]})
	w, _ := f.HeightAt(orb.Point{p[0] - d, p[1]})
	assert.InDelta(t, (e-w)/(2*d), g.East, 1e-7)
}

func TestThinPlateRefuses(t *testing.T) {
	for _, lambda := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, err := surface.FitThinPlate(eightPoints(), lambda)
		assert.Error(t, err)
	}
	_, err := surface.FitThinPlate(eightPoints()[2:5], 0)
	assert.ErrorIs(t, err, surface.ErrTooFewHeights)
	f, err := surface.FitThinPlate(eightPoints(), 0)
	require.NoError(t, err)
	_, ok := f.HeightAt(orb.Point{math.NaN(), 0})
	assert.False(t, ok)
	_, ok = f.GradientAt(orb.Point{0, math.Inf(1)})
	assert.False(t, ok)
}
