package words_test

import (
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting/sitingtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// 7.6296 m are 25 ft 0.378 in: 25 ft 3/8 in to an eighth. 3.6576 m are 12 ft.
func TestTape(t *testing.T) {
	for _, c := range []struct {
		m          float64
		metric, ft string
	}{
		{7.6296, "7.630 m", "25 ft 3/8 in"},
		{3.6576, "3.658 m", "12 ft"},
		{3.6575, "3.658 m", "12 ft"},
		{.05, "0.050 m", "2 in"},
		{0, "0.000 m", "0 in"},
		{-.3302, "-0.330 m", "-1 ft 1 in"},
	} {
		assert.Equal(t, c.metric, words.Words{}.Tape(c.m))
		assert.Equal(t, c.ft, words.Words{Units: geodata.FeetAndInch}.Tape(c.m))
	}
}

// text is all that a sheet says.
func text(parts []words.SheetPart) string {
	var b strings.Builder
	for _, p := range parts {
		b.WriteString(p.Title + "\n")
		for _, it := range p.Items {
			b.WriteString(it.Name + ": " + it.Value + "\n")
		}
		b.WriteString(strings.Join(p.Lines, "\n") + "\n")
		for _, r := range append([][]string{p.Heads}, p.Rows...) {
			b.WriteString(strings.Join(r, " | ") + "\n")
		}
		b.WriteString(strings.Join(p.Tasks, "\n") + "\n")
	}
	return b.String()
}

func TestSetOutSheet(t *testing.T) {
	a := sitingtest.Sloping()
	w := words.Words{}
	level := text(w.SetOutSheet(a, words.Taping{}))
	assert.Contains(t, level, "Hold the tape: level")
	assert.Contains(t, level, "0.000 m | 3.600 m | on it | 3.600 m ± 21 mm")
	assert.Contains(t, level, "Not set out: Bed 5: must not be built")
	assert.Contains(t, level, "STOP: Pegs of Bed 5")
	assert.Contains(t, level, "fall 60 mm | fall 72 mm")
	assert.Contains(t, level, "at the uphill left corner of Bed 1, its top 131 mm above the ground")
	assert.NotContains(t, level, "Every point")
	slope := text(w.SetOutSheet(a, words.Taping{Slope: true, Every: true}))
	assert.Contains(t, slope, "Hold the tape: on the slope")
	assert.Contains(t, slope, "3.603 m ± 21 mm")
	assert.Contains(t, slope, "1.205 m | 1.205 m | 3.798 m from the uphill left, 3.795 m from the uphill right | 3.797 m, both")
	assert.Contains(t, slope, "Every point of Bed 1, by two tapes; pegs along")
	feet := text(words.Words{Units: geodata.FeetAndInch}.SetOutSheet(a, words.Taping{Every: true}))
	assert.NotRegexp(t, `\d ?(mm|m)\b`, feet)
	for _, p := range w.SetOutSheet(a, words.Taping{Every: true}) {
		for _, r := range p.Rows {
			require.Len(t, r, len(p.Heads), p.Title)
		}
	}
}
