package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAxesAreRoundAndNeverMinusZero(t *testing.T) {
	assert.Equal(t, "0", figured(math.Copysign(0, -1)))
	assert.Equal(t, "0", figured(-1e-9))
	assert.Equal(t, "0.25", figured(.25))
	for _, tt := range []struct {
		low, high float64
		most      int
		want      []float64
	}{
		{0, 16.4, 9, []float64{0, 2, 4, 6, 8, 10, 12, 14, 16}},
		{0, 121, 6, []float64{0, 50, 100}},
		{0, .3, 6, []float64{0, .05, .1, .15, .2, .25, .3}},
		{3, 7, 4, []float64{3, 4, 5, 6, 7}},
	} {
		assert.InDeltaSlice(t, tt.want, ruled(tt.low, tt.high, tt.most), 1e-9)
	}
}

// Half-way between 1 and 100 on a scale of logarithms is 10.
func TestScale(t *testing.T) {
	assert.InDelta(t, 50, scale{low: 1, high: 100, from: 0, to: 100, log: true}.at(10), 1e-9)
	assert.InDelta(t, 25, scale{low: 0, high: 8, from: 20, to: 30}.at(4), 1e-9)
}

// Gringorten 1963: of 10 values the greatest is met once in 10.12/0.56 = 18.07, of 48
// once in 48.12/0.56 = 85.93.
func TestPlottingPositions(t *testing.T) {
	p := plotted([]float64{9, 2, 3, 4, 5, 6, 7, 8, 1, 10})
	assert.InDelta(t, 18.07, p[9][0], .005)
	assert.InDelta(t, 10.12/9.56, p[0][0], 1e-9)
	assert.InDelta(t, 85.93, plotted(make([]float64, 48))[47][0], .005)
	assert.Equal(t, 10.0, p[9][1])
}
