package report

import (
	"bytes"
	"strings"
	"testing"

	"crossfall/siting"
	"crossfall/siting/sitingtest"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A frame is drawn with north at the top, deeper water larger, and nothing where
// there is no ground or hardly any water: two squares of 28 mm each way, the one
// at the south-west inked whole, the one at the north-east by half its side.
func TestStormFrames(t *testing.T) {
	mm := func(v float64) *float64 { return &v }
	a := sitingtest.Sloping()
	a.Water.Played = &siting.Storm{Claimed: []string{"this"}, NotClaimed: []string{"that"}, Storms: []siting.StormPlayed{{
		ReturnYears: 10, Minutes: 30, Depth: 17,
		Frames: []siting.StormFrame{{
			Minutes: 10, Cols: 2, Rows: 2, Square: 0.5, Origin: orb.Point{0, 0},
			Depth: []*float64{mm(40), nil, mm(0.5), mm(4)},
		}},
	}}}
	var out bytes.Buffer
	require.NoError(t, Write(&out, a, Options{}))
	assert.Equal(t, 1, strings.Count(out.String(), "The storm over the plot"))
	assert.Equal(t, 2, strings.Count(out.String(), `class="storm-depth"`))
	assert.Contains(t, out.String(), `points="0.00,28.00 28.00,28.00 28.00,56.00 0.00,56.00" class="storm-depth"`)
	assert.Contains(t, out.String(), `points="35.00,7.00 49.00,7.00 49.00,21.00 35.00,21.00" class="storm-depth"`)
	assert.Contains(t, out.String(), "After 10 minutes")
	assert.Contains(t, out.String(), "Water over 1 mm deep on 67 % of the ground, over 30 mm on 33 %.")
}
