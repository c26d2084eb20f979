package siting_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A bed across a ridge of z = 0.08 y - 0.02 (x - 10)²: its ends lie 0.02 x 1.8² =
// 65 mm under its middle, so that at its low corners compost stands 150 + 1200 x
// (0.08 - 0.05) + 65 = 251 mm deep, and boards and pegs are made for that.
func TestCurvedGroundCountsAtTheWorstCorner(t *testing.T) {
	p := valley()
	for i, s := range p.Spots {
		side := s.At[0] - 10
		p.Spots[i].Height = 20 + .08*s.At[1] - .02*side*side
	}
	p.Fixtures = append(p.Fixtures, pinned("ridge", 10, 10))
	b := assess(t, p).Beds[0]
	require.NotNil(t, b.Build)
	assert.InDelta(t, 251, b.Build.Retained.Value, 3)
	assert.GreaterOrEqual(t, b.Build.BoardDownhill-b.SunkenDepth.Value, b.Build.Retained.Value)
	assert.GreaterOrEqual(t, b.Pegs.FactorWinter, 2.0)
}
