package siting_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wetSlope is a plane of 30 by 40 m that falls 12 % to the south, with a bed at
// its foot and 40 m of slope above the plot, on sandy loam.
func wetSlope() *geodata.Plot {
	p := &geodata.Plot{Name: "slope", Frame: geodata.Frame{North: "the +y axis"}}
	for x := 0.0; x <= 30; x += 10 {
		for y := 0.0; y <= 40; y += 10 {
			p.Spots = append(p.Spots, geodata.SpotHeight{Name: "h", At: orb.Point{x, y}, Height: 20 + .12*y, Sigma: .005, Readings: 1})
		}
	}
	p.Boundary = orb.Polygon{{{0, 0}, {30, 0}, {30, 40}, {0, 40}, {0, 0}}}
	p.Fixtures = []geodata.Fixture{rectangleBed("low bed", 12, 12, 15.6, 13.2)}
	uphill := 40.0
	p.Site.Ground.UphillLength = &uphill
	p.Site.Ground.Texture = "sandy loam"
	p.Site.Boards.Heights = []float64{150, 225, 300}
	p.Site.Boards.Thicknesses = []float64{47}
	return p
}

func TestWaterIsLedRoundABedAndSoaksAway(t *testing.T) {
	p := wetSlope()
	p.Site.Ground.TestPit = quickPit()
	a := assess(t, p)
	require.Len(t, a.Water.Drains, 2)
	channel, pit := a.Water.Drains[0], a.Water.Drains[1]
	assert.Equal(t, siting.CutOffChannel, channel.Kind)
	require.Len(t, channel.Points, 2, channel.Why)
	for _, q := range channel.Points {
		assert.Greater(t, q[1], 13.2, "it runs above the bed")
	}
	assert.InDelta(t, 3.6+1, channel.Length, 1e-9, "from the high end to a metre past the low one")
	assert.GreaterOrEqual(t, channel.Flow.High, a.Beds[0].RunOnRate.High, "in rain as short as the slope takes to gather it")
	assert.Equal(t, siting.Soakaway, pit.Kind)
	require.Len(t, pit.Points, 1, pit.Why)
	at := pit.Points[0]
	assert.GreaterOrEqual(t, planar.DistanceFrom(p.Boundary, at), 2.5)
	assert.Less(t, at[1], 12.0-1.9, "below the bed, or it would drain on to it")
	require.NotEmpty(t, a.Water.Advice)
	for _, d := range a.Water.Advice {
		assert.NotEmpty(t, d.What)
		assert.NotEmpty(t, d.Why)
	}
}

func TestASoakawayAsksForATestPit(t *testing.T) {
	p := wetSlope()
	p.Site.Ground.Texture = ""
	a := assess(t, p)
	require.Len(t, a.Water.Drains, 2)
	assert.Contains(t, a.Water.Drains[1].Why, "test pit")
	p.Site.Ground.TestPit = quickPit()
	assert.Len(t, assess(t, p).Water.Drains[1].Points, 1)
}

// quickPit is a test pit that soaks 160 mm an hour.
func quickPit() *geodata.TestPit {
	length, width, from, to, minutes := 1.0, .75, .75, .25, 56.0
	return &geodata.TestPit{Length: &length, Width: &width, From: &from, To: &to, Minutes: &minutes}
}

// By its texture alone, soil is taken to soak a tenth of what such soil usually
// does: the test pit decides.
func TestATextureAloneSizesNoSoakawayForMuchWater(t *testing.T) {
	a := assess(t, wetSlope())
	require.Len(t, a.Water.Drains, 2)
	assert.Empty(t, a.Water.Drains[1].Points)
	assert.Contains(t, a.Water.Drains[1].Why, "test pit")
}

// 300 mm below the plot's edge there is no room for a channel 600 mm above a bed.
func TestNoRoomForAChannelIsSaid(t *testing.T) {
	p := wetSlope()
	p.Fixtures = []geodata.Fixture{rectangleBed("high bed", 12, 38.5, 15.6, 39.7)}
	a := assess(t, p)
	require.NotEmpty(t, a.Water.Drains)
	assert.Empty(t, a.Water.Drains[0].Points)
	assert.Contains(t, a.Water.Drains[0].Why, "no room")
}

// What is to be heeded at a bed and what winter water asks for are one advice: a
// channel that can be dug is pointed to, one that cannot is not asked for, and
// nothing tells to move a bed that may stand.
func TestABedIsNotToldToDigAChannelThatThereIsNoPlaceFor(t *testing.T) {
	p := wetSlope()
	a := assess(t, p)
	require.NotEmpty(t, a.Water.Drains[0].Points)
	assert.Contains(t, a.Beds[0].Build.Notes[0], "lead it round in the grassed channel above")

	p.Fixtures = append(p.Fixtures, geodata.Fixture{
		Kind: geodata.TreeKind, Name: "pear", Shape: orb.Point{16.8, 15.4}, StemDiameter: .2,
	})
	a = assess(t, p)
	require.NotNil(t, a.Beds[0].Build, "the roots reach the channel, not the bed")
	require.Len(t, a.Water.Drains, 1, "no channel brings water to a soakaway")
	assert.Empty(t, a.Water.Drains[0].Points)
	note := a.Beds[0].Build.Notes[0]
	assert.Contains(t, note, "no cut-off channel can be given")
	for _, text := range []string{note, a.Water.Drains[0].Why} {
		assert.Contains(t, text, "Do not dig it before you have asked")
		assert.NotContains(t, text, "move the bed")
		assert.NotContains(t, text, "build here")
	}
}

// A bed whose long side runs down the fall has its channel across its high end:
// along the long side it would fall with the ground, not 1 %.
func TestChannelOfABedDownTheFallRunsAcrossIt(t *testing.T) {
	p := wetSlope()
	p.Fixtures = []geodata.Fixture{rectangleBed("down the fall", 12, 12, 13.2, 15.6)}
	a := assess(t, p)
	require.NotEmpty(t, a.Water.Drains)
	channel := a.Water.Drains[0]
	require.Len(t, channel.Points, 2, channel.Why)
	assert.InDelta(t, 1.2+1, channel.Length, 1e-9)
	for _, q := range channel.Points {
		assert.InDelta(t, 15.6+channel.Width/2000+.3, q[1], .05, "along the contour, above the high end, with a bank left")
	}
}
