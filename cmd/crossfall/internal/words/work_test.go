package words_test

import (
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/sitingtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWorkInWords(t *testing.T) {
	a := sitingtest.Sloping()
	w := words.Words{}
	work := w.Work(a)
	require.Len(t, work, 1+len(a.OrderOfWork.Steps))
	assert.Equal(t, words.Item{Name: "Wet season", Value: "October to March: the wettest six months in a row by the monthly rain, with 61 % of the year's."}, work[0])
	assert.Equal(t, "April to May, next year", work[3].Name)
	assert.Equal(t, "Top up the compost: 25 to 50 mm a year keep it up (common practice, no source).", work[3].Value)
	assert.Equal(t, "Bed 2 and Bed 3: let the edges in, firm the ground back against both sides, and drive the pegs.", w.WorkShort(a)[1].Value)
	assert.Contains(t, strings.Join(w.Decision(a), "\n"), "Build before October, when the wet season begins, and cover the beds")
	assert.Equal(t, [][]string{
		{"Bed 1", "2 sheets", "3 layers", "couch grass", "12 months (6 to 18)", "September, next year"},
		{"Bed 2", "1 sheet", "none", "none", "none", "none"},
	}, words.CoverRows(a))

	feet := words.Words{Units: geodata.FeetAndInch}
	for _, it := range append(append(feet.Work(a), feet.WeedsMet(a)...), feet.WetGround(a)...) {
		assert.NotRegexp(t, `\d ?(mm|m|m²|kg)\b`, it.Value)
	}
	none := &siting.Assessment{}
	assert.Nil(t, w.Work(none))
	assert.NotContains(t, strings.Join(w.Decision(none), "\n"), "Build before")
}

// What is told of things to come keeps its units in both systems.
func TestToComeInWords(t *testing.T) {
	a := sitingtest.Sloping()
	a.ToCome = []siting.ToCome{{What: "tree", Said: "tree, 6.0 m high and 4.2 m wide: on 259 m² (232 to 280 m²) of the plot"}}
	last := func(w words.Words) string {
		items := w.LightSaid(a)
		require.NotEmpty(t, items)
		return items[len(items)-1].Value
	}
	a.Light.Reason = "no latitude is given"
	assert.Equal(t, "Tree, 6.0 m high and 4.2 m wide: on 259 m² (232 to 280 m²) of the plot.", last(words.Words{}))
	assert.NotRegexp(t, `\d ?(m|m²)\b`, last(words.Words{Units: geodata.FeetAndInch}))
}
