package erosion

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The equation of Wischmeier, Johnson & Cross 1971, worked by hand; the nomograph
// of Agriculture Handbook 537 (1978) reads .31 for the first.
func TestPlainNomograph(t *testing.T) {
	for _, c := range []struct {
		fine, clay, organic, want float64
		structure, permeability   int
	}{
		{65, 30, 2.8, .3109, 2, 4},
		{45, 15, 2, .2549, 2, 3},
		{70, 20, 1.5, .4709, 3, 4},
		{30, 40, 3, .1797, 3, 5},
	} {
		a := Analysis{Clay: c.clay, Organic: c.organic, Structure: c.structure, Permeability: c.permeability}
		assert.InDelta(t, c.want, a.plain(c.fine), 6e-5)
	}
	more, most := Analysis{Organic: 4, Structure: 2, Permeability: 3}, Analysis{Organic: 9, Structure: 2, Permeability: 3}
	assert.Equal(t, more.plain(50), most.plain(50), "no more than 4 %% of organic matter counts")
}
