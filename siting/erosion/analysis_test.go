package erosion_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/siting/erosion"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The emulated nomograph, worked by hand from its equations. The first soil is the
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
}

func TestErodibilityRefusesPeatAndNonsense(t *testing.T) {
	good := erosion.Analysis{Sand: 40, Silt: 40, Clay: 20, VeryFineSand: 10, Organic: 3, Structure: 2, Permeability: 3}
	_, err := erosion.ErodibilityOf(good)
	require.NoError(t, err)
	for _, spoil := range []func(*erosion.Analysis){
		func(a *erosion.Analysis) { a.Organic = 35 },
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
	unknown := good
	unknown.VeryFineSand = -1
	k, err := erosion.ErodibilityOf(unknown)
	require.NoError(t, err)
	assert.InEpsilon(t, 2, k.High/k.Value, 1e-9)
}

func ExampleErodibilityOf() {
	k, _ := erosion.ErodibilityOf(erosion.Analysis{
		Sand: 5, Silt: 65, Clay: 30, Organic: 2.8, Structure: 2, Permeability: 4,
	})
	fmt.Printf("%.3f t ha h/(ha MJ mm) (%.3f to %.3f)\n", k.Value, k.Low, k.High)
	// Output: 0.041 t ha h/(ha MJ mm) (0.027 to 0.062)
}
