package siting_test

import (
	"context"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/siting"
	"crossfall/terrain/surface"
)

// The shares of a bed's classes add up to all surfaces, and a class that holds
// over the whole 95 % band of the fall comes out nearly always.
func TestEdgeChances(t *testing.T) {
	a := assess(t, read(t, "hillside-pinned"))
	require.NotNil(t, a.Ground.Simulation)
	assert.Equal(t, surface.DefaultDraws, a.Ground.Simulation.Surfaces)
	byName := map[string]siting.Bed{}
	for _, b := range a.Beds {
		byName[b.Name] = b
		sum, most := 0.0, siting.ClassChance{}
		for _, c := range b.EdgeChances {
			sum += c.Share
			if c.Share > most.Share {
				most = c
			}
		}
		if b.Edge == "do not build here" {
			assert.Empty(t, b.EdgeChances, "the place is refused, whatever the ground")
			continue
		}
		assert.InDelta(t, 1, sum, 1e-9, b.Name)
		if b.FallTold {
			assert.Equal(t, b.Edge, most.Class, b.Name)
		}
		if b.EdgeRange[0] == b.EdgeRange[1] {
			assert.GreaterOrEqual(t, most.Share, 0.9, b.Name)
		}
	}
}

// A plane falling south at 8 %, well known: every path runs straight down, so
// the bed under them is crossed in all surfaces and the paths end where drawn.
func TestPathChancesOnAPlane(t *testing.T) {
	a := assess(t, plane(0.08, 0))
	require.NotEmpty(t, a.Water.Paths)
	for _, p := range a.Water.Paths {
		require.NotNil(t, p.Share, p.Name)
		assert.Greater(t, *p.Share, 0.9, p.Name)
	}
	for _, b := range a.Beds {
		require.NotNil(t, b.PathChance)
		crossed := false
		for _, p := range a.Water.Paths {
			for _, name := range p.Crosses {
				crossed = crossed || name == b.Name
			}
		}
		if crossed {
			assert.Greater(t, *b.PathChance, 0.8, b.Name)
		}
	}
}

// The same shares whatever the number of processors.
func TestChancesDependOnTheSeedOnly(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	var first *siting.Assessment
	for _, workers := range []int{1, 2, 7} {
		runtime.GOMAXPROCS(workers)
		a := assess(t, read(t, "hillside"))
		if first == nil {
			first = a
			continue
		}
		assert.Equal(t, first, a, "%d processors", workers)
	}
}

// Work cancelled while surfaces are drawn ends as an error.
func TestChancesHonourCancelling(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	_, err := siting.Assess(ctx, read(t, "hillside"), siting.Options{Progress: func(string, int64, int64) { cancel() }})
	assert.ErrorIs(t, err, context.Canceled)
}
