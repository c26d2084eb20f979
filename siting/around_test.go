package siting_test

import (
	"math"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The plot is 12 x 9 m on ground falling 8 % to the south; the hillside carries
// the same slope on for 150 m, so a bed drains what lies between it and the
// hillside's edge: the bed's uphill side at y = 6.2, the edge at y = 159.
func TestHillsideLengthensTheRunOn(t *testing.T) {
	bed := geodata.Fixture{
		Kind: geodata.BedKind, Name: "bed", Pinned: true,
		Shape: orb.Polygon{{{4, 5}, {7.6, 5}, {7.6, 6.2}, {4, 6.2}, {4, 5}}},
	}
	alone := plane(0.08, 0.005)
	alone.Fixtures = []geodata.Fixture{bed}
	joined := plane(0.08, 0.005)
	joined.Fixtures = []geodata.Fixture{bed}
	h := &geodata.Hillside{Origin: orb.Point{-150, -150}, Cell: 3, Cols: 105, Rows: 104, Overlap: 16}
	for i := range h.Cols * h.Rows {
		h.Z = append(h.Z, 20+0.08*(h.Origin[1]+float64(i/h.Cols)*h.Cell))
	}
	joined.Hillside = h

	a, b := assess(t, alone), assess(t, joined)
	assert.InDelta(t, 9-6.2, a.Beds[0].RunOnLength.Value, 0.05)
	assert.InDelta(t, 159-6.2, b.Beds[0].RunOnLength.Value, 0.5)
	assert.Greater(t, b.Beds[0].SheetDepth.Value, a.Beds[0].SheetDepth.Value)
	require.True(t, has(a, "length of slope above"))
	assert.False(t, has(b, "length of slope above"), "nothing is assumed where the hillside tells it")
	assert.InDelta(t, a.Ground.FallPercent.Value, b.Ground.FallPercent.Value, 1e-12, "the plot's own fit is left alone")
	assert.False(t, math.IsNaN(b.Beds[0].SheetDepth.High))
}

func has(a *siting.Assessment, what string) bool {
	for _, s := range a.Assumptions {
		if strings.HasPrefix(s.What, what) {
			return true
		}
	}
	return false
}
