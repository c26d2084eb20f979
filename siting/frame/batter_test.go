package frame_test

import (
	"math"
	"testing"

	"crossfall/siting/frame"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Runs of an edge 150 mm deep, worked by hand: 0.15 / (tan 35 - g) and
// 0.15 / (tan 35 + g), and downhill at 30 degrees. The angles are defaults of ours.
func TestBatter(t *testing.T) {
	const deg = math.Pi / 180
	for _, c := range []struct{ g, down, up, wet float64 }{
		{0, .214, .214, .260}, {.05, .231, .200, .284}, {.10, .250, .187, .314},
		{.15, .273, .176, .351}, {.20, .300, .167, .398}, {.25, .333, .158, .458},
	} {
		down, up := frame.Batter(.15, 35*deg, c.g)
		wet, _ := frame.Batter(.15, 30*deg, c.g)
		assert.InDelta(t, c.down, down, .0006)
		assert.InDelta(t, c.up, up, .0006)
		assert.InDelta(t, c.wet, wet, .0006)
	}
	down, _ := frame.Batter(.15, 30*deg, .6)
	assert.True(t, math.IsInf(down, 1), "ground steeper than the edge")
}

// The runs of the same edge at 5 %: .231 m at 35 degrees, .284 m at 30.
func TestOpenBedsHaveEdgesThatRunOut(t *testing.T) {
	d := frame.Decide(usual(.05, 0))
	require.NotNil(t, d.Edges)
	assert.InDelta(t, .231, d.Edges.Downhill.Value, .0006)
	assert.InDelta(t, .284, d.Edges.Downhill.High, .0006)
	assert.Nil(t, frame.Decide(usual(.08, 0)).Edges)
}
