package erosion_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"crossfall/siting/erosion"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const foot = 0.3048

// Every cell of tables 4-1 to 4-3 of Agriculture Handbook 703 (1997), to the
// two decimals printed. Runs over 400 ft are those of the tables only; the
// factor stops there.
func TestSlopeFactorAgainstTheHandbooksTables(t *testing.T) {
	f, err := os.Open("testdata/slopefactor.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	rills := map[string]erosion.Rill{"low": erosion.LowRill, "moderate": erosion.ModerateRill, "high": erosion.HighRill}
	cells := 0
	for _, row := range rows[1:] {
		percent, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		for i, cell := range row[2:] {
			feet, err := strconv.ParseFloat(rows[0][2+i], 64)
			require.NoError(t, err)
			want, err := strconv.ParseFloat(cell, 64)
			require.NoError(t, err)
			if feet > 400 {
				continue
			}
			got, err := erosion.SlopeFactor(percent/100, feet*foot, rills[row[0]])
			require.NoError(t, err)
			assert.InDelta(t, want, got, .0051, "%s %s %% %g ft", row[0], row[1], feet)
			cells++
		}
	}
	assert.Equal(t, 3*19*14, cells)
}

// Worked by hand from the formulas of Agriculture Handbook 703: the plain ones above
// 15 ft (4.572 m), under it the rule of its tables, where L stays that of 15 ft.
func TestSlopeFactorWorkedByHand(t *testing.T) {
	for _, c := range []struct {
		percent, length float64
		rill            erosion.Rill
		want            float64
	}{
		{9, 22.13, erosion.ModerateRill, 1.005913},
		{10, 20, erosion.ModerateRill, 1.1118},
		{10, 20, erosion.LowRill, 1.1309},
		{10, 20, erosion.HighRill, 1.0935},
		{12, 50, erosion.ModerateRill, 2.3428},
		{12, 50, erosion.LowRill, 2.0389},
		{12, 50, erosion.HighRill, 2.6700},
		{5, 10, erosion.ModerateRill, 0.4140},
		{20, 30, erosion.ModerateRill, 3.3690},
		{15, 3.6, erosion.ModerateRill, 0.7445},
		{15, 1.2, erosion.ModerateRill, 0.5302},
		{8, 4, erosion.ModerateRill, 0.4168},
	} {
		got, err := erosion.SlopeFactor(c.percent/100, c.length, c.rill)
		require.NoError(t, err)
		assert.InDelta(t, c.want, got, 1e-4*math.Max(1, c.want), "%g %% %g m", c.percent, c.length)
	}
	short, _ := erosion.SlopeFactor(.08, 4, erosion.ModerateRill)
	end, _ := erosion.SlopeFactor(.08, 4.572, erosion.ModerateRill)
	assert.InDelta(t, end, short, 1e-12)
}

func TestSlopeFactorRefusesWhatIsBeyondTheTables(t *testing.T) {
	for _, c := range [][2]float64{{.61, 10}, {-.1, 10}, {.1, 0}, {.1, -1}, {math.NaN(), 10}, {.1, math.NaN()}, {.1, math.Inf(1)}} {
		_, err := erosion.SlopeFactor(c[0], c[1], erosion.ModerateRill)
		assert.ErrorIs(t, err, erosion.ErrRange, "%v", c)
	}
	far, err := erosion.SlopeFactor(.1, 500, erosion.ModerateRill)
	require.NoError(t, err)
	cap, err := erosion.SlopeFactor(.1, 400*foot, erosion.ModerateRill)
	require.NoError(t, err)
	assert.InDelta(t, cap, far, 1e-12, "a run counts to 122 m")
}
