package rain_test

import (
	"math"
	"testing"

	"crossfall/siting/rain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Port Pirie: Coles (2001), section 3.4.1, prints 3.87, 0.198, -0.050,
// log-likelihood 4.34; the further digits and the standard errors are those of
// the R package evd. South-west England by the same likelihood recomputed from
// the printed maxima. Uccle, 10 minutes (Sneyers 1977): R package evd.
func TestGEVByLikelihood(t *testing.T) {
	cases := []struct {
		name                   string
		x                      []float64
		location, scale, shape float64
		logL                   float64
		se                     []float64
		tol                    float64
	}{
		{"Port Pirie", column(t, "port_pirie.csv", 1), 3.87475, 0.198044, -0.050110, 4.33906,
			[]float64{0.02793, 0.02025, 0.09826}, 6e-6},
		{"south-west England", column(t, "southwest_england.csv", 1), 40.78299, 9.72838, 0.107236, -188.0154,
			[]float64{1.576, 1.188, 0.109}, 6e-4},
		{"Uccle, 10 minutes", column(t, "uccle.csv", 3), 8.655, 3.079, -0.387, -87.195, nil, 6e-4},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g, err := rain.GEVByLikelihood(c.x)
			require.NoError(t, err)
			assert.InDelta(t, c.location, g.Location, c.tol)
			assert.InDelta(t, c.scale, g.Scale, c.tol)
			assert.InDelta(t, c.shape, g.Shape, c.tol)
			assert.InDelta(t, c.logL, g.LogLikelihood, 6e-4)
			for i, want := range c.se {
				assert.InDelta(t, want, math.Sqrt(g.Covariance[i][i]), want/200, "standard error %d", i)
			}
		})
	}
}

// Coles (2001), section 3.4.1, prints the covariance and the 10- and 100-year
// levels 4.30 [4.19, 4.45] and 4.69 [4.50, 5.27] (intervals by the profile
// likelihood, so not those of the delta method).
func TestPortPirieCovarianceAndLevels(t *testing.T) {
	g, err := rain.GEVByLikelihood(column(t, "port_pirie.csv", 1))
	require.NoError(t, err)
	want := [3][3]float64{{0.000780, 0.000197, -0.00107}, {0.000197, 0.000410, -0.000778}, {-0.00107, -0.000778, 0.00965}}
	for i := range want {
		for j := range want {
			assert.InDelta(t, want[i][j], g.Covariance[i][j], math.Abs(want[i][j])*0.005, "%d, %d", i, j)
		}
	}
	assert.InDelta(t, 4.29621, g.ReturnLevel(10), 1e-5)
	assert.InDelta(t, 4.68840, g.ReturnLevel(100), 1e-5)
}

func TestSouthWestLevelsByLikelihood(t *testing.T) {
	g, err := rain.GEVByLikelihood(column(t, "southwest_england.csv", 1))
	require.NoError(t, err)
	for years, want := range map[float64]float64{2: 44.420, 10: 65.543, 50: 87.918, 100: 98.636} {
		assert.InDelta(t, want, g.ReturnLevel(years), 1e-3, "%g years", years)
	}
}

// Uccle, 10 minutes (Sneyers 1977), fitted by the R package evd: 8.065, 2.771,
// negative log-likelihood 89.548; likelihood ratio against the generalised
// extreme value fit 4.705.
func TestGumbelByLikelihood(t *testing.T) {
	x := column(t, "uccle.csv", 3)
	require.Len(t, x, 35)
	g, err := rain.GumbelByLikelihood(x)
	require.NoError(t, err)
	assert.InDelta(t, 8.065, g.Location, 6e-4)
	assert.InDelta(t, 2.771, g.Scale, 6e-4)
	assert.Equal(t, 0.0, g.Shape)
	assert.InDelta(t, -89.548, g.LogLikelihood, 6e-4)
	assert.Equal(t, 0.0, g.Covariance[2][2])
	full, err := rain.GEVByLikelihood(x)
	require.NoError(t, err)
	assert.InDelta(t, 4.705, 2*(full.LogLikelihood-g.LogLikelihood), 1e-3)
}

// Daily rain above 30 mm: Coles (2001), section 4.4.1, prints 7.44, 0.184,
// log-likelihood -485.1 and covariance 0.9188, -0.0655, 0.0102; further digits
// by the R package evd and from the printed data.
func TestGPDByLikelihood(t *testing.T) {
	g, err := rain.GPDByLikelihood(over30(t), 30)
	require.NoError(t, err)
	assert.InDelta(t, 7.440269, g.Scale, 5e-5)
	assert.InDelta(t, 0.184499, g.Shape, 5e-6)
	assert.InDelta(t, -485.09372, g.LogLikelihood, 1e-5)
	assert.InDelta(t, 0.918784, g.Covariance[0][0], 5e-4)
	assert.InDelta(t, -0.065508, g.Covariance[0][1], 5e-5)
	assert.InDelta(t, 0.010242, g.Covariance[1][1], 5e-6)
	for years, want := range map[float64]float64{2: 46.355, 5: 56.795, 10: 65.952, 50: 92.324, 100: 106.328} {
		assert.InDelta(t, want, g.ReturnLevel(years, 365*152.0/17531), 1e-3, "%g years", years)
	}
}

// Moving and stretching the record must move and stretch the fit.
func TestLikelihoodFollowsTheUnit(t *testing.T) {
	x := column(t, "southwest_england.csv", 1)
	inches := make([]float64, len(x))
	for i, v := range x {
		inches[i] = v/25.4 + 3
	}
	a, err := rain.GEVByLikelihood(x)
	require.NoError(t, err)
	b, err := rain.GEVByLikelihood(inches)
	require.NoError(t, err)
	assert.InDelta(t, a.Location, (b.Location-3)*25.4, 1e-3)
	assert.InDelta(t, a.Scale, b.Scale*25.4, 1e-3)
	assert.InDelta(t, a.Shape, b.Shape, 1e-4)
	assert.InDelta(t, a.Covariance[0][2], b.Covariance[0][2]*25.4, 1e-3)
	assert.InDelta(t, a.LogLikelihood, b.LogLikelihood-48*math.Log(25.4), 1e-6)
}

func TestLikelihoodRefuses(t *testing.T) {
	// evenly spread values have an upper end that is sharp: the generalised
	// Pareto of a uniform distribution has shape -1
	even := make([]float64, 40)
	for i := range even {
		even[i] = float64(i) + 0.5
	}
	_, err := rain.GPDByLikelihood(even, 0)
	assert.ErrorIs(t, err, rain.ErrNoFit)
	_, err = rain.GEVByLikelihood(even[:3])
	assert.ErrorIs(t, err, rain.ErrTooFew)
	_, err = rain.GumbelByLikelihood(even[:3])
	assert.ErrorIs(t, err, rain.ErrTooFew)
	_, err = rain.GPDByLikelihood(append([]float64{30}, over30(t)...), 30)
	assert.ErrorIs(t, err, rain.ErrRange)
}
