package cli_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A reading that is whole is in the file; one that the answers end in the middle
// of is told as lost, not passed over.
func TestAReadingCutShortIsToldAsNotBooked(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plot")
	require.Equal(t, 0, run(t, "", "start", "--defaults", dir).code)
	r := run(t, "1.5\n2.5\n10.25\nr1\n\n3.5\n4.5\n10.50\n", "walk", dir, "--add")
	assert.Equal(t, 0, r.code, r.err)
	assert.Contains(t, r.err, "booked: r1")
	assert.Contains(t, r.err, "not booked: the answers ended before the reading was whole")
	assert.Contains(t, r.err, "Readings booked: 1.")
	data, err := os.ReadFile(filepath.Join(dir, "heights.csv"))
	require.NoError(t, err)
	assert.Contains(t, string(data), "10.25")
	assert.NotContains(t, string(data), "10.50")
}
