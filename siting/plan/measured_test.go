package plan_test

import (
	"math"
	"testing"

	"crossfall/siting/plan"
	"crossfall/siting/sitingtest"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is measured on the sheet with a rule is what the tape reads on the ground:
// from the marks to the corners of beds, and from bed to bed. Two decimals of a
// millimetre on paper are 1 mm of ground at 1:100, less than the line is wide.
func TestDistancesOnTheSheetAreThoseOfTheGround(t *testing.T) {
	for _, opt := range []plan.Options{{Paper: "A4"}, {Paper: "A3"}, {Units: "ft"}} {
		a := sitingtest.Sloping()
		sheet, err := plan.Lay(a, opt)
		require.NoError(t, err)
		es := parse(t, svg(t, a, opt))
		beds := classed(es, "bed")
		var marks []orb.Point
		for _, e := range classed(es, "mark") {
			if pts := coordinates(t, e); len(pts) > 3 { // the dot in its triangle
				marks = append(marks, orb.MultiPoint(pts).Bound().Center())
			}
		}
		measured := 0
		tolerance := .001 + .01*math.Sqrt2*float64(sheet.Scale)/1000 // 1 mm, and the last decimal at both ends
		for i, b := range a.Beds {
			for j, corner := range coordinates(t, beds[i]) {
				ground := orb.Point{b.Corners[j][0], b.Corners[j][1]}
				for k, m := range a.SettingOut.Marks {
					require.Less(t, k, len(marks))
					onSheet := math.Hypot(corner[0]-marks[k][0], corner[1]-marks[k][1]) * float64(sheet.Scale) / 1000
					onGround := math.Hypot(ground[0]-m.At[0], ground[1]-m.At[1])
					assert.InDelta(t, onGround, onSheet, tolerance, "%s, corner %d from %s at 1:%d", b.Name, j, m.Name, sheet.Scale)
					measured++
				}
			}
		}
		assert.Greater(t, measured, 20)
	}
}
