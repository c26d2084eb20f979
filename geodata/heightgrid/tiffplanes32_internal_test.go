package heightgrid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// The pass over differences must give what the steps one by one give, for any
// bytes, width and window.
func TestOnePassComesToTheSameAsTheSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 700).Draw(t, "columns")
		skip := rapid.IntRange(0, n-1).Draw(t, "skipped")
		wanted := rapid.IntRange(1, n-skip).Draw(t, "wanted")
		rise := rapid.SampledFrom([]float64{1, 0.3048}).Draw(t, "rise")
		row := rapid.SliceOfN(rapid.Byte(), 4*n, 4*n).Draw(t, "row")
		im := &image{predictor: 3, sample: sample{4, floating}, together: 1, blockW: n}

		got := make([]float64, wanted)
		fast := tidier{rise: rise, mark: -9999}
		float32Heights(got, append([]byte(nil), row...), n, skip, &fast)

		want := make([]float64, wanted)
		slow := tidier{rise: rise, mark: -9999}
		im.unpredict(row, make([]byte, 4*n))
		im.convert(want, row[4*skip:])
		slow.cells(want)

		for i := range want {
			assert.Equal(t, math.Float64bits(want[i]), math.Float64bits(got[i]), "column %d", i)
		}
		assert.Equal(t, slow, fast)
	})
}
