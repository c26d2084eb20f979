package plotfolder_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A report written into the folder is no input: it does not make the input newer.
func TestLastChangeIsThatOfTheInput(t *testing.T) {
	dir := t.TempDir()
	at := func(day int) time.Time { return time.Date(2026, time.March, day, 12, 0, 0, 0, time.UTC) }
	for name, day := range map[string]int{"heights.csv": 1, "site.toml": 3, "report.html": 9, "plan.svg": 9} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte("x"), 0o644))
		require.NoError(t, os.Chtimes(path, at(day), at(day)))
	}
	got, err := plotfolder.LastChange(dir)
	require.NoError(t, err)
	assert.Equal(t, at(3), got)
	got, err = plotfolder.LastChange(filepath.Join(dir, "heights.csv"))
	require.NoError(t, err)
	assert.Equal(t, at(1), got)
	got, err = plotfolder.LastChange(t.TempDir())
	require.NoError(t, err)
	assert.True(t, got.IsZero())
	_, err = plotfolder.LastChange(filepath.Join(dir, "no"))
	assert.ErrorContains(t, err, "no")
}
