package words_test

import (
	"testing"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/frame"
	"crossfall/siting/sitingtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func valueOf(t *testing.T, items []words.Item, name string) string {
	for _, i := range items {
		if i.Name == name {
			return i.Value
		}
	}
	require.Fail(t, "no such item", name)
	return ""
}

// Inputs that change the edge alike are named together, the one that does most
// first.
func TestBorderlineIsSaidOnce(t *testing.T) {
	b := sitingtest.Sloping().Beds[1]
	b.EdgeRange = []frame.Class{b.Edge, b.Edge}
	b.Sensitivity.Effects[0].EdgeLow = frame.Stepped
	b.Sensitivity.Effects[1].EdgeLow, b.Sensitivity.Effects[1].EdgeHigh = b.Edge, frame.Stepped
	said := valueOf(t, words.Words{}.Decided(b), "Firm")
	assert.Equal(t, "no: over the range of the water running on and the strength of the ground it may be stepped", said)
	b.EdgeFirm = true
	assert.Equal(t, "yes", valueOf(t, words.Words{}.Decided(b), "Firm"))
}

// Depths to be reached are rounded up: 200 mm are 7.87 in, 30 mm 1.18 in.
func TestDepthsAreRoundedUp(t *testing.T) {
	b := sitingtest.Sloping().Beds[1]
	b.SunkenDepth = &geodata.Estimate{Value: 30, Low: 30, High: 30}
	list := words.Words{Units: geodata.FeetAndInch}.BuildList(b)
	assert.Contains(t, valueOf(t, list, "Sink the edge"), "1 1/4 in")
	assert.Contains(t, valueOf(t, list, "Drive the pegs"), "7 7/8 in (7 1/8 to 9 1/2)")
	assert.Equal(t, "4.5 years (3 to 6)", valueOf(t, list, "Life of the pegs"))
}

func TestWaysToEdgeABed(t *testing.T) {
	b := sitingtest.Sloping().Beds[1]
	w := words.Words{}
	rows := w.EdgeRows(b, "GBP")
	require.Len(t, rows, 4)
	for _, r := range rows {
		require.Len(t, r, len(words.EdgeHeads(b)))
		for _, cell := range r {
			assert.NotEmpty(t, cell)
		}
	}
	assert.Equal(t, "stepped: cannot stand here", rows[3][0])
	assert.Equal(t, "41 kg (20 to 83)", rows[0][7])
	assert.Equal(t, "61.20 GBP", rows[2][6])
	assert.Contains(t, valueOf(t, w.Decided(b), "Worth boarding?"), "A winter may take 41 kg (20 to 83) of compost with open edges, as chosen 3 kg (1 to 8).")
	for i := range b.Options {
		b.Options[i].CompostAtRisk, b.Options[i].Cost = nil, nil
	}
	assert.Len(t, words.EdgeHeads(b), 7)
	assert.Equal(t, "no price given", w.EdgeRows(b, "")[2][6])
	assert.Empty(t, w.EdgeRows(siting.Bed{}, ""))
}

// What depends on nothing is not said, and the sums of ranges are.
func TestSensitivityInWords(t *testing.T) {
	b := sitingtest.Sloping().Beds[1]
	items := words.Words{}.Sensitivity(b)
	assert.Equal(t, "water running on", valueOf(t, items, "Most depends on"))
	assert.Equal(t, "pegs needed 180 to 240 mm deep, factor of safety 1.4 to 3.1", valueOf(t, items, "Strength of the ground, 10 to 20 kPa"))
	assert.Equal(t, "pegs would be needed 180 to 240 mm deep; as given their factor of safety is 1.4 to 3.1", valueOf(t, items, "Over all of these"))
	b.Build = nil
	assert.Empty(t, words.Words{}.Sensitivity(b), "nothing is said of what is not built")
}
