package surface_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/terrain/surface"
)

// Each slip of booking, made in a sound survey of a bowl, is named with the
// height that was read.
func TestSlipsAreNamed(t *testing.T) {
	const at = 13
	sound := func() []float64 {
		var z []float64
		for _, s := range bowlHill().survey(rand.New(rand.NewPCG(8, 8)), 30, 0.008) {
			z = append(z, s.Height)
		}
		return z
	}
	was := sound()[at]
	digits := func(z float64) float64 { return z + 0.9*(float64(int(10*z)%10)-float64(int(z)%10)) } // the metre and the decimetre
	cases := []struct {
		booked float64
		said   string
	}{
		{was + 0.1, "0.1 m misread"},
		{was - 0.5, "0.5 m misread"},
		{was + 1, "1 m misread"},
		{-was, "the sign"},
		{was / 0.3048, "feet booked as metres"},
		{digits(was), "two digits changed places"},
	}
	for _, c := range cases {
		spots := bowlHill().survey(rand.New(rand.NewPCG(8, 8)), 30, 0.008)
		spots[at].Height = c.booked
		suspects := fitOf(t, spots, surface.Options{}).Suspects
		require.Len(t, suspects, 1, c.said)
		assert.Equal(t, at, suspects[0].Index, c.said)
		assert.Contains(t, suspects[0].Reason, c.said)
		named := false
		for _, s := range suspects[0].Slips {
			named = named || s.Said == c.said && s.Height > was-0.0015 && s.Height < was+0.0015
		}
		assert.True(t, named, "%s: %v for %v", c.said, suspects[0].Slips, was)
	}
}

// Two rows changed over are found together, each with the other's height.
func TestSwappedRowsAreNamed(t *testing.T) {
	spots := bowlHill().survey(rand.New(rand.NewPCG(8, 8)), 30, 0.008)
	const a, b = 3, 26
	spots[a].Height, spots[b].Height = spots[b].Height, spots[a].Height
	suspects := fitOf(t, spots, surface.Options{}).Suspects
	require.Len(t, suspects, 2)
	for _, s := range suspects {
		assert.Contains(t, s.Reason, "the rows of it and height p")
		other := a + b - s.Index
		assert.InDelta(t, spots[other].Height, s.Slips[0].Height, 1e-9)
	}
}

// A bump of no slip's size is named without one.
func TestOffWithoutASlip(t *testing.T) {
	assert.Empty(t, surface.Slips(50.37, 50.00, 0.03))
}
