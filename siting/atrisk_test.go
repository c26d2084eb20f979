package siting_test

import (
	"testing"

	"crossfall/siting/frame"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Compost at risk stands beside every edge where the rain tells it, and less of
// it the more an edge holds; without rain nothing is said.
func TestCompostAtRiskBesideEachEdge(t *testing.T) {
	p := one(0.09)
	assert.Nil(t, option(t, assess(t, p).Beds[0], frame.OpenEdged).CompostAtRisk)
	erosivity := 600.0
	p.Site.Rain.Erosivity = &erosivity
	b := assess(t, p).Beds[0]
	last := -1.0
	for i := len(frame.Classes()) - 2; i >= 0; i-- {
		o := option(t, b, frame.Classes()[i])
		if !o.Stands {
			continue
		}
		require.NotNil(t, o.CompostAtRisk, o.Edge)
		assert.GreaterOrEqual(t, o.CompostAtRisk.Value, last, o.Edge)
		assert.LessOrEqual(t, o.CompostAtRisk.Low, o.CompostAtRisk.Value)
		assert.LessOrEqual(t, o.CompostAtRisk.Value, o.CompostAtRisk.High)
		last = o.CompostAtRisk.Value
	}
}
