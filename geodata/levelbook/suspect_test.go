package levelbook_test

import (
	"strings"
	"testing"

	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Slips of every kind are found where they were made.
func TestSuspects(t *testing.T) {
	const sound = "station,back,fore,level\nA,%1,,10.000\nB,1.100,%2,\nA,,%3,\n"
	for _, c := range []struct{ name, one, two, three, kind, station string }{
		{"digits", "1.425", "1.000", "1.345", "digits", "A"},       // 1.245 was meant: 0.180 off
		{"sign", "1.245", "-1.000", "1.345", "inverted", "B"},      // 2 m off
		{"a metre", "2.245", "1.000", "1.345", "step", "A"},        // the largest reading
		{"a tenth", "1.345", "1.000", "1.345", "step", "A"},        // 0.1 m off
		{"no slip", "1.278", "1.000", "1.345", "largest", "A"},     // 33 mm off: no slip closes it
		{"exchanged", "1.000", "1.245", "1.345", "exchanged", "A"}, // 0.490 off
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.NewReplacer("%1", c.one, "%2", c.two, "%3", c.three).Replace(sound)
			red, _ := reduced(t, text, levelbook.Options{})
			s := red.Runs[0].Sections[0]
			require.NotEmpty(t, s.Suspects)
			kinds := map[string]bool{}
			for _, x := range s.Suspects {
				kinds[x.Kind+" "+x.Station] = true
				assert.NotEmpty(t, x.Words)
			}
			assert.True(t, kinds[c.kind+" "+c.station], "%v", s.Suspects)
		})
	}
}
