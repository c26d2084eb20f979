package siting_test

import (
	"context"
	"slices"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/caution"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Weeds named for a bed are covered and bought for there alone; a bed that is not
// there is told.
func TestWeedsOfSomeBeds(t *testing.T) {
	p := read(t, "hillside")
	p.Site.Weeds = []geodata.WeedMet{
		{Name: "bindweed", Beds: []string{" Bed 2"}},
		{Name: "knotweed", Beds: []string{"bed 3", "bed 9"}},
	}
	a := assess(t, p)
	for _, c := range a.OrderOfWork.Covers {
		assert.Equal(t, c.Bed == "bed 2", c.Layers == 4, c.Bed)
	}
	i := slices.IndexFunc(a.Beds, func(b siting.Bed) bool { return b.Name == "bed 2" })
	require.GreaterOrEqual(t, i, 0)
	b := a.Beds[i]
	assert.GreaterOrEqual(t, a.Quantities.CoverArea, 4*(b.Length+0.6)*(b.Width+0.6)-1e-9)
	assert.True(t, slices.ContainsFunc(a.Cautions, func(c caution.Caution) bool { return c.ID == "weed.japanese-knotweed" }))
	i = slices.IndexFunc(a.Findings, func(f geodata.Fault) bool { return f.Code == "weed-of-no-bed" })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, "bed 9", a.Findings[i].Read)
	assert.True(t, slices.ContainsFunc(a.Working, func(w siting.Basis) bool { return w.ID == "work.cover.field-bindweed.layers" }))
}

func TestUnknownWeedsOfSomeBedsAreFaults(t *testing.T) {
	p := read(t, "hillside")
	p.Site.Ground.Weeds = []string{"dock"}
	p.Site.Weeds = []geodata.WeedMet{{Name: "lettuces", Beds: []string{"bed 1"}}, {Name: "docks", Beds: []string{"bed 1"}}}
	_, err := siting.Assess(context.Background(), p, siting.Options{})
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 2)
	assert.Equal(t, "lettuces", faults[0].Read)
	assert.Equal(t, "weed-twice", faults[1].Code)
}
