package siting_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/frame"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// one is a bed of 3.6 by 1.2 m along the contour of a plane.
func one(slope float64) *geodata.Plot {
	p := plane(slope, 0.004)
	p.Fixtures = []geodata.Fixture{{
		Kind: geodata.BedKind, Name: "bed", Pinned: true,
		Shape: orb.Polygon{{{4, 5}, {7.6, 5}, {7.6, 6.2}, {4, 6.2}, {4, 5}}},
	}}
	return p
}

func option(t *testing.T, b siting.Bed, edge frame.Class) siting.EdgeOption {
	for _, o := range b.Options {
		if o.Edge == edge {
			return o
		}
	}
	require.Fail(t, "no such option", string(edge))
	return siting.EdgeOption{}
}

// The options are those of the decision, and cost what their boards and pegs
// cost: by hand from the length bought and the pegs counted.
func TestOptionsBesideTheDecision(t *testing.T) {
	price, each := 4.0, 1.5
	p := one(0.12)
	p.Site.Boards.PricePerM, p.Site.Pegs.Price, p.Site.Compost.Currency = &price, &each, "EUR"
	a := assess(t, p)
	b := a.Beds[0]
	require.Equal(t, frame.SunkenEdges, b.Edge)
	require.Len(t, b.Options, 4)
	chosen := option(t, b, b.Edge)
	assert.True(t, chosen.Chosen)
	assert.Empty(t, chosen.Against)
	assert.Equal(t, b.Pegs.Count, chosen.Pegs)
	assert.Equal(t, b.Pegs.Embedment.Value, chosen.PegDepth)
	assert.InDelta(t, 4*chosen.BoardLength+1.5*float64(chosen.Pegs), *chosen.Cost, 1e-9)
	metres, boards := 0.0, 0
	for _, l := range a.Quantities.Boards {
		metres += l.Length / 1000 * float64(l.Count)
		boards += l.Count
	}
	assert.InDelta(t, metres, chosen.BoardLength, 1e-9, "the bed stands alone on the plot")
	assert.Equal(t, boards, chosen.Boards)
	assert.InDelta(t, b.Build.Digging, chosen.Digging, 1e-9)
	assert.InDelta(t, 9.6*b.SunkenDepth.Value*(b.Build.BoardThickness+30)/1000, chosen.Digging, 1e-6, "9.6 m of slot")
	assert.InEpsilon(t, b.Build.Compost.Value, chosen.Compost.Value, 1e-9)

	open := option(t, b, frame.OpenEdged)
	assert.True(t, open.Stands)
	assert.Zero(t, open.Boards)
	assert.Nil(t, open.Life)
	assert.Contains(t, open.Against, "the ground falls 12 % (over 10 %)")
	assert.Contains(t, b.Worth, "yes: the ground falls 12 %")
	assert.Contains(t, b.Worth, "EUR a year")
}

func TestOpenEdgeIsNotWorthBoarding(t *testing.T) {
	b := assess(t, one(0.03)).Beds[0]
	require.Equal(t, frame.OpenEdged, b.Edge)
	assert.Contains(t, b.Worth, "no: open edges will do here; boards would take")
	assert.NotContains(t, b.Worth, "year a", "no prices, no cost")
	assert.Nil(t, option(t, b, frame.Boarded).Cost)
}

// Where the band of the fall reaches another edge, open edges are not called
// enough.
func TestOpenEdgeThatIsNotFirmIsNotCalledEnough(t *testing.T) {
	p := one(0.047)
	for i := range p.Spots {
		p.Spots[i].Sigma = .03
	}
	b := assess(t, p).Beds[0]
	require.Equal(t, frame.OpenEdged, b.Edge)
	require.Greater(t, b.FallPercent.High, 5.0)
	assert.NotContains(t, b.Worth, "will do")
	assert.Contains(t, b.Worth, "not at the fall as measured; over its band the edge may be boarded: let another height settle it")
}

func TestNothingToBuildHasNoOptions(t *testing.T) {
	b := assess(t, one(0.40)).Beds[0]
	require.Equal(t, frame.DoNotBuild, b.Edge)
	assert.Empty(t, b.Options)
	assert.Empty(t, b.Worth)
}

// A bed close to a limit of depth is not firm, and says what makes it so.
func TestBorderlineBedIsNotFirm(t *testing.T) {
	b := assess(t, one(0.09)).Beds[0]
	require.NotNil(t, b.Sensitivity)
	assert.Equal(t, b.EdgeRange[0], b.EdgeRange[1], "firm as far as the fall goes")
	assert.False(t, b.Sensitivity.Firm)
	assert.False(t, b.EdgeFirm)
	assert.NotEqual(t, b.Sensitivity.Mildest, b.Sensitivity.Gravest)
	require.Len(t, b.Sensitivity.Effects, 5)
	for _, e := range b.Sensitivity.Effects {
		assert.NotEmpty(t, e.Range)
	}
}
