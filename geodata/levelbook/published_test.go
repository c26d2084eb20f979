package levelbook_test

import (
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rode is the worked book of R. Rode, "Collimation method explained", with
// running distances left out.
const rode = `station,BS,IS,FS,RL
BM1,1.216,,,106.366
P1,,0.025,,
P2,,1.555,,
P3,1.386,,2.508,
P4,,3.625,,
P5,1.235,,1.196,
P6,3.655,,3.566,
P7,2.126,,0.506,
P8,,2.605,,
P9,,1.094,,
P10,1.125,,3.628,
P11,,1.394,,
BM2,,,0.484,105.263
`

// reduced reads and reduces a book that must have no problems.
func reduced(t *testing.T, text string, opt levelbook.Options) (levelbook.Reduction, geodata.Faults) {
	t.Helper()
	book, faults := levelbook.ReadLevels(strings.NewReader(text), "levels.csv", 0)
	require.Zero(t, faults.Problems(), "%v", faults)
	red, found := book.Reduce(opt)
	require.Zero(t, found.Problems(), "%v", found)
	for _, r := range red.Runs {
		for _, c := range r.Checks {
			assert.True(t, c.OK, "%+v", c)
		}
	}
	return red, append(faults, found...)
}

func codes(fs geodata.Faults) []string {
	var out []string
	for _, f := range fs {
		out = append(out, f.Code)
	}
	return out
}

func rawLevels(r levelbook.Run) (raw, adjusted []float64) {
	for _, l := range r.Levels[1:] {
		raw, adjusted = append(raw, l.Raw), append(adjusted, l.Level)
	}
	return raw, adjusted
}

func near(t *testing.T, want, got []float64, within float64) {
	t.Helper()
	require.Len(t, got, len(want))
	for i := range want {
		assert.InDelta(t, want[i], got[i], within, "value %d", i)
	}
}

func TestRodeHeightOfCollimation(t *testing.T) {
	red, _ := reduced(t, rode, levelbook.Options{DistributeAnyway: true})
	require.Len(t, red.Runs, 1)
	run := red.Runs[0]
	raw, adjusted := rawLevels(run)
	near(t, []float64{106.366 + 1.216 - 0.025, 106.027, 105.074, 103.957 - 1.000, 0, 0, 0, 0, 0, 0, 0, 0}[:3], raw[:3], 5e-4)
	t.Log(raw, adjusted, run.Sums, run.Sections)
}
