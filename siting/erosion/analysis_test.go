package erosion_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/siting/erosion"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The emulated nomograph (Auerswald et al. 2014, from memory), worked by hand from its
// equations. The first soil is the
// example on the nomograph of Agriculture Handbook 537 (1978), which reads .31 in
// United States units, .0408.
func TestErodibilityOfAnalysedSoil(t *testing.T) {
	for _, c := range []struct {
		a    erosion.Analysis
		want float64
	}{
		{erosion.Analysis{Sand: 5, Silt: 65, Clay: 30, Organic: 2.8, Structure: 2, Permeability: 4}, .04101},
		{erosion.Analysis{Sand: 67, Silt: 25, Clay: 8, Organic: 2, Structure: 2, Permeability: 2}, .01478},
		{erosion.Analysis{Sand: 27, Silt: 55, Clay: 18, Organic: 6, Structure: 2, Permeability: 3, Stones: 20}, .02015},
		{erosion.Analysis{Sand: 10, Silt: 70, Clay: 20, Organic: 1.5, Structure: 3, Permeability: 4}, .06213},
		{erosion.Analysis{Sand: 67, Silt: 25, Clay: 8, Organic: 2, Structure: 4, Permeability: 2}, .02382},
		// the bend at .2: .1995 under it, .2056 over it
		{erosion.Analysis{Sand: 65.7, Silt: 26.3, Clay: 8, Organic: 2, Structure: 3, Permeability: 3}, .02381},
		{erosion.Analysis{Sand: 65, Silt: 27, Clay: 8, Organic: 2, Structure: 3, Permeability: 3}, .02486},
		// stones count from 1.5 % on
		{erosion.Analysis{Sand: 27, Silt: 55, Clay: 18, Organic: 6, Structure: 2, Permeability: 3, Stones: 1.4}, .03246},
		{erosion.Analysis{Sand: 27, Silt: 55, Clay: 18, Organic: 6, Structure: 2, Permeability: 3, Stones: 1.6}, .03241},
		// nothing that a soil survey found is under .02 in United States units
		{erosion.Analysis{Sand: 98, Silt: 1, Clay: 1, Organic: 4, Structure: 1, Permeability: 1}, .002634},
	} {
		k, err := erosion.ErodibilityOf(c.a)
		require.NoError(t, err)
		assert.InDelta(t, c.want, k.Value, 6e-6)
		assert.InEpsilon(t, 1.5, k.High/k.Value, 1e-9)
		assert.InEpsilon(t, 1.5, k.Value/k.Low, 1e-9)
	}
}

// Over 70 % silt and very fine sand the plain equation holds, in a wider band:
// 80 % and 10 % clay, 2 % organic matter give M 7200 and 2.1e-4 M^1.14 10 / 100 =
// .5243 in United States units, .06906.
func TestErodibilityOfVerySiltySoil(t *testing.T) {
	k, err := erosion.ErodibilityOf(erosion.Analysis{Sand: 10, Silt: 80, Clay: 10, Organic: 2, Structure: 2, Permeability: 3})
	require.NoError(t, err)
	assert.InDelta(t, .06906, k.Value, 2e-5)
	assert.InEpsilon(t, 2, k.High/k.Value, 1e-9)
	// nor is anything over .69 in United States units, where this would be 1.01
	k, err = erosion.ErodibilityOf(erosion.Analysis{Sand: 5, Silt: 93, Clay: 2, VeryFineSand: 5, Structure: 4, Permeability: 6})
	require.NoError(t, err)
	assert.InDelta(t, .09088, k.Value, 2e-5)
}

func TestErodibilityRefusesPeatAndNonsense(t *testing.T) {
	good := erosion.Analysis{Sand: 40, Silt: 40, Clay: 20, VeryFineSand: 10, Organic: 3, Structure: 2, Permeability: 3}
	_, err := erosion.ErodibilityOf(good)
	require.NoError(t, err)
	for _, spoil := range []func(*erosion.Analysis){
		func(a *erosion.Analysis) { a.Organic = 20 },
		func(a *erosion.Analysis) { a.Organic = math.NaN() },
		func(a *erosion.Analysis) { a.Sand = 60 },
		func(a *erosion.Analysis) { a.VeryFineSand = 41 },
		func(a *erosion.Analysis) { a.Stones = 101 },
		func(a *erosion.Analysis) { a.Structure = 0 },
		func(a *erosion.Analysis) { a.Permeability = 7 },
	} {
		a := good
		spoil(&a)
		_, err := erosion.ErodibilityOf(a)
		assert.ErrorIs(t, err, erosion.ErrRange)
	}
	good.Organic = 19.9
	_, err = erosion.ErodibilityOf(good)
	require.NoError(t, err)
}

// Of 40 % sand .74 x 40 - .62 x 16 = 19.68 % are taken for very fine sand (Auerswald et
// al. 2014, from memory), which is less sure: .03897, worked by hand, within a factor of 2.
func TestErodibilityWithoutVeryFineSand(t *testing.T) {
	k, err := erosion.ErodibilityOf(erosion.Analysis{Sand: 40, Silt: 40, Clay: 20, VeryFineSand: -1, Organic: 3, Structure: 2, Permeability: 3})
	require.NoError(t, err)
	assert.InDelta(t, .03897, k.Value, 6e-6)
	assert.InEpsilon(t, 2, k.High/k.Value, 1e-9)
}

func ExampleErodibilityOf() {
	k, _ := erosion.ErodibilityOf(erosion.Analysis{
		Sand: 5, Silt: 65, Clay: 30, Organic: 2.8, Structure: 2, Permeability: 4,
	})
	fmt.Printf("%.3f t ha h/(ha MJ mm) (%.3f to %.3f)\n", k.Value, k.Low, k.High)
	// Output: 0.041 t ha h/(ha MJ mm) (0.027 to 0.062)
}
