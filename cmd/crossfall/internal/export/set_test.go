package export_test

import (
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSet(t *testing.T) {
	for i, plot := range plots {
		units := []geodata.Units{geodata.Metric, geodata.FeetAndInch}[i%2]
		files, leftOut, err := export.Set(assessed(t, plot), export.Made{Units: units})
		require.NoError(t, err)
		assert.Len(t, files, len(export.Names())-1)
		require.Len(t, leftOut, 1)
		assert.Contains(t, leftOut[0], "waypoints.gpx was left out")
		for _, f := range files {
			assert.NotEmpty(t, f.Content, f.Name)
		}
	}
}

func TestSetIsTheSameBytes(t *testing.T) {
	a := onEarth(assessed(t, "hillside"))
	files, leftOut, err := export.Set(a, export.Made{Units: geodata.Metric})
	require.NoError(t, err)
	assert.Empty(t, leftOut)
	assert.Len(t, files, len(export.Names()))
	again, _, err := export.Set(a, export.Made{Units: geodata.Metric})
	require.NoError(t, err)
	assert.Equal(t, files, again)
}
