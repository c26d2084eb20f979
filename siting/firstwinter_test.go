package siting_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/caution"
	"crossfall/siting/firstwinter"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The months of testdata/hillside/rain.csv: September to February bring 627 of 1026
// mm, more than October to March with 624.
func TestOrderOfWorkOfTheHillside(t *testing.T) {
	a := assess(t, read(t, "hillside"))
	p := a.OrderOfWork
	assert.Equal(t, time.September, p.Season.First)
	require.NotNil(t, p.Season.Share)
	assert.InDelta(t, 100*627.0/1026, *p.Season.Share, 1e-9)
	assert.Len(t, p.Covers, len(a.Beds))
	edges := slices.IndexFunc(p.Steps, func(s firstwinter.Step) bool { return strings.HasPrefix(s.What, "let the edges in") })
	require.GreaterOrEqual(t, edges, 0)
	for _, b := range a.Beds {
		sunken := b.SunkenDepth != nil && b.SunkenDepth.Value > 0
		of := p.Steps[edges].Beds // none named: all
		assert.Equal(t, sunken, len(of) == 0 || slices.Contains(of, b.Name), b.Name)
	}
	for _, id := range []string{"work.wet-season-share", "buying.compost-order", "buying.loads", "buying.boards-1", "buying.cost"} {
		assert.True(t, slices.ContainsFunc(a.Working, func(w siting.Basis) bool { return w.ID == id }), id)
	}
}

// Weeds ask for more cardboard and cover, which are bought; those that must be left
// alone are a warning.
func TestWeedsAreCoveredAndBought(t *testing.T) {
	plain := assess(t, read(t, "hillside"))
	p := read(t, "hillside")
	p.Site.Ground.Weeds = []string{"Twitch", "Convolvulus arvensis", "knotweed"}
	a := assess(t, p)
	require.Len(t, a.OrderOfWork.Weeds, 3)
	assert.Greater(t, a.Quantities.Cardboard, plain.Quantities.Cardboard+plain.Quantities.Cardboard/2)
	area := 0.0
	for _, b := range a.Beds {
		area += 4 * (b.Length + 0.6) * (b.Width + 0.6)
	}
	assert.InDelta(t, area, a.Quantities.CoverArea, 1e-9, "bindweed asks for four layers")
	i := slices.IndexFunc(a.Cautions, func(c caution.Caution) bool { return c.ID == "weed.japanese-knotweed" })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, caution.Warning, a.Cautions[i].Severity)
	assert.Equal(t, plain.StandingStops(), a.StandingStops())
}

func TestUnknownWeedsAreFaults(t *testing.T) {
	p := read(t, "hillside")
	p.Site.Ground.Weeds = []string{"cooch grass", "lettuces", "dock", "docks"}
	_, err := siting.Assess(context.Background(), p, siting.Options{})
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 3)
	assert.Contains(t, faults[0].Want, `"couch grass"`)
	assert.Equal(t, "lettuces", faults[1].Read)
	assert.Equal(t, "weed-twice", faults[2].Code)
}

// Beds longer than the boards on sale are joined over their pegs, not refused.
func TestLongBedsAreJoined(t *testing.T) {
	p := plane(0.08, 0.005)
	p.Fixtures = []geodata.Fixture{rectangleBed("long", 2, 5, 9.2, 6.2)}
	p.Site.Boards.Lengths = []float64{3.6}
	a := assess(t, p)
	require.NotNil(t, a.Beds[0].Build)
	require.Positive(t, a.Beds[0].Build.BoardDownhill, "boarded")
	parts := 0
	for _, l := range a.Quantities.Boards {
		for _, c := range l.Cuts {
			for _, piece := range c.Pieces {
				assert.LessOrEqual(t, piece.Length, 3600.0)
				if strings.Contains(piece.For, "uphill side") {
					parts++
				}
			}
		}
	}
	assert.GreaterOrEqual(t, parts, 2)
	bought := 0
	for _, l := range a.Quantities.Pegs {
		bought += l.Count
	}
	assert.Greater(t, bought, a.Beds[0].Pegs.Count, "a second peg at each joint")
	assert.Contains(t, strings.Join(a.Quantities.Notes, "\n"), "joined at the peg")

	p.Site.Boards.Lengths = []float64{0.9}
	_, err := siting.Assess(context.Background(), p, siting.Options{})
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	assert.Contains(t, faults[0].Message, "would do")
}
