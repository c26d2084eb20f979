package caution_test

import (
	"testing"

	"crossfall/siting/caution"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The published heights, beside the default of 600 mm: guides of the City of
// Boroondara, 400 mm, and of a Western Australian council, 500 mm, are lower and take
// its place. The exempt development code of New South Wales (2014), clause 2.29, has
// 600 mm; the International Building Code, 105.2, 4 ft; the Highways Act 1980, section
// 167, 1.37 m (from memory); the New Zealand Building Act 2004, schedule 1, 1.50 m; the
// District of Sechelt in British Columbia 1.20 m; Ontario's code 1.00 m (from memory).
func TestRetainedByPlace(t *testing.T) {
	for _, c := range []struct {
		country string
		height  float64
		want    caution.Severity
		says    string
	}{
		{"au-vic", 0.399, caution.Note, "over 400 mm"},
		{"au-vic", 0.40, caution.Stop, "400 mm or more is a retaining wall"},
		{"au-wa", 0.49, caution.Warning, "from 500 mm"},
		{"au-wa", 0.50, caution.Stop, "500 mm"},
		{"au-nsw", 0.59, caution.Warning, "600 mm go without consent"},
		{"australia", 0.59, caution.Warning, "states differ"},
		{"england", 0.31, caution.Note, "over 1.37 m within 3.66 m of a street"},
		{"us-mi", 0.31, caution.Note, "4 ft"},
		{"nz", 0.60, caution.Stop, "1.50 m"},
		{"ca-bc", 0.31, caution.Note, "1.20 m"},
		{"ca-on", 0.31, caution.Note, "1.00 m"},
		{"fr", 0.31, caution.Note, "The local code rules"},
		{"", 0.60, caution.Stop, "600 mm"},
	} {
		plot := plotWith()
		plot.Site.Place.Country = c.country
		plot.BoundaryDrawn = true
		got := caution.Retained(plot, []caution.Wall{{
			Bed: "Bed 1", Outline: box(10, 5, 13.6, 6.2), Rises: []float64{c.height}, Uphill: orb.Point{0, 1},
		}})
		caution.Defer(got)
		require.Len(t, got, 1, c.country)
		assert.Equal(t, c.want, got[0].Severity, "%s %v", c.country, c.height)
		assert.Contains(t, got[0].Text, c.says)
	}
	for _, r := range caution.RetainedRules() {
		assert.NotEmpty(t, r.Source, r.Place)
		assert.LessOrEqual(t, r.Stop, caution.RetainedStop)
	}
}

// Saturated turf without cohesion stands to (18 - 9.81) / 18 x tan 28 = 24 % as an
// endless slope (Skempton & DeLory 1957, from memory); 10 and 20 %, under it, are
// defaults of ours.
func TestUnstableGround(t *testing.T) {
	at := func(slope float64) []caution.Caution {
		return caution.General(caution.Conditions{Digging: true, Boards: true, Slope: slope})
	}
	assert.NotContains(t, ids(at(0.10)), "note unstable-ground")
	assert.Contains(t, ids(at(0.11)), "note unstable-ground")
	assert.Contains(t, ids(at(0.21)), "warning unstable-ground")
	assert.Contains(t, ids(at(0.05)), "note neighbours-water")
}

// Over 100 N (Health and Safety Executive, INDG143: about 10 kgf keeps a load moving)
// a push is warned of.
func TestHandlingNamesTheWay(t *testing.T) {
	got := caution.General(caution.Conditions{Push: 120, Way: 34, PushOn: "the steepest rise of the ways from the gate"})
	require.Len(t, got, 1)
	assert.Contains(t, got[0].Text, "up the steepest rise of the ways from the gate takes about 120 newtons")
	assert.Contains(t, got[0].Text, "34 m long: rest at least every 20 m")
}
