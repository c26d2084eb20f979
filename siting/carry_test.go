package siting_test

import (
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/access"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func gateAt(x, y float64) geodata.Fixture {
	return geodata.Fixture{Kind: geodata.GateKind, Name: "gate", Shape: orb.Point{x, y}}
}

// A barrow of 15 kg with 45 litres of 600 kg/m3 weighs 42 kg. On the level it
// takes 41 N over a lawn, 42 x 9.81 x (sin + 0.10 cos) of the angle, up 1 in 12 it
// takes 75 N and up 12 % 90 N, worked by hand; a way goes no steeper than 1 in 12 (ADA
// Standards for Accessible Design 2010, 405.2).
func TestPushIsThatOfTheWay(t *testing.T) {
	push := func(change func(*geodata.Plot), f ...geodata.Fixture) (float64, string) {
		p := one(0.12) // the plane rises to the north
		p.Fixtures = append(p.Fixtures, f...)
		if change != nil {
			change(p)
		}
		q := assess(t, p).Quantities
		require.NotNil(t, q.Push)
		return q.Push.Value, q.PushOn
	}
	toAndFro, on := push(nil, gateAt(5.8, 0))
	assert.Equal(t, "the steepest rise of the ways to the beds", on)
	assert.InDelta(t, 75, toAndFro, 2, "it goes to and fro at 1 in 12")
	assumed, _ := push(nil)
	assert.InDelta(t, 75, assumed, 2, "from the lowest place, without a gate")
	straight, _ := push(func(p *geodata.Plot) { p.Site.Carrying.Steepest = number(12.1) }, gateAt(5.8, 0))
	assert.InDelta(t, 90, straight, 2)

	fromAbove, _ := push(nil, gateAt(5.8, 9))
	assert.InDelta(t, 41, fromAbove, 2, "down from above it only rolls")
	level, _ := push(nil, gateAt(0, 5.6))
	assert.InDelta(t, 41, level, 4)

	closed := geodata.Fixture{Kind: geodata.ObstacleKind, What: "fence", Shape: orb.LineString{{0, 2}, {12, 2}}}
	none, on := push(nil, gateAt(5.8, 0), closed)
	assert.Equal(t, "the steepest fall under the beds", on)
	assert.InDelta(t, 90, none, 2)
}

func number(v float64) *float64 { return &v }

// The plane rises 8 % to the north. From the gate in its southern side a load is
// lifted 0.08 x 4.7 m to beside a bed whose southern side is at y = 5, and the
// way is as long; the bed takes 15 loads or so, each there and back.
func TestWayToABed(t *testing.T) {
	p := one(0.08)
	p.Fixtures = append(p.Fixtures, gateAt(5.8, 0))
	a := assess(t, p)
	b := a.Beds[0].Access
	require.NotNil(t, b)
	assert.Equal(t, access.ByBarrow, b.By)
	assert.InDelta(t, 4.7, b.Length, 0.3)
	assert.InDelta(t, 0.08*4.7, b.Climb.Value, 0.08*0.3)
	assert.Less(t, b.Climb.Low, b.Climb.Value)
	assert.Less(t, b.Climb.Value, b.Climb.High)
	assert.InDelta(t, 8, b.SteepestRise.Value, 0.2)
	assert.Less(t, b.SteepestRise.Low, b.SteepestRise.Value)
	assert.Empty(t, b.Advice)
	assert.Equal(t, 20+0.0, b.Route[0][2], "heights are those of the ground")
	require.NotNil(t, a.Carrying.Walked)
	assert.InDelta(t, 2*b.Loads.Value*b.Length, a.Carrying.Walked.Value, 1e-9)
	assert.InDelta(t, b.Loads.Value*b.Climb.Value, a.Carrying.Climbed.Value, 1e-9)
	assert.InDelta(t, a.Quantities.Push.Value, b.Push.Value, 1e-9, "one sum for both")
	ids := map[string]bool{}
	for _, w := range a.Working {
		ids[w.ID] = true
	}
	for _, id := range []string{"bed.way.length", "bed.way.climb", "bed.way.steepest-rise", "bed.way.push", "bed.way.loads", "carrying.walked", "carrying.climbed"} {
		assert.True(t, ids[id], id)
	}
}

func TestWayThatIsSteep(t *testing.T) {
	p := one(0.25)
	p.Fixtures = append(p.Fixtures, gateAt(5.8, 0))
	b := assess(t, p).Beds[0].Access
	require.NotNil(t, b)
	assert.Positive(t, b.Hairpins)
	assert.Contains(t, strings.Join(b.Advice, "\n"), "make each turn level, 1.2 m or longer")
	assert.Contains(t, strings.Join(b.Advice, "\n"), "cut the path level there")

	// between two sheds there is no room to go to and fro
	shed := func(west, east float64) geodata.Fixture {
		return geodata.Fixture{Kind: geodata.ObstacleKind, What: "shed", Shape: orb.Polygon{{{west, 0}, {east, 0}, {east, 4}, {west, 4}, {west, 0}}}}
	}
	p.Fixtures = append(p.Fixtures, shed(1, 5.4), shed(6.2, 11))
	b = assess(t, p).Beds[0].Access
	assert.Greater(t, b.SteepestRise.Value, 20.0)
	assert.Greater(t, b.OverLimit, 3.0)
	told := strings.Join(b.Advice, "\n")
	for _, part := range []string{"no gentler way was found", "each metre climbed takes 12 m at 1 in 12, with a level place of 1.2 m each 2 m", "steps"} {
		assert.Contains(t, told, part)
	}
}

func TestBedThatNobodyGetsTo(t *testing.T) {
	p := one(0.05)
	fence := geodata.Fixture{Kind: geodata.ObstacleKind, Name: "old", What: "fence", Shape: orb.LineString{{0, 3}, {12, 3}}}
	p.Fixtures = append(p.Fixtures, gateAt(5.8, 0), fence)
	a := assess(t, p)
	b := a.Beds[0].Access
	assert.Equal(t, access.NoWay, b.By)
	assert.Equal(t, `nobody gets to it from the gate "gate": the fence "old" is in the way`, b.Said)
	assert.Empty(t, b.Route)
	assert.Nil(t, a.Carrying.Walked)
	warned := false
	for _, f := range a.Findings {
		warned = warned || f.Code == "bed-out-of-reach" && f.Severity == geodata.Warning
	}
	assert.True(t, warned)
}

func TestStartThatIsAssumedIsNamed(t *testing.T) {
	a := assess(t, one(0.05))
	require.Len(t, a.Carrying.From, 1)
	assert.True(t, a.Carrying.From[0].Assumed)
	named := false
	for _, s := range a.Assumptions {
		named = named || s.What == "where compost is carried from" && strings.HasPrefix(s.Value, "the lowest place along the boundary")
	}
	assert.True(t, named)
}

// Above a closed fence the ground would ask for a milder edge, but nobody gets
// there: the bed is put below it.
func TestPlacesWeighTheWayThere(t *testing.T) {
	place := func(drawn ...geodata.Fixture) orb.Point {
		p := plane(0.02, 0.004)
		p.Fixtures = append(drawn, gateAt(1, 0))
		a := assess(t, p)
		require.Len(t, a.Beds, 1)
		require.NotNil(t, a.Beds[0].Access)
		assert.Equal(t, access.ByBarrow, a.Beds[0].Access.By)
		return a.Beds[0].Centre
	}
	fence := func(to float64) geodata.Fixture {
		return geodata.Fixture{Kind: geodata.ObstacleKind, What: "fence", Shape: orb.LineString{{0, 3.4}, {to, 3.4}}}
	}
	assert.Greater(t, place(fence(9))[1], 3.4, "round the end of a fence it is worth the way")
	assert.Less(t, place(fence(12))[1], 3.4)
}
