package takeoff_test

import (
	"testing"

	"crossfall/siting/takeoff"

	"github.com/stretchr/testify/assert"
)

// Barrow and load of 80 kg in all, in kilograms of force, worked by hand as 80 (sin a + mu
// cos a): 1 in 12 is 4.764 degrees, 80 (0.08305 + 0.03 x 0.99654) = 9.04. Rolling 0.03 is
// a firm path and 0.10 soft wood chips (common practice). The guideline for
// keeping a load moving is about 10 kgf for men and 7 for women (Health and Safety
// Executive, INDG143).
func TestPushOfALoadedBarrow(t *testing.T) {
	for _, c := range []struct{ oneIn, mu, kgf float64 }{
		{20, 0.03, 6.4}, {15, 0.03, 7.7}, {12, 0.03, 9.0}, {10, 0.03, 10.3}, {8, 0.03, 12.3}, {12, 0.10, 14.6},
	} {
		assert.InDelta(t, c.kgf, takeoff.Push(80, 1/c.oneIn, c.mu)/9.81, 0.06, "%v", c)
	}
}

// The litres that keep to 70 N on a lawn, put back into the sum, do, and one litre
// more does not.
func TestLighterLoad(t *testing.T) {
	litres, ok := takeoff.LighterLoad(600, 0.12, 15)
	assert.True(t, ok)
	assert.LessOrEqual(t, takeoff.Push(15+0.6*litres, 0.12, takeoff.RollingLawn), 70.0)
	assert.Greater(t, takeoff.Push(15+0.6*(litres+1), 0.12, takeoff.RollingLawn), 70.0)
	_, ok = takeoff.LighterLoad(600, 0.45, 15)
	assert.False(t, ok)
}
