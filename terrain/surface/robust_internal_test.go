package surface

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
)

// rlm(z ~ x + y) in R 4.2.2 on the 52 heights of Davis 1973 (data set topo of the R
// package MASS, which has rlm too): Huber's weights with k = 1.345 and the scale median |r| / 0.6745 found anew in each
// step. Its fixed point is that of ours when the scale is set to that again and
// again; rlm stops when residuals change by 1e-4 of themselves.
func TestHuberAgainstR(t *testing.T) {
	file, err := os.Open("testdata/topo/topo_davis_52.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	var spots []geodata.SpotHeight
	for _, row := range rows[1:] {
		var v [3]float64
		for i, s := range row {
			v[i], err = strconv.ParseFloat(s, 64)
			require.NoError(t, err)
		}
		spots = append(spots, geodata.SpotHeight{At: orb.Point{v[0], v[1]}, Height: v[2]})
	}
	s, err := newSurvey(spots, Options{})
	require.NoError(t, err)
	f := &fitting{survey: s}
	weight := make([]float64, len(spots))
	for i := range weight {
		weight[i] = 1
	}
	l, ok := fitLinear(s, planeTerms, nil)
	for range 40 {
		require.True(t, ok)
		var size []float64
		for _, r := range l.residuals {
			size = append(size, math.Abs(r))
		}
		slices.Sort(size)
		for i := range f.sigma {
			f.sigma[i] = (size[25] + size[26]) / 2 / 0.6745
		}
		require.True(t, f.reweight(planeTerms, weight, func(u float64) float64 { return math.Min(1, huberK/u) }))
		l, ok = fitLinear(s, planeTerms, weight)
	}
	z, _ := l.HeightAt(orb.Point{})
	g, _ := l.GradientAt(orb.Point{})
	assert.InDelta(t, 913.467284962, z, 0.05, "intercept; its standard error is 13")
	assert.InDelta(t, -1.28781143969, g.East, 0.01, "x; 2.8")
	assert.InDelta(t, -26.2901214608, g.North, 0.01, "y; 2.6")
}
