package siting_test

import (
	"context"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFillIsThatOfTheWord(t *testing.T) {
	p := one(0.12)
	compost := assess(t, p)
	p.Site.Compost.Fill = "loose topsoil"
	soil := assess(t, p)
	assert.Greater(t, soil.Quantities.Mass.Value/soil.Quantities.Compost.Value, 1200.0)
	heavy, light := soil.Beds[0].Pegs, compost.Beds[0].Pegs
	assert.True(t, heavy.Count > light.Count || heavy.FactorWinter < light.FactorWinter, "heavier, so more pegs or less to spare")

	p.Site.Compost.Fill = "peat"
	_, err := siting.Assess(context.Background(), p, siting.Options{})
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	assert.Equal(t, "fill-word-unknown", faults[0].Code)
	assert.Contains(t, faults[0].Want, `"screened compost"`)
}

// 300 kg/m3 dry at 65 % of moisture are 857 kg/m3: 300 / (1 - 0.65).
func TestFillAsMeasured(t *testing.T) {
	p := one(0.05)
	dry, moisture := 300.0, 65.0
	p.Site.Compost.DryDensity = &dry
	_, err := siting.Assess(context.Background(), p, siting.Options{})
	require.Error(t, err, "one without the other")
	p.Site.Compost.Moisture = &moisture
	q := assess(t, p).Quantities
	assert.InDelta(t, 857, q.Mass.Value/q.Compost.Value, 1)
	assert.InDelta(t, 0.9*857, q.Mass.Low/q.Compost.Low, 1)
}

// A measured strength takes the place of the word's: at 40 kPa the ground holds
// pegs that soft turf does not, and closer pegs are set where they are wished.
func TestStrengthAndSpacingAsGiven(t *testing.T) {
	p := one(0.09)
	soft := assess(t, p).Beds[0]
	strength, spacing := 40.0, 0.9
	p.Site.Ground.Strength = &strength
	firm := assess(t, p).Beds[0]
	assert.Less(t, firm.Pegs.Embedment.Value, soft.Pegs.Embedment.Value+1)
	p.Site.Pegs.Spacing = &spacing
	assert.LessOrEqual(t, assess(t, p).Beds[0].Pegs.Spacing, 900.0)

	p.Site.Ground.Thumb = "loose sandy soil"
	_, err := siting.Assess(context.Background(), p, siting.Options{})
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	assert.Equal(t, "strength-of-sand", faults[0].Code)
}

// Boards that are to last longer are taken thicker, of what is on sale: class 4 let
// into the ground loses 1.5 x 25 / 7.5 = 5 mm a year (a default of ours), so that two
// fifths of 75 mm are left after 9 years.
func TestBoardsLastAsWished(t *testing.T) {
	p := one(0.09)
	p.Site.Boards.Thicknesses = []float64{25, 38, 47, 75}
	short, long := 1.0, 8.0
	p.Site.Boards.Life = &short
	thin := assess(t, p).Beds[0].Build
	p.Site.Boards.Life = &long
	thick := assess(t, p).Beds[0].Build
	assert.Less(t, thin.BoardThickness, thick.BoardThickness)
	assert.GreaterOrEqual(t, thick.BoardLife.Value, 8.0)
}
