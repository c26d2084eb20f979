package erosion_test

import (
	"fmt"
	"strings"
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

func whats(all []erosion.Advice) string {
	var b strings.Builder
	for _, a := range all {
		b.WriteString(a.What + "\n")
	}
	return b.String()
}

// The flow per metre that pulls .5 Pa on bare ground (Manning's n .05) at 10 %
// is 2.07e-5 m2/s: at 40 mm an hour of which .55 runs off, 3.4 m of slope.
func TestAdviceTurnsWithTheLengthOfTheSlope(t *testing.T) {
	short := erosion.Advise(erosion.Bedside{Above: slopeAbove("turf", 3.2), Way: erosion.OpenEdged, OwnOutlet: true})
	assert.Empty(t, short)
	long := erosion.Advise(erosion.Bedside{Above: slopeAbove("turf", 3.6), Way: erosion.OpenEdged, OwnOutlet: true})
	assert.Contains(t, whats(long), "channel across the slope")
	assert.Contains(t, whats(long), "no longer than 3.3 m")
	sunken := erosion.Advise(erosion.Bedside{Above: slopeAbove("turf", 60), Way: erosion.SunkenEdged, OwnOutlet: true})
	assert.Empty(t, sunken)
}

func TestNeverOnToANeighbour(t *testing.T) {
	a := erosion.Advise(erosion.Bedside{Above: slopeAbove("turf", 20), Way: erosion.Boarded})
	assert.NotContains(t, whats(a), "dig a grassed channel")
	assert.Contains(t, whats(a), "5 m from buildings")
	assert.Contains(t, fmt.Sprint(a), "a neighbour's land")
}

func TestGrassFirstAndThenAChannel(t *testing.T) {
	few := erosion.Advise(erosion.Bedside{Above: slopeAbove("dug", 3), Way: erosion.OpenEdged, OwnOutlet: true})
	assert.Len(t, few, 1)
	assert.Contains(t, few[0].What, "keep grass")
	many := erosion.Advise(erosion.Bedside{Above: slopeAbove("dug", 30), Way: erosion.OpenEdged, OwnOutlet: true, Gathered: true})
	assert.Len(t, many, 3)
	assert.Contains(t, many[0].What, "move the bed")
	assert.Contains(t, many[2].What, "channel")
}

func TestASheetWhereAHundredthMayGo(t *testing.T) {
	risks := func(share float64) []erosion.Risk {
		return []erosion.Risk{
			{Way: erosion.OpenEdged, Lost: geodata.Estimate{Value: 500 * share, Low: 1, High: 100}, Share: geodata.Exactly(share)},
			{Way: erosion.SheetOver, Lost: geodata.Estimate{High: 1}},
		}
	}
	assert.Empty(t, erosion.Advise(erosion.Bedside{Above: slopeAbove("turf", 1), Way: erosion.OpenEdged, Risks: risks(.009)}))
	some := erosion.Advise(erosion.Bedside{Above: slopeAbove("turf", 1), Way: erosion.OpenEdged, Risks: risks(.02)})
	assert.Len(t, some, 2)
	assert.Equal(t, "a winter may take 10 kg (1.0 to 100) of its compost, and 0 kg (0 to 1.0) under a sheet", some[0].Why)
	assert.Equal(t, "of what rain loosens on a bare top, such a mulch lets 8.6 % go (3 to 17)", some[1].Why)
}

func ExampleAdvise() {
	for _, a := range erosion.Advise(erosion.Bedside{
		Above: slopeAbove("turf", 12), Way: erosion.OpenEdged, OwnOutlet: true,
	}) {
		fmt.Println(a.What)
	}
	// Output: dig a grassed channel across the slope above the bed, 0.16 m deep and 1.0 m wide at the top, falling 1 m in 100, to an outlet on your own land and never on to a neighbour's; the ground between it and the bed no longer than 3.3 m
}
