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
// there is no ground or hardly any water.
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
	f := frameOf(a.Water.Played.Storms[0].Frames[0], a)
	assert.Equal(t, []stormMark{{"0", "1", "1"}, {"1.25", "0.25", "0.5"}}, f.Marks)
	var out bytes.Buffer
	require.NoError(t, Write(&out, a, Options{}))
	assert.Equal(t, 1, strings.Count(out.String(), "The storm over the plot"))
	assert.Contains(t, out.String(), `<rect x="1.25" y="0.25" width="0.5" height="0.5"/>`)
	assert.Contains(t, out.String(), "After 10 minutes")
}
