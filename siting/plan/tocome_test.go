package plan_test

import (
	"strings"
	"testing"

	"crossfall/siting"
	"crossfall/siting/sitingtest"

	"crossfall/siting/plan"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
)

// Ground for a tree to come is hatched but for its hole, and stands in the legend;
// a thing without free ground leaves no trace.
func TestGroundForATallThingIsHatched(t *testing.T) {
	a := sitingtest.Sloping()
	assert.NotContains(t, svg(t, a, plan.Options{}), "to-come")
	a.ToCome = []siting.ToCome{{What: "tower", Rings: [][]orb.Point{}}}
	assert.NotContains(t, svg(t, a, plan.Options{}), "to-come")

	square := [][]orb.Point{{{1, 8}, {7, 8}, {7, 11}, {1, 11}, {1, 8}}}
	hole := []orb.Point{{2, 9}, {2, 10}, {6, 10}, {6, 9}, {2, 9}}
	a.ToCome = []siting.ToCome{{What: "pear tree", Rings: square}}
	whole := svg(t, a, plan.Options{})
	assert.Contains(t, whole, "pear tree to come: here it leaves")
	a.ToCome[0].Rings = append(square, hole)
	holed := svg(t, a, plan.Options{})
	// the hole has 4 of 18 square metres; strokes that cross it are cut in two
	hatched := func(doc string) int { return strings.Count(doc, `class="to-come-hatch"`) }
	assert.Greater(t, hatched(whole), 10)
	assert.Greater(t, hatched(holed), hatched(whole))

	a.ToCome = append(a.ToCome, siting.ToCome{What: "shed", Rings: square})
	assert.Contains(t, svg(t, a, plan.Options{}), "shed to come: here it leaves")
}
