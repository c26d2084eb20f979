package siting_test

import (
	"context"
	"testing"

	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The example's hollow has a sill of about 50 mm: the trench starts in it and is
// about as deep, within what a spade will do.
func TestAHollowCouldBeDrained(t *testing.T) {
	a := assess(t, read(t, "hillside"))
	require.NotEmpty(t, a.Ground.Hollows)
	var trench *siting.Drain
	for i, d := range a.Water.Drains {
		if d.Kind == siting.DrainTrench {
			trench = &a.Water.Drains[i]
		}
	}
	require.NotNil(t, trench)
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
