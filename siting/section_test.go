package siting_test

import (
	"math"
	"testing"

	"crossfall/siting/frame"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// area is that of an outline, m2.
func area(ring []orb.Point) float64 {
	sum := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sum += p[0]*q[1] - q[0]*p[1]
	}
	return math.Abs(sum) / 2
}

// On a plane the compost cut through is the wedge: W (d + W (g - t) / 2) with
// the top left at 5 %, and what stands in it measures what is printed.
func TestSectionIsToMeasure(t *testing.T) {
	b := assess(t, one(0.12)).Beds[0]
	require.Equal(t, frame.SunkenEdges, b.Edge)
	s := b.Section
	require.NotNil(t, s)
	assert.False(t, s.Along)
	assert.InDelta(t, 1.2, s.Length, 1e-9)
	require.Len(t, s.Fill, 1)
	fill, fall := b.Build.Fill/1000, b.FallAcross.Value/1000/1.2
	assert.InDelta(t, 1.2*(fill+1.2*(fall-.05)/2), area(s.Fill[0]), .003)
	assert.InDelta(t, b.Build.Compost.Value, 3.6*area(s.Fill[0]), .01)

	first, last := s.Ground[0], s.Ground[len(s.Ground)-1]
	assert.InDelta(t, -.4, first[0], 1e-9)
	assert.InDelta(t, 1.6, last[0], 1e-9)
	assert.InDelta(t, fall, (first[1]-last[1])/2.0, 1e-3)

	require.Len(t, s.Boards, 2)
	require.Len(t, s.Pegs, 2)
	down := s.Boards[1]
	assert.InDelta(t, b.Build.BoardDownhill, 1000*(down.Top-down.Bottom), 1e-6)
	assert.InDelta(t, b.Build.BoardThickness, 1000*(down.To-down.From), 1e-6)
	assert.Len(t, down.Joints, len(b.Build.StackDownhill)-1)
	assert.InDelta(t, b.Build.Retained.Value, down.Retained, 10)
	peg := s.Pegs[1]
	assert.InDelta(t, down.To, peg.From, 1e-9, "pegs stand outside, below the board")
	assert.InDelta(t, b.Pegs.Embedment.Value, 1000*(peg.Bottom-peg.Tip)+b.Pegs.Embedment.Value-b.Pegs.Point, 1e-6)
	assert.InDelta(t, b.Pegs.Length, 1000*(peg.Top-peg.Tip), 5, "but for the slope over its own width")
	ground := down.Bottom + b.SunkenDepth.Value/1000
	assert.InDelta(t, b.Pegs.Embedment.Value, 1000*(ground-peg.Bottom), 5)
	assert.Less(t, s.Boards[0].From, s.Boards[0].To)
	assert.Less(t, s.Pegs[0].To, 1e-9, "the uphill peg stands uphill of its board")
}

func TestSectionOfOtherClasses(t *testing.T) {
	open := assess(t, one(0.03)).Beds[0].Section
	require.NotNil(t, open)
	assert.Empty(t, open.Boards)
	assert.Empty(t, open.Pegs)
	assert.Nil(t, assess(t, one(0.40)).Beds[0].Section)

	for _, b := range assess(t, read(t, "hillside-pinned")).Beds {
		if b.Edge != frame.Stepped {
			continue
		}
		s := b.Section
		require.True(t, s.Along)
		assert.Equal(t, b.Length, s.Length)
		assert.Len(t, s.Fill, b.Build.BaysAlong)
		assert.Len(t, s.Boards, b.Build.CrossBoards+2)
		for i := 1; i < len(s.Fill); i++ {
			assert.Less(t, s.Fill[i][0][1], s.Fill[i-1][1][1], "each bay lies below the one before")
			assert.InDelta(t, s.Fill[i-1][1][0], s.Fill[i][0][0], 1e-9, "and starts where it ends")
		}
		for _, bay := range s.Fill {
			assert.Less(t, bay[0][0], bay[1][0], "from the high side down")
		}
	}
}
