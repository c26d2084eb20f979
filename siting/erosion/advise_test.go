package erosion_test

import (
	"fmt"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/erosion"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
)

// slopeAbove is a storm of 40 mm an hour on a slope of 10 %.
func slopeAbove(cover string, length float64) soil.RunOnInput {
	return soil.RunOnInput{
		Rate: geodata.Estimate{Value: 40, Low: 30, High: 50}, Cover: cover, EdgeLength: 3.6,
		Length: geodata.Exactly(length), Slope: geodata.Estimate{Value: .10, Low: .09, High: .11},
	}
}

// Dug ground at 10 % sends more than grass: at 40 mm an hour it moves compost from
// 3 m of slope, on which grass does not.
func TestGrassOnBrokenGroundAboveABed(t *testing.T) {
	dug := erosion.Advise(erosion.Bedside{Above: slopeAbove("dug", 3), Way: erosion.OpenEdged})
	assert.Len(t, dug, 1)
	assert.Contains(t, dug[0].What, "keep grass")
	assert.Contains(t, dug[0].Why, "falls from")
	for _, quiet := range []erosion.Bedside{
		{Above: slopeAbove("turf", 60), Way: erosion.OpenEdged},
		{Above: slopeAbove("dug", .5), Way: erosion.OpenEdged},
		{Above: slopeAbove("dug", 60), Way: erosion.SunkenEdged},
	} {
		assert.Empty(t, erosion.Advise(quiet))
	}
}

// A hundredth of the compost is a default of ours. A mulch over 70 % of the ground
// leaves exp(-.035 x 70) = 8.6 % of the loss, from exp(-.05 x 70) = 3 % to exp(-.025 x
// 70) = 17 % (Agriculture Handbook 703, chapter 5).
func TestASheetWhereAHundredthMayGo(t *testing.T) {
	risks := func(share float64) []erosion.Risk {
		return []erosion.Risk{
			{Way: erosion.OpenEdged, Lost: geodata.Estimate{Value: 500 * share, Low: 1, High: 100}, Share: geodata.Exactly(share)},
			{Way: erosion.SheetOver, Lost: geodata.Estimate{High: 1}},
		}
	}
	assert.Empty(t, erosion.Advise(erosion.Bedside{Above: slopeAbove("turf", 1), Way: erosion.OpenEdged, Risks: risks(.0099)}))
	assert.Len(t, erosion.Advise(erosion.Bedside{Above: slopeAbove("turf", 1), Way: erosion.OpenEdged, Risks: risks(.0101)}), 2)
	some := erosion.Advise(erosion.Bedside{Above: slopeAbove("turf", 1), Way: erosion.OpenEdged, Risks: risks(.02)})
	assert.Len(t, some, 2)
	assert.Equal(t, "a winter may take 10 kg (1.0 to 100) of its compost, and 0 kg (0 to 1.0) under a sheet", some[0].Why)
	assert.Equal(t, "of what rain loosens on a bare top, such a mulch lets 8.6 % go (3 to 17)", some[1].Why)
}

func ExampleAdvise() {
	for _, a := range erosion.Advise(erosion.Bedside{Above: slopeAbove("dug", 12), Way: erosion.OpenEdged}) {
		fmt.Println(a.What)
	}
	// Output: keep grass on the ground above it
}
