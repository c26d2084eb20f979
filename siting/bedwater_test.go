package siting_test

import (
	"testing"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rectangleBed is a drawn bed square to the axes.
func rectangleBed(name string, west, south, east, north float64) geodata.Fixture {
	return geodata.Fixture{
		Kind: geodata.BedKind, Name: name, Pinned: true,
		Shape: orb.Polygon{{{west, south}, {east, south}, {east, north}, {west, north}, {west, south}}},
	}
}

// On a plane that falls to the south all that lies straight above a bed drains
// on to it: 3.6 m wide from its upper side at y = 6.2 to the plot's edge at 9,
// which is 10.08 m2.
func TestGroundThatDrainsOnToABedOfAPlane(t *testing.T) {
	p := plane(0.08, 0.005)
	p.Fixtures = []geodata.Fixture{rectangleBed("bed", 4, 5, 7.6, 6.2)}
	uphill := 10.0
	p.Site.Ground.UphillLength = &uphill
	a := assess(t, p)
	w := a.Beds[0].Water
	require.NotNil(t, w)
	assert.InDelta(t, 3.6*2.8, w.Area.InPlot.Value, .05)
	assert.True(t, w.Area.RisesOver)
	assert.InDelta(t, 3.6*10, w.Area.Outside.Value, .05, "ten metres of slope beyond are assumed over the bed's length")
	require.Len(t, w.Edge, 3)
	assert.Equal(t, []float64{2, 10, 30}, []float64{w.Edge[0].ReturnYears, w.Edge[1].ReturnYears, w.Edge[2].ReturnYears})
	assert.InDelta(t, a.Beds[0].SheetDepth.Value, w.Edge[1].Depth.Value, 1e-9, "the edge is judged by the storm met once in ten years")
	assert.InDelta(t, a.Beds[0].RunOnRate.Value, w.Edge[1].Flow.Value, 1e-9)
	for i := 1; i < 3; i++ {
		assert.Greater(t, w.Edge[i].Depth.Value, w.Edge[i-1].Depth.Value)
		assert.Greater(t, w.Edge[i].Shear.Value, w.Edge[i-1].Shear.Value)
	}
}

// A bed that stands whole in the lee of another, 1 m below it, gets the metre
// between them and no more once the upper one has boards.
func TestAnUpperFrameSheltersALowerOne(t *testing.T) {
	p := plane(0.08, 0.005)
	p.Fixtures = []geodata.Fixture{rectangleBed("upper", 3.5, 5, 8.1, 6.2), rectangleBed("lower", 4, 2.8, 7.6, 4)}
	a := assess(t, p)
	lower := bedOf(t, a, "lower")
	require.NotNil(t, lower.Water)
	assert.InDelta(t, 9-4, lower.RunOnLength.Value, .05)
	assert.InDelta(t, 1, lower.Water.RunOnWithBeds.Value, .05)
	upper := bedOf(t, a, "upper")
	assert.InDelta(t, upper.RunOnLength.Value, upper.Water.RunOnWithBeds.Value, 1e-9)
}
