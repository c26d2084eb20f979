package walk_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/terrain/walk"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func rectangle(w, d float64) *geodata.Plot {
	return &geodata.Plot{Boundary: orb.Polygon{{{0, 0}, {w, 0}, {w, d}, {0, d}, {0, 0}}}}
}

// The first four readings of a rectangle go to its four corners, by symmetry;
// the fifth about its middle, which is then farthest from all of them.
func TestFarthestTakesTheCornersFirst(t *testing.T) {
	p := rectangle(12, 8)
	near := func(q orb.Point) (corner orb.Point) {
		for i := range q {
			if q[i] > []float64{6, 4}[i] {
				corner[i] = 1
			}
		}
		return corner
	}
	corners := map[orb.Point]bool{}
	for range 4 {
		at, _, ok := walk.Farthest(p)
		require.True(t, ok)
		corners[near(at)] = true
		p.Spots = append(p.Spots, geodata.SpotHeight{At: at})
	}
	assert.Len(t, corners, 4)
	at, _, _ := walk.Farthest(p)
	assert.InDelta(t, 6, at[0], 1.5)
	assert.InDelta(t, 4, at[1], 1)
}

func TestFarthestNeedsABoundary(t *testing.T) {
	_, _, ok := walk.Farthest(&geodata.Plot{})
	assert.False(t, ok)
}
