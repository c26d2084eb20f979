package takeoff_test

import (
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/takeoff"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Three layers over 3.6 by 1.2 m with 0.3 m on every side: 3 x 4.2 x 1.8 m2, pins
// each half metre along 4.2 m (9) and 1.8 m (4), both ways. Two sheets of cardboard
// are twice 12, and one in ten more.
func TestCoverAndCardboardInLayers(t *testing.T) {
	b := bed("Bed 1")
	b.Cardboard, b.Cover = 2, 3
	list, said, err := takeoff.Count([]takeoff.BedInput{b, bed("Bed 2")}, geodata.Site{})
	require.NoError(t, err)
	assert.InDelta(t, 3*4.2*1.8, list.CoverArea, 1e-9)
	assert.Equal(t, 26, list.CoverPins)
	assert.Equal(t, 40, list.Cardboard, "24 and 12, and 3.6 more rounded up")
	assert.Contains(t, strings.Join(said, "\n"), "woven cover")

	list, said, err = takeoff.Count([]takeoff.BedInput{bed("Bed 2")}, geodata.Site{})
	require.NoError(t, err)
	assert.Zero(t, list.CoverArea)
	assert.NotContains(t, strings.Join(said, "\n"), "woven cover")
}

// Everything with a price: nothing is missing, and the parts are the amounts times
// the prices.
func TestCostOfEverything(t *testing.T) {
	b := bed("Bed 1")
	b.Cover = 1
	site := geodata.Site{
		Boards: geodata.BoardOffer{Lengths: []float64{3.6}, PricePerM: ptr(2.5)}, Pegs: geodata.PegOffer{Price: ptr(2)},
		Compost: geodata.CompostOffer{PricePerM3: ptr(60), Currency: "EUR", OrderFactor: ptr(1.25)},
		Prices:  geodata.Prices{Cardboard: ptr(0.5), Screw: ptr(0.1), Cover: ptr(0.8), Pin: ptr(0.2)},
	}
	list, said, err := takeoff.Count([]takeoff.BedInput{b}, site)
	require.NoError(t, err)
	assert.InDelta(t, 0.6134*1.25, list.CompostOrder.Value, 1e-9)
	assert.NotContains(t, strings.Join(said, "\n"), "freshly screened")
	want := map[string]float64{"compost": 0.6134 * 1.25 * 60, "boards": 27, "pegs": 12, "screws": 2.4, "cardboard": 7, "woven cover": 4.2 * 1.8 * 0.8, "cover pins": 26 * 0.2}
	total := 0.0
	for _, p := range list.Cost.Parts {
		assert.InDelta(t, want[p.What], p.Amount, 1e-9, p.What)
		total += p.Amount
		delete(want, p.What)
	}
	assert.Empty(t, want)
	assert.Empty(t, list.Cost.Missing)
	assert.InDelta(t, total, list.Cost.Total, 1e-9)

	// one price alone is enough for a cost
	list, _, err = takeoff.Count([]takeoff.BedInput{b}, geodata.Site{Prices: geodata.Prices{Cover: ptr(1)}})
	require.NoError(t, err)
	require.NotNil(t, list.Cost)
	assert.InDelta(t, 4.2*1.8, list.Cost.Total, 1e-9)
}

// Many pieces of two lengths are proved by the bound alone; the waste of
// all boards is that of each.
func TestBoundOfManyPieces(t *testing.T) {
	var beds []takeoff.BedInput
	for range 9 {
		b := bed("Bed")
		b.Length = 2.1
		beds = append(beds, b)
	}
	list, _, err := takeoff.Count(beds, geodata.Site{Boards: geodata.BoardOffer{Lengths: []float64{3.6}}})
	require.NoError(t, err)
	l := list.Boards[0]
	pieces, waste := 0, 0.0
	for _, c := range l.Cuts {
		pieces += len(c.Pieces)
		waste += c.Waste
	}
	assert.Equal(t, 36, pieces)
	// a side of 2100 leaves 1497 mm, room for one end of 1150: 18 boards, and no fewer hold 18 sides
	assert.Equal(t, 18, l.Count)
	assert.Equal(t, 18*3600.0, l.Bound)
	assert.True(t, l.Proved)
	assert.InDelta(t, waste, l.Waste, 1e-9)
	assert.InDelta(t, 18*(3600-2100-1150-6), l.Waste, 1e-6)
}
