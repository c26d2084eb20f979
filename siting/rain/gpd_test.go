package rain_test

import (
	"math"
	"testing"

	"crossfall/siting/rain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Daily rain above 30 mm in south-west England (data of Coles 2001, section
// 4.4.1), 152 of 17 531 days, 365 days to the year as Coles has it. Scale, shape
// and levels recomputed from the printed data by Hosking & Wallis (1987).
func TestGPDByLMoments(t *testing.T) {
	g, err := rain.GPDByLMoments(moments(t, over30(t)), 30)
	require.NoError(t, err)
	assert.InDelta(t, 7.299019, g.Scale, 2e-6)
	assert.InDelta(t, 0.196516, g.Shape, 2e-6)
	perYear := 365 * 152.0 / 17531
	for years, want := range map[float64]float64{2: 46.234, 5: 56.765, 10: 66.091, 50: 93.334, 100: 107.997} {
		assert.InDelta(t, want, g.ReturnLevel(years, perYear), 6e-4, "%g years", years)
	}
}

// The exponential distribution with mean 8 has L-scale 4 and shape 0 (Hosking 1990,
// table 1); its median is 8 ln 2 above the threshold.
func TestGPDExponential(t *testing.T) {
	g, err := rain.GPDByLMoments(rain.LMoments{N: 9, L1: 38, L2: 4, T3: 1.0 / 3}, 30)
	require.NoError(t, err)
	assert.InDelta(t, 8, g.Scale, 1e-12)
	assert.InDelta(t, 0, g.Shape, 1e-12)
	assert.InDelta(t, 30+8*math.Ln2, g.Quantile(0.5), 1e-9)
	assert.InDelta(t, 30+8*math.Ln2, g.ReturnLevel(1, 2), 1e-9)
	assert.InDelta(t, 30.0, g.Quantile(0), 1e-12)
}

// The uniform distribution on 0 to 1 is the generalised Pareto with scale 1 and
// shape -1: mean 1/2, L-scale 1/6.
func TestGPDUniform(t *testing.T) {
	g, err := rain.GPDByLMoments(rain.LMoments{N: 9, L1: 0.5, L2: 1.0 / 6}, 0)
	require.NoError(t, err)
	assert.InDelta(t, -1, g.Shape, 1e-12)
	assert.InDelta(t, 0.3, g.Quantile(0.3), 1e-12)
}

func TestGPDRefuses(t *testing.T) {
	for _, threshold := range []float64{5, 6, 4.5, math.NaN(), math.Inf(-1)} {
		_, err := rain.GPDByLMoments(rain.LMoments{N: 9, L1: 5, L2: 1, T3: 0.2}, threshold)
		assert.ErrorIs(t, err, rain.ErrRange, "threshold %g", threshold)
	}
	g := rain.GPD{Threshold: 30, Scale: 7}
	assert.True(t, math.IsNaN(g.ReturnLevel(0.1, 3)), "below the threshold the fit says nothing")
	assert.True(t, math.IsNaN(g.Quantile(1)))
}

// The link of Langbein (1949), worked by hand: 1/(1 - e^-1) = 1.58198.
func TestBetweenPeaks(t *testing.T) {
	for peaks, want := range map[float64]float64{0.5: 1.15652, 1: 1.58198, 2: 2.54149, 5: 5.51666, 10: 10.50833} {
		assert.InDelta(t, peaks, rain.BetweenPeaks(want), 2e-5)
	}
}
