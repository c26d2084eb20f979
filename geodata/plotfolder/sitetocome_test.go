package plotfolder_test

import (
	"fmt"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTallThingsToComeAreRead(t *testing.T) {
	p, err := handled(t, "weeds = [\"couch grass\", \"dock\"]\n[prices]\ncover_per_m2 = 0.8\n"+
		"[[to_come]]\nwhat = \"tree\"\nheight_m = 6\nevergreen = true\n[[to_come]]\nwhat = \"shed\"\nheight_m = 2.4\nwidth_m = 3.1\n")
	require.NoError(t, err)
	assert.Equal(t, []string{"couch grass", "dock"}, p.Site.Ground.Weeds)
	assert.Equal(t, 2, p.Site.Ground.WeedsAt.Line)
	assert.Equal(t, .8, *p.Site.Prices.Cover)
	require.Len(t, p.Site.ToCome, 2)
	assert.True(t, p.Site.ToCome[0].Evergreen)
	assert.Equal(t, 6., *p.Site.ToCome[0].Height)
	assert.Nil(t, p.Site.ToCome[0].Width)
	assert.Equal(t, geodata.TallThing{What: "shed", Height: p.Site.ToCome[1].Height, Width: p.Site.ToCome[1].Width}, p.Site.ToCome[1])
}

// Every fault is told at the line of its own table.
func TestTallThingsToComeAreChecked(t *testing.T) {
	_, err := handled(t, `weeds = [3]
[[to_come]]
what = "tree"
[[to_come]]
height_m = 6
[[to_come]]
what = "shed"
height_m = 240
width_m = 0
[[to_come]]
what = "oak"
height_m = 9
evergreen = "yes"
[compost]
order_factor = 3
`)
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	var got []string
	for _, f := range faults {
		got = append(got, fmt.Sprintf("%s at %d", f.Code, f.Pos.Line))
		assert.NotEmpty(t, f.Want)
	}
	assert.ElementsMatch(t, []string{
		"site-wrong-type at 2", "site-to-come-half at 4", "site-to-come-half at 6", "site-out-of-range at 9", "site-out-of-range at 10",
		"site-wrong-type at 14", "site-out-of-range at 16",
	}, got)
}

// What the README shows of weeds, prices and tall things is read as it stands.
func TestToComeOfTheReadmeIsSound(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "site.toml": block(t, "ground.weeds = ")})
	assert.Equal(t, []string{"couch grass", "bindweed"}, p.Site.Ground.Weeds)
	assert.Equal(t, 1.25, *p.Site.Compost.OrderFactor)
	require.Len(t, p.Site.ToCome, 1)
	assert.Equal(t, 4., *p.Site.ToCome[0].Width)
}
