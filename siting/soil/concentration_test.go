package soil_test

import (
	"fmt"
	"testing"

	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The middle of the kinematic wave and of the formula of Kerby 1959, and the least and
// the most of them at the ends of the roughness, in minutes, worked by hand from the
// table of Kerby 1959 (dense grass .80, pasture .40, rough bare ground and row crops .20,
// smooth bare ground .10, a neighbouring row at either end) and of TR-55 (1986, table 3-1).
func TestConcentrationByCover(t *testing.T) {
	for _, c := range []struct {
		cover              string
		length, rate       float64
		value, least, most float64
	}{
		{"turf", 300, 10, 74.097, 28.560, 144.135},
		{"turf", 150, 150, 26.420, 20.662, 39.477},
		{"rough grass", 300, 10, 99.350, 39.477, 198.753},
		{"rough grass", 150, 150, 35.833, 24.280, 44.387},
		{"bare", 300, 10, 38.450, 20.662, 62.738},
		{"bare", 150, 150, 13.754, 5.063, 20.662},
		{"dug", 300, 10, 45.649, 20.662, 117.196},
		{"dug", 150, 150, 17.337, 12.559, 28.560},
	} {
		e, err := soil.Concentration(c.length, .01, c.rate, c.cover)
		require.NoError(t, err)
		assert.InDelta(t, c.value, e.Value/60, .001, "%s, %g m", c.cover, c.length)
		assert.InDelta(t, c.least, e.Low/60, .001, "%s, %g m", c.cover, c.length)
		assert.InDelta(t, c.most, e.High/60, .001, "%s, %g m", c.cover, c.length)
	}
}

func ExampleConcentration() {
	e, _ := soil.Concentration(40, .08, 30, "turf")
	fmt.Printf("%.0f minutes (%.0f to %.0f)\n", e.Value/60, e.Low/60, e.High/60)
	// Output: 10 minutes (7 to 15)
}
