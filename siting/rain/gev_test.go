package rain_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/siting/rain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func moments(t testing.TB, x []float64) rain.LMoments {
	m, err := rain.SampleLMoments(x)
	require.NoError(t, err)
	return m
}

type fitter func(rain.LMoments) (rain.GEV, error)

// Port Pirie and south-west England: data of Coles (2001), fits by the formulas
// of Hosking (1990), recomputed from the printed data. The polynomial (Hosking,
// Wallis & Wood 1985) differs from the exact solution in the third decimal of k.
func TestGEVByLMoments(t *testing.T) {
	pirie, southwest := moments(t, column(t, "port_pirie.csv", 1)), moments(t, column(t, "southwest_england.csv", 1))
	ten := moments(t, tenValues)
	cases := []struct {
		name                   string
		m                      rain.LMoments
		fit                    fitter
		location, scale, shape float64
	}{
		{"Port Pirie, polynomial", pirie, rain.GEVByHosking, 3.873172, 0.203268, -0.051477},
		{"Port Pirie, exact", pirie, rain.GEVByLMoments, 3.873148, 0.203222, -0.051212},
		{"Port Pirie, Gumbel", pirie, rain.GumbelByLMoments, 3.868491, 0.194251, 0},
		{"south-west England, polynomial", southwest, rain.GEVByHosking, 40.499261, 9.560332, 0.140847},
		{"south-west England, exact", southwest, rain.GEVByLMoments, 40.502015, 9.567770, 0.140192},
		{"south-west England, Gumbel", southwest, rain.GumbelByLMoments, 41.153042, 11.086050, 0},
		{"ten values, polynomial", ten, rain.GEVByHosking, 25.97071, 7.14072, -0.036949},
		{"ten values, Gumbel", ten, rain.GumbelByLMoments, 25.85207, 6.90891, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g, err := c.fit(c.m)
			require.NoError(t, err)
			assert.InDelta(t, c.location, g.Location, 6e-6)
			assert.InDelta(t, c.scale, g.Scale, 6e-6)
			assert.InDelta(t, c.shape, g.Shape, 2e-6)
		})
	}
}

// Return levels of the same fits.
func TestReturnLevel(t *testing.T) {
	pirie, southwest := moments(t, column(t, "port_pirie.csv", 1)), moments(t, column(t, "southwest_england.csv", 1))
	cases := []struct {
		name   string
		m      rain.LMoments
		fit    fitter
		years  []float64
		levels []float64
		tol    float64
	}{
		{"Port Pirie", pirie, rain.GEVByHosking, []float64{2, 10, 100}, []float64{3.94697, 4.30510, 4.70577}, 1e-5},
		{"Port Pirie, Gumbel", pirie, rain.GumbelByLMoments, []float64{2, 10, 100}, []float64{3.93969, 4.30563, 4.76207}, 1e-5},
		{"south-west England", southwest, rain.GEVByHosking, []float64{2, 5, 10, 20, 30, 50, 100},
			[]float64{44.095, 56.466, 65.814, 75.758, 81.952, 90.221, 102.373}, 6e-4},
		{"south-west England, Gumbel", southwest, rain.GumbelByLMoments, []float64{2, 5, 10, 20, 30, 50, 100},
			[]float64{45.216, 57.781, 66.101, 74.081, 78.671, 84.410, 92.151}, 6e-4},
		{"ten values", moments(t, tenValues), rain.GEVByHosking, []float64{10}, []float64{41.390}, 6e-4},
		{"ten values, Gumbel", moments(t, tenValues), rain.GumbelByLMoments, []float64{10}, []float64{41.400}, 6e-4},
	}
	for _, c := range cases {
		g, err := c.fit(c.m)
		require.NoError(t, err)
		for i, T := range c.years {
			assert.InDelta(t, c.levels[i], g.ReturnLevel(T), c.tol, "%s, %g years", c.name, T)
		}
	}
}

// Location 40, scale 10, k -0.1: L-moments by the formulas of Hosking (1990)
// worked by hand. The exact fit must return what went in.
func TestGEVRoundTrip(t *testing.T) {
	m := rain.LMoments{N: 50, L1: 46.862870, L2: 7.669918, T3: 0.235825}
	g, err := rain.GEVByLMoments(m)
	require.NoError(t, err)
	assert.InDelta(t, 40, g.Location, 2e-5)
	assert.InDelta(t, 10, g.Scale, 2e-5)
	assert.InDelta(t, 0.1, g.Shape, 2e-6)
	assert.InDelta(t, 98.4098, g.ReturnLevel(100), 1e-4)

	g, err = rain.GEVByHosking(m)
	require.NoError(t, err)
	assert.InDelta(t, 39.99779, g.Location, 1e-5)
	assert.InDelta(t, 9.99453, g.Scale, 1e-5)
	assert.InDelta(t, 0.100495, g.Shape, 2e-6)
}

// The published bound on the polynomial's error, 0.0009 (Hosking, Wallis & Wood
// 1985), holds for shapes of -0.5 to 0.5: checked against
// t3 = 2(1 - 3^-k)/(1 - 2^-k) - 3 of Hosking (1990).
func TestHoskingPolynomialError(t *testing.T) {
	for i := -19; i <= 19; i++ {
		k := (float64(i) + 0.5) / 40 // never 0
		m := rain.LMoments{N: 9, L1: 1, L2: 1, T3: 2*(1-math.Pow(3, -k))/(1-math.Pow(2, -k)) - 3}
		polynomial, err := rain.GEVByHosking(m)
		require.NoError(t, err)
		assert.InDelta(t, -k, polynomial.Shape, 9e-4, "k %g", k)
		exact, err := rain.GEVByLMoments(m)
		require.NoError(t, err)
		assert.InDelta(t, -k, exact.Shape, 1e-9, "k %g", k)
	}
	for _, skewness := range []float64{-0.12, 0.54} {
		_, err := rain.GEVByHosking(rain.LMoments{N: 9, L1: 1, L2: 1, T3: skewness})
		assert.ErrorIs(t, err, rain.ErrRange, "L-skewness %g", skewness)
	}
}

func TestGEVRefuses(t *testing.T) {
	for _, m := range []rain.LMoments{{L1: 1, L2: 0}, {L1: 1, L2: math.NaN()}, {L1: math.NaN(), L2: 1},
		{L1: 1, L2: 1, T3: 1}, {L1: 1, L2: 1, T3: math.NaN()}} {
		for _, fit := range []fitter{rain.GEVByLMoments, rain.GEVByHosking, rain.GumbelByLMoments} {
			_, err := fit(m)
			assert.ErrorIs(t, err, rain.ErrRange, "%+v", m)
		}
	}
	g := rain.GEV{Location: 1, Scale: 1}
	for _, p := range []float64{0, 1, -1, math.NaN()} {
		assert.True(t, math.IsNaN(g.Quantile(p)))
	}
	assert.True(t, math.IsNaN(g.ReturnLevel(1)))
}

func ExampleGEVByLMoments() {
	m, _ := rain.SampleLMoments([]float64{
		44.5, 43.2, 38.1, 39.1, 32.3, 25.4, 33.0, 32.5, 48.5, 34.3,
		45.7, 35.3, 76.7, 34.0, 86.6, 48.5, 59.4, 53.3, 30.5, 42.7,
	})
	g, _ := rain.GEVByLMoments(m)
	fmt.Printf("once in 10 years on average: %.0f mm in a day\n", g.ReturnLevel(10))
	// Output:
	// once in 10 years on average: 63 mm in a day
}
