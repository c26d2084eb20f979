package siting_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// at a latitude, a plot that falls 8 % to the south with one bed and what else
// is drawn; +y is true north.
func sunny(latitude float64, things ...geodata.Fixture) *geodata.Plot {
	p := plane(0.08, 0.005)
	p.Site.Place.Latitude = &latitude
	p.Frame.NorthFromTrue = new(float64)
	p.Fixtures = append(things, rectangleBed("bed", 4, 5, 7.6, 6.2))
	return p
}

func sunOf(t *testing.T, p *geodata.Plot) [4]siting.SunHours {
	l := assess(t, p).Beds[0].Light
	require.NotNil(t, l)
	require.Len(t, l.Days, 4)
	for _, d := range l.Days {
		assert.LessOrEqual(t, d.Hours.Low, d.Hours.Value)
		assert.LessOrEqual(t, d.Hours.Value, d.Hours.High)
		assert.LessOrEqual(t, d.Hours.High, d.DayLength*(1+1e-12))
	}
	return [4]siting.SunHours(l.Days)
}

// Day lengths by the formula of Duffie & Beckman: 7.59 h in December and 16.41 h in
// June at 51.5 degrees. Ground that falls to the winter sun has the whole day.
func TestOpenGroundHasTheDay(t *testing.T) {
	days := sunOf(t, sunny(51.5))
	assert.Equal(t, "21 December", days[3].Date)
	assert.InDelta(t, 16.41, days[1].DayLength, .02)
	assert.InDelta(t, 7.59, days[3].DayLength, .02)
	assert.InDelta(t, days[3].DayLength, days[3].Hours.Value, .01)
	south := sunOf(t, sunny(-51.5))
	assert.InDelta(t, 7.59, south[1].DayLength, .02)
	assert.Less(t, south[1].Hours.Value, south[1].DayLength, "it falls away from the sun of the north")
}

// A hedge to the south takes sun in winter and none at midsummer's noon; a
// bare tree takes less than an evergreen one.
func TestThingsTakeSun(t *testing.T) {
	hedge := geodata.Fixture{Kind: geodata.ObstacleKind, What: "hedge", TopHeight: 2, Shape: orb.LineString{{0, 3}, {12, 3}}}
	open, hedged := sunOf(t, sunny(51.5)), sunOf(t, sunny(51.5, hedge))
	assert.Less(t, hedged[3].Hours.Value, open[3].Hours.Value/2)
	assert.InDelta(t, open[1].Hours.Value, hedged[1].Hours.Value, 1)
	assert.Less(t, hedged[0].Hours.Low, hedged[0].Hours.High)
	tree := geodata.Fixture{Kind: geodata.TreeKind, TopHeight: 8, Shape: orb.Point{6, 1}}
	bare := sunOf(t, sunny(51.5, tree))
	tree.Evergreen = true
	green := sunOf(t, sunny(51.5, tree))
	assert.Less(t, green[3].Hours.Value, bare[3].Hours.Value)
	assert.Less(t, bare[3].Hours.Value, open[3].Hours.Value)
}

// Without a latitude or a north there are no sun hours, and it says why; a thing
// without a height is named.
func TestNoSunHoursWithoutAPlace(t *testing.T) {
	p := sunny(51.5, geodata.Fixture{Kind: geodata.TreeKind, Name: "ash", Shape: orb.Point{6, 1}})
	a := assess(t, p)
	assert.Equal(t, []string{"ash: no height_m"}, a.Light.LeftOut)
	p.Frame.NorthFromTrue = nil
	a = assess(t, p)
	assert.Nil(t, a.Beds[0].Light)
	assert.Contains(t, a.Light.Reason, "true north")
	p.Site.Place.Latitude = nil
	assert.Contains(t, assess(t, p).Light.Reason, "place.latitude")
}
