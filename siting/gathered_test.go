package siting_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/siting/caution"
	"crossfall/siting/frame"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// valley falls 8 % to the south with a floor along x = 10: 0.02 (x - 10)² lifts
// its sides, so that water on the floor grows as exp(2 · 0.02 s / 0.08), e for every
// 2 m of run.
func valley() *geodata.Plot {
	p := &geodata.Plot{Boundary: orb.Polygon{{{0, 0}, {20, 0}, {20, 20}, {0, 20}, {0, 0}}}, BoundaryDrawn: true}
	for x := 0.0; x <= 20; x += 4 {
		for y := 0.0; y <= 20; y += 4 {
			p.Spots = append(p.Spots, geodata.SpotHeight{
				At: orb.Point{x, y}, Height: 20 + .08*y + .02*(x-10)*(x-10), Sigma: .005,
			})
		}
	}
	return p
}

func pinned(name string, x, y float64) geodata.Fixture {
	return geodata.Fixture{Kind: geodata.BedKind, Name: name, Pinned: true,
		Shape: orb.Polygon{{{x - 1.8, y - .6}, {x + 1.8, y - .6}, {x + 1.8, y + .6}, {x - 1.8, y + .6}, {x - 1.8, y - .6}}}}
}

// On the floor of a valley water grows e times every 2 m (Gallant & Hutchinson 2011):
// no bed stands there, nor is one on its side or on an even slope stopped.
func TestGatheredRunoffStopsABed(t *testing.T) {
	p := valley()
	p.Fixtures = []geodata.Fixture{pinned("floor", 10, 6), pinned("side", 3, 17)}
	a := assess(t, p)
	floor := a.Beds[0]
	assert.Equal(t, frame.DoNotBuild, floor.Edge)
	assert.Nil(t, floor.Build)
	found := false
	for _, c := range a.Cautions {
		found = found || c.Kind == "runoff" && c.Bed == "floor" && c.Severity == caution.Stop
		assert.False(t, c.Kind == "runoff" && c.Bed == "side")
	}
	assert.True(t, found)

	even := plane(0.08, 0.005)
	even.Fixtures = []geodata.Fixture{pinned("even", 5, 5)}
	for _, c := range assess(t, even).Cautions {
		require.NotEqual(t, "runoff", c.Kind, "an even slope gathers nothing")
	}
}
