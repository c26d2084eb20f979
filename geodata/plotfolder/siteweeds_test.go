package plotfolder_test

import (
	"fmt"
	"strings"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWeedsOfSomeBedsAreRead(t *testing.T) {
	p, err := handled(t, "[[weeds]]\nname = \"bindweed\"\nbeds = [\"bed 1\", \"Top\"]\n[[weeds]]\nbeds = [\"bed 2\"]\nname = \"dock\"\n")
	require.NoError(t, err)
	require.Len(t, p.Site.Weeds, 2)
	assert.Equal(t, "bindweed", p.Site.Weeds[0].Name)
	assert.Equal(t, []string{"bed 1", "Top"}, p.Site.Weeds[0].Beds)
	assert.Equal(t, 3, p.Site.Weeds[0].At.Line)
	assert.Equal(t, 7, p.Site.Weeds[1].At.Line)
}

// Every fault is told at the line of its own table.
func TestWeedsOfSomeBedsAreChecked(t *testing.T) {
	_, err := handled(t, `[[weeds]]
beds = ["bed 1"]
[[weeds]]
name = "dock"
[[weeds]]
name = "couch grass"
beds = []
[[weeds]]
name = "yarrow"
beds = ["bed 1", ""]
[[weeds]]
name = 3
beds = ["bed 1"]
[[weeds]]
name = "yarrow"
bed = ["bed 1"]
`)
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	var got []string
	for _, f := range faults {
		got = append(got, fmt.Sprintf("%s at %d", f.Code, f.Pos.Line))
		assert.NotEmpty(t, f.Want)
	}
	assert.Equal(t, []string{
		"site-weed-half at 3", "site-weed-half at 5", "site-weed-half at 8", "site-weed-half at 11",
		"site-wrong-type at 13", "site-weed-half at 16", "site-key-unknown at 17",
	}, got)
}

func TestTooManyWeedsOfSomeBeds(t *testing.T) {
	_, err := handled(t, strings.Repeat("[[weeds]]\nname = \"dock\"\nbeds = [\"bed 1\"]\n", geodata.MostListed+1))
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 1)
	assert.Equal(t, "site-list-too-long", faults[0].Code)
}
