package export

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
)

func square(x, y, side float64) []orb.Point {
	return []orb.Point{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}, {x, y}}
}

// Rings in rings by turns are ground, hole, island and hole; a ring that comes back
// to a corner of its own is two that touch there; areas worked by hand.
func TestEvenOdd(t *testing.T) {
	areas := func(rings ...[]orb.Point) (out []float64) {
		for _, polygon := range evenOdd(rings) {
			area := 0.0
			for i, r := range polygon {
				if i == 0 {
					area += math.Abs(planar.Area(orb.Ring(r)))
				} else {
					area -= math.Abs(planar.Area(orb.Ring(r)))
				}
			}
			out = append(out, area)
		}
		return out
	}
	assert.Equal(t, []float64{100 - 64, 36 - 4}, areas(square(0, 0, 10), square(1, 1, 8), square(2, 2, 6), square(3, 3, 2)))
	assert.Equal(t, []float64{36 - 4, 100 - 64}, areas(square(3, 3, 2), square(2, 2, 6), square(1, 1, 8), square(0, 0, 10)), "in any order")
	assert.Equal(t, []float64{100 - 4 - 1, 4}, areas(square(0, 0, 10), square(1, 1, 2), square(5, 5, 1), square(20, 0, 2)))
	bow := []orb.Point{{0, 0}, {1, 0}, {1, 1}, {2, 1}, {2, 2}, {1, 2}, {1, 1}, {0, 1}, {0, 0}}
	assert.Equal(t, []float64{1, 1}, areas(bow))
	pinched := []orb.Point{{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}, {1, 3}, {3, 3}, {3, 1}, {0, 0}} // its hole meets its corner
	assert.Equal(t, []float64{16 - 6}, areas(pinched))
	assert.Empty(t, areas(nil, []orb.Point{{0, 0}, {1, 1}}))
}
