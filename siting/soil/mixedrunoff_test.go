package soil_test

import (
	"fmt"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
)

// One cover in two parts is the cover; sealed ground of curve number 98 sheds
// 44.276 mm of 50 (TR-55, 1986, equations 2-1 to 2-4, worked by hand).
func TestMixedRunoffIsWeightedByArea(t *testing.T) {
	rain := geodata.Estimate{Value: 50, Low: 45, High: 60}
	whole, _, _ := soil.DayRunoff(rain, "turf", soil.ClayLoam)
	parts, _, told := soil.MixedDayRunoff(rain, []soil.Part{{Cover: "turf", Area: 10}, {Cover: "turf", Area: 30}}, soil.ClayLoam)
	assert.True(t, told)
	assert.InDelta(t, whole.Value, parts.Value, 1e-9)
	assert.InDelta(t, whole.High, parts.High, 1e-9)
	mixed, _, told := soil.MixedDayRunoff(rain, []soil.Part{{Cover: "turf", Area: 75}, {Cover: soil.Sealed, Area: 25}}, soil.ClayLoam)
	assert.True(t, told)
	assert.InDelta(t, .75*whole.Value+.25*44.276, mixed.Value, .001)
}

func TestSealedGroundIsToldOfALittleRain(t *testing.T) {
	rain := geodata.Exactly(20)
	_, said, told := soil.MixedDayRunoff(rain, []soil.Part{{Cover: "turf", Area: 1}}, soil.Sand)
	assert.False(t, told)
	assert.Contains(t, said, "little or none")
	e, _, told := soil.MixedDayRunoff(rain, []soil.Part{{Cover: "turf", Area: 1}, {Cover: soil.Sealed, Area: 1}}, soil.Sand)
	assert.True(t, told)
	assert.Greater(t, e.Value, soil.Runoff(20, 98)/2-1e-9)
	_, _, told = soil.MixedDayRunoff(rain, nil, soil.Sand)
	assert.False(t, told)
}

func ExampleMixedDayRunoff() {
	e, said, _ := soil.MixedDayRunoff(geodata.Estimate{Value: 53, Low: 44, High: 63},
		[]soil.Part{{Cover: "turf", Area: 300}, {Cover: soil.Sealed, Area: 20}}, soil.ClayLoam)
	fmt.Printf("%.0f mm (%.0f to %.0f): %s\n", e.Value, e.Low, e.High, said)
	// Output: 31 mm (19 to 40): each cover by its own curve number, 6 % of the ground sealed
}
