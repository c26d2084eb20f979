package erosion

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The cells of tables 4-1 to 4-3 of Agriculture Handbook 703 (1997) beyond the
// longest run that SlopeFactor tells apart: the plain formula, to the two decimals
// printed.
func TestPlainFormulaAgainstTheLongColumns(t *testing.T) {
	f, err := os.Open("testdata/slopefactor.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	rills := map[string]Rill{"low": LowRill, "moderate": ModerateRill, "high": HighRill}
	cells := 0
	for _, row := range rows[1:] {
		slope := number(row[1]) / 100
		sin := math.Sin(math.Atan(slope))
		for i, cell := range row[2:] {
			feet := number(rows[0][2+i])
			if feet <= 400 {
				continue
			}
			got := lengthFactor(sin, feet*0.3048, rills[row[0]]) * steepness(slope, sin)
			assert.InDelta(t, number(cell), got, .0051, "%s %s %% %g ft", row[0], row[1], feet)
			cells++
		}
	}
	assert.Equal(t, 3*19*3, cells)
}
