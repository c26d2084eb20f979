package siting_test

import (
	"context"
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
