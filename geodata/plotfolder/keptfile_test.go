package plotfolder_test

import (
	"os"
	"path/filepath"
	"testing"

	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWriteKept(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, ".crossfall", "done.json")
	for _, text := range []string{"one", "two"} {
		require.NoError(t, plotfolder.WriteKept(path, []byte(text)))
		got, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, text, string(got))
	}
	before, err := os.ReadFile(path + ".before")
	require.NoError(t, err)
	assert.Equal(t, "one", string(before))
	require.Error(t, plotfolder.WriteKept(filepath.Join(dir, "none", "done.json"), nil), "only .crossfall is made")
}
