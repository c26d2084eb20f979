package siting_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/siting"
)

// walled is ground falling south at 5 % with a drop of 0.6 m at a wall across
// it at y = 6.
func walled() *geodata.Plot {
	rng := rand.New(rand.NewPCG(4, 4))
	p := plane(0.05, 0.005)
	for i := range p.Spots {
		p.Spots[i].At[0] += rng.Float64() - 0.5
		p.Spots[i].At[1] += 0.4*rng.Float64() + 0.1
		p.Spots[i].Height = 20 + 0.05*p.Spots[i].At[1]
		if p.Spots[i].At[1] > 6 {
			p.Spots[i].Height += 0.6
		}
	}
	p.Boundary = orb.Polygon{{{-1, -1}, {13, -1}, {13, 11}, {-1, 11}, {-1, -1}}}
	p.Fixtures = append(p.Fixtures, geodata.Fixture{Kind: geodata.BreakLineKind, Name: "wall", Shape: orb.LineString{{-1, 6}, {13, 6}}})
	return p
}

// Both sides of a wall keep their fall, and no contour straddles it.
func TestNothingIsSmoothedAcrossAWall(t *testing.T) {
	a := assess(t, walled())
	assert.Equal(t, "pieces", a.Ground.Surface)
	assert.InDelta(t, 5, a.Ground.FallPercent.Value, 0.3)
	require.NotEmpty(t, a.Ground.Contours)
	for _, c := range a.Ground.Contours {
		above, below := false, false
		for _, q := range c.Points {
			above, below = above || q[1] > 6.001, below || q[1] < 5.999
		}
		assert.False(t, above && below, "the contour at %.2f m", c.Level)
	}
}

// Contours stand at heights that are round in the units of those who read them, and
// nothing else hangs on those units.
func TestContoursAreRoundInTheUnitsShown(t *testing.T) {
	const ft = 0.3048
	in := func(units, own geodata.Units, memory *siting.Memory) *siting.Assessment {
		p := wavyPlot()
		p.Site.Units = string(own)
		a, err := siting.Assess(t.Context(), p, siting.Options{Units: units, Memory: memory})
		require.NoError(t, err)
		return a
	}
	round := func(a *siting.Assessment, unit float64) {
		t.Helper()
		require.NotEmpty(t, a.Ground.Contours)
		for _, c := range a.Ground.Contours {
			over := math.Mod(c.Level/unit+1e-6, a.Ground.ContourInterval/unit)
			assert.InDelta(t, 0, over, 2e-5, "%.6f m", c.Level)
		}
	}
	var memory siting.Memory
	m, f := in("", "", &memory), in("ft", "", &memory)
	assert.Equal(t, geodata.Metric, m.Ground.ContourUnits)
	assert.Equal(t, geodata.FeetAndInch, f.Ground.ContourUnits)
	round(m, .05)
	round(f, .25*ft)
	quarters := f.Ground.ContourInterval / (.25 * ft)
	assert.InDelta(t, math.Round(quarters), quarters, 1e-9, "whole times 3 inches")
	assert.Equal(t, f.Ground.Contours, in("", "ft", nil).Ground.Contours, "the plot's own units")
	assert.Equal(t, m.Ground.Contours, in("m", "ft", nil).Ground.Contours, "those asked for go before")

	f.Ground.Contours, f.Ground.ContourInterval, f.Ground.ContourUnits = m.Ground.Contours, m.Ground.ContourInterval, m.Ground.ContourUnits
	assert.Equal(t, m, f)
}

// A surface asked for that the heights cannot make is a fault that says so.
func TestSurfaceAskedFor(t *testing.T) {
	p := wavyPlot()
	p.Site.Ground.Surface = "plane"
	assert.Equal(t, "plane", assess(t, p).Ground.Surface)
	p.Site.Ground.Surface = "curved"
	p.Spots = p.Spots[:5]
	_, err := siting.Assess(context.Background(), p, siting.Options{})
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	assert.Contains(t, faults[0].Want, "ground.surface")
}
