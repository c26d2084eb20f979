package siting_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestGroundThatFallsEvenlyHasNoDampOrColdPlace(t *testing.T) {
	assert.Empty(t, assess(t, plane(0.08, 0.005)).Water.Places)
}

// A hedge round three sides, open uphill, dams the air above it as a wall dams
// water: its arms end 6 m up a fall of 10 %, over which the air spills 0.6 m deep.
func TestAHedgeAcrossTheSlopeHoldsUpColdAir(t *testing.T) {
	p := plane(0.10, 0.005)
	p.Fixtures = []geodata.Fixture{
		{Kind: geodata.ObstacleKind, Name: "hedge", What: "hedge", TopHeight: 1.5, Shape: orb.LineString{{1, 8}, {1, 2}, {11, 2}, {11, 8}}},
		rectangleBed("bed", 4, 4, 7.6, 5.2),
	}
	a := assess(t, p)
	require.Len(t, a.Water.Places, 1)
	place := a.Water.Places[0]
	assert.Equal(t, siting.ColdPlace, place.What)
	assert.Contains(t, place.Said, "barrier")
	assert.Equal(t, []string{"bed"}, place.Beds)
	require.Len(t, a.Beds[0].PlaceNotes, 1)
	assert.Contains(t, a.Beds[0].PlaceNotes[0], "cold air")
}

func TestABedInAGatheringPlaceIsTold(t *testing.T) {
	a := assess(t, read(t, "hillside-pinned"))
	kinds := map[string]int{}
	for _, p := range a.Water.Places {
		kinds[p.What]++
		assert.Positive(t, p.Area)
		assert.NotNil(t, p.Beds)
	}
	assert.Positive(t, kinds[siting.DampPlace], "the hollow of the example stays wet")
}
