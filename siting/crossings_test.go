package siting_test

import (
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Water of a plane 12 m wide comes in over its whole upper side and leaves over
// its whole lower one.
func TestWaterCrossesTheUpperAndLowerSidesOfAPlane(t *testing.T) {
	p := plane(0.08, 0.005)
	uphill := 20.0
	p.Site.Ground.UphillLength = &uphill
	a := assess(t, p)
	width, area := total(t, a.Water.Inflow, "north")
	assert.InDelta(t, 12, width, .3)
	assert.InDelta(t, 12*20, area, 6, "twenty metres of slope beyond are assumed")
	_, area = total(t, a.Water.Outflow, "south")
	assert.InDelta(t, 12*9, area, 12*9*.08, "all that falls on the plot leaves it")
}

// A hillside that carries the same slope on for 150 m sends the water of its
// strip above the plot, 12 m by 150 m, over the upper side.
func TestAHillsideSaysHowMuchComesIn(t *testing.T) {
	p := plane(0.08, 0.005)
	h := &geodata.Hillside{Origin: orb.Point{-150, -150}, Cell: 3, Cols: 105, Rows: 104, Overlap: 16}
	for i := range h.Cols * h.Rows {
		h.Z = append(h.Z, 20+0.08*(h.Origin[1]+float64(i/h.Cols)*h.Cell))
	}
	p.Hillside = h
	_, area := total(t, assess(t, p).Water.Inflow, "north")
	assert.InDelta(t, 12*150, area, 12*150*.02)
}

// total adds up the stretches, all of which lie on one side.
func total(t *testing.T, all []siting.Crossing, side string) (width, area float64) {
	t.Helper()
	require.NotEmpty(t, all)
	share := 0.0
	for _, c := range all {
		assert.True(t, strings.HasPrefix(c.Side, side), c.Side)
		assert.LessOrEqual(t, c.Area.Low, c.Area.Value)
		assert.LessOrEqual(t, c.Area.Value, c.Area.High)
		width, area, share = width+c.Width, area+c.Area.Value, share+c.Share
	}
	assert.InDelta(t, 1, share, .1)
	return width, area
}
