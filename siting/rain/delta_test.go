package rain_test

import (
	"math"
	"testing"

	"crossfall/siting/rain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Worked from the covariance that Coles (2001), section 4.4.1, prints: for the
// 100-year daily rain the variance is 431 to 434 mm2, the standard error 20.8.
func TestGPDLevelError(t *testing.T) {
	g, err := rain.GPDByLikelihood(over30(t), 30)
	require.NoError(t, err)
	assert.InDelta(t, 20.84, g.LevelError(100, 365*152.0/17531, 17531), 0.02)
	assert.True(t, math.IsNaN(g.LevelError(0.1, 3, 17531)))
	assert.True(t, math.IsNaN(g.LevelError(10, 3, 151)), "fewer observations than exceedances")
}

// Var = grad' V grad with the covariance and the gradient of Coles (2001),
// sections 3.3.3 and 3.4.1, for the 10-year level: y = -ln 0.9, the gradient 1,
// -(1 - y^-xi)/xi, scale (1 - y^-xi)/xi^2 - scale y^-xi ln y/xi.
func TestGEVLevelError(t *testing.T) {
	v := [3][3]float64{{0.000780, 0.000197, -0.00107}, {0.000197, 0.000410, -0.000778}, {-0.00107, -0.000778, 0.00965}}
	xi, scale, y := -0.05011, 0.198044, -math.Log(0.9)
	w := math.Pow(y, -xi)
	grad := [3]float64{1, -(1 - w) / xi, scale*(1-w)/(xi*xi) - scale*w*math.Log(y)/xi}
	want := 0.0
	for i := range grad {
		for j := range grad {
			want += grad[i] * v[i][j] * grad[j]
		}
	}
	g, err := rain.GEVByLikelihood(column(t, "port_pirie.csv", 1))
	require.NoError(t, err)
	assert.InDelta(t, math.Sqrt(want), g.LevelError(10), 5e-4)
	assert.True(t, math.IsNaN(g.LevelError(1)))
}

// For the Gumbel distribution the variance of a level is scale^2/n (1.1087 +
// 0.5140 y + 0.6079 y^2) by the expected information (Phien 1987, Journal
// of Hydrology 90, from memory). The observed information of one sample of 500 evenly
// placed quantiles is within a few hundredths of it.
func TestGumbelLevelErrorAgainstPhien(t *testing.T) {
	const n = 500
	parent := rain.GEV{Location: 40, Scale: 11}
	x := make([]float64, n)
	for i := range x {
		x[i] = parent.Quantile((float64(i) + 0.56) / (n + 0.12))
	}
	g, err := rain.GumbelByLikelihood(x)
	require.NoError(t, err)
	for _, years := range []float64{2, 10, 100} {
		y := -math.Log(-math.Log(1 - 1/years))
		want := g.Scale * math.Sqrt((1.1087+0.5140*y+0.6079*y*y)/n)
		assert.InDelta(t, want, g.LevelError(years), want*0.03, "%g years", years)
	}
}
