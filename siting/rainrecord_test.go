package siting_test

import (
	"slices"
	"testing"
	"time"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Twelve winters of a daily record tell the design rain where nobody gave a
// figure; a figure by hand goes before it.
func TestDesignRainFromADailyRecord(t *testing.T) {
	p := read(t, "hillside")
	hour := p.Site.Rain.M5Hour
	p.Site.Rain = geodata.RainWish{}
	first := time.Date(2000, time.October, 1, 0, 0, 0, 0, time.UTC)
	daily := &geodata.DailyRain{First: first, MM: make([]float64, 12*365)}
	for i, mm := range []float64{31, 44, 28, 52, 39, 35, 61, 33, 41, 47, 30, 38} {
		daily.MM[365*i+60] = mm
	}
	p.Rain.Daily, p.Rain.From = daily, "daily record from 2000-10-01 to 2012-09-27"

	a := assess(t, p)
	assert.Contains(t, a.Water.DesignSource, "12 winters")
	assert.Equal(t, "winter storm, wet-ground losses", a.Water.DesignSaid)
	i := slices.IndexFunc(a.Working, func(b siting.Basis) bool { return b.ID == "water.design-rain" })
	require.GreaterOrEqual(t, i, 0)
	require.Len(t, a.Working[i].Inputs, 1)
	assert.Equal(t, float64(12*365), a.Working[i].Inputs[0].Value)
	for _, s := range a.Assumptions {
		assert.NotContains(t, s.What, "rain of 15 minutes")
	}

	p.Site.Rain.M5Hour = hour
	a = assess(t, p)
	assert.Contains(t, a.Water.DesignSource, "given by hand")
}
