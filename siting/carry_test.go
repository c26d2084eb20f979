package siting_test

import (
	"testing"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A barrow of 15 kg with 45 litres of 600 kg/m3 weighs 42 kg. Straight up 12 %
// over a lawn it takes 42 x 9.81 x (sin + 0.10 cos) of the angle = 90 N (Health
// and Safety Executive's sum), on the level 41 N. A path that goes to and
// fro at 5.4 % takes 63 N.
func TestPushIsThatOfTheWay(t *testing.T) {
	gate := func(x, y float64) geodata.Fixture {
		return geodata.Fixture{Kind: geodata.GateKind, Name: "gate", Shape: orb.Point{x, y}}
	}
	push := func(f ...geodata.Fixture) (float64, string) {
		p := one(0.12)
		p.Fixtures = append(p.Fixtures, f...)
		q := assess(t, p).Quantities
		require.NotNil(t, q.Push)
		return q.Push.Value, q.PushOn
	}
	value, on := push()
	assert.InDelta(t, 90, value, 2)
	assert.Equal(t, "the steepest fall under the beds", on)

	straight, on := push(gate(5.8, 0.2)) // the plane rises to the north
	fromAbove, _ := push(gate(5.8, 8.8))
	assert.Equal(t, "the steepest rise of the ways from the gate", on)
	assert.InDelta(t, 90, straight, 2)
	assert.InDelta(t, 41, fromAbove, 2, "down from above it only rolls")

	level, _ := push(gate(0.2, 5.6))
	assert.InDelta(t, 41, level, 2)

	// Two legs of 5.4 m across and 2.7 m up the plane, 6.04 m each: 0.12 x 2.7 / 6.04
	// = 5.4 %.
	zigzag := geodata.Fixture{Kind: geodata.PathKind, Name: "path", Shape: orb.LineString{{5.8, 0.2}, {0.4, 2.9}, {5.8, 5.6}}}
	gentler, _ := push(gate(5.8, 0.2), zigzag)
	assert.InDelta(t, 42*9.81*(0.0536+0.0999), gentler, 2)
}
