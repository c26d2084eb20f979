package siting_test

import (
	"context"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The example's hollow has a sill of about 50 mm: the trench starts in it and is
// about as deep, within what a spade will do.
func TestAHollowCouldBeDrained(t *testing.T) {
	p := read(t, "hillside")
	none := 0
	p.Site.Beds.Count = &none
	a := assess(t, p)
	require.NotEmpty(t, a.Ground.Hollows)
	var trench *siting.Drain
	for i, d := range a.Water.Drains {
		if d.Kind == siting.DrainTrench {
			trench = &a.Water.Drains[i]
		}
	}
	require.NotNil(t, trench)
	require.NotEmpty(t, trench.Points, trench.Why)
	h := a.Ground.Hollows[0]
	assert.InDelta(t, h.Depth, trench.Depth, 15, "the sill, to the steps of the lattice")
	assert.True(t, planar.RingContains(append(orb.Ring(h.Outline), h.Outline[0]), trench.Points[0]))
	assert.Less(t, planar.Distance(trench.Points[0], h.At), 1.0)
	assert.Contains(t, trench.Said, "never on to a neighbour")
}

// Whatever becomes of the hollow, all that falls on the plot leaves it.
func TestHollowsFilledOrLetOut(t *testing.T) {
	p := read(t, "hillside")
	filled := assess(t, p)
	cut, err := siting.Assess(context.Background(), p, siting.Options{Breach: true})
	require.NoError(t, err)
	sum := func(all []siting.Crossing) (m2 float64) {
		for _, c := range all {
			m2 += c.Area.Value
		}
		return m2
	}
	assert.InEpsilon(t, sum(filled.Water.Outflow), sum(cut.Water.Outflow), .06)
}

// With its beds, the only way for that trench runs through one of them.
func TestNoTrenchThroughABed(t *testing.T) {
	a := assess(t, read(t, "hillside"))
	for _, d := range a.Water.Drains {
		for i := 1; i < len(d.Points); i++ {
			middle := orb.Point{(d.Points[i-1][0] + d.Points[i][0]) / 2, (d.Points[i-1][1] + d.Points[i][1]) / 2}
			for _, b := range a.Beds {
				assert.False(t, planar.RingContains(shrunk(b, 0), middle), "%s in %s", d.Kind, b.Name)
			}
		}
		if d.Kind == siting.DrainTrench && len(d.Points) == 0 {
			assert.Contains(t, d.Why, "through the place of")
		}
	}
}

// A cable across the slope just above the bed keeps a channel away.
func TestNothingIsDugOnACable(t *testing.T) {
	p := wetSlope()
	p.Site.Ground.TestPit = quickPit()
	p.Fixtures = append(p.Fixtures, geodata.Fixture{
		Kind: geodata.ServiceKind, Name: "cable", Carries: geodata.Electricity, Shape: orb.LineString{{0, 14.2}, {30, 14.2}},
	})
	a := assess(t, p)
	require.NotEmpty(t, a.Water.Drains)
	d := a.Water.Drains[0]
	assert.Equal(t, siting.CutOffChannel, d.Kind)
	assert.Empty(t, d.Points)
	assert.Contains(t, d.Why, "cable")
	for _, d := range a.Water.Drains {
		for _, q := range d.Points {
			assert.Greater(t, planar.DistanceFrom(p.Fixtures[1].Shape, q), .6)
		}
	}
}
