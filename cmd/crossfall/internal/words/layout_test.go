package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
)

func TestLayoutSaid(t *testing.T) {
	w := words.Words{Units: geodata.FeetAndInch}
	assert.Nil(t, w.LayoutSaid(&siting.Assessment{}))
	marks := 63.6
	a := &siting.Assessment{
		Beds: []siting.Bed{{Name: "bed 1", Marks: &marks}, {Name: "mine"}},
		Layout: &siting.Layout{
			Placed: 1, Score: 60.62, Bound: 61.01,
			Said:     []string{"1 of 2 beds fit: most other places are stopped by the hedge", "1 bed in 1 row of one direction: best of its kind, proved"},
			InTheWay: []siting.Hindrance{{Why: "the hedge", Share: 0.614}, {Why: "the shed", Share: 0.004}},
		},
	}
	said := w.LayoutSaid(a)
	require.Len(t, said, 4)
	assert.Equal(t, words.Item{Name: "Layout", Value: "1 of 2 beds fit: most other places are stopped by the hedge. 1 bed in 1 row of one direction: best of its kind, proved."}, said[0])
	assert.Equal(t, words.Item{Name: "Score", Value: "60.6 marks, of at most 61.1"}, said[1], "an upper limit is rounded up")
	assert.Equal(t, words.Item{Name: "Marks of 100", Value: "bed 1 64"}, said[2])
	assert.Equal(t, words.Item{Name: "In the way", Value: "The hedge, 61 % of the places looked at; the shed, under 1 % of the places looked at."}, said[3])
}
