package plan

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
)

// Ways that begin as one are drawn once, and on from where they part.
func TestWaysAreDrawnOnce(t *testing.T) {
	first := orb.LineString{{0, 0}, {0, 10}}
	assert.Equal(t, first, apart(first, nil))
	parts := apart(orb.LineString{{0, 0}, {0, 4}, {5, 9}}, []orb.LineString{first})
	assert.InDelta(t, 0.2, parts[0][0], 0.3, "where it leaves")
	assert.InDelta(t, 4.2, parts[0][1], 0.3)
	assert.Equal(t, orb.Point{5, 9}, parts[len(parts)-1])
	assert.Less(t, len(apart(orb.LineString{{0, 0}, {0, 7}}, []orb.LineString{first})), 2, "nothing is left of it")
	assert.Nil(t, apart(nil, []orb.LineString{first}))
}
