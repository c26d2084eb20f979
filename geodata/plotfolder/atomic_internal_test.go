package plotfolder

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// entries are the names in a folder.
func entries(t *testing.T, dir string) (out []string) {
	t.Helper()
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range list {
		out = append(out, e.Name())
	}
	return out
}

func textAt(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

func TestWriteAtomicKeepsTheVersionBefore(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "site.toml")
	require.NoError(t, writeAtomic(path, nil, []byte("one")))
	assert.Equal(t, []string{"site.toml"}, entries(t, dir), "there was none before")
	require.NoError(t, os.Chmod(path, 0o600))
	require.NoError(t, writeAtomic(path, []byte("one"), []byte("two")))
	require.NoError(t, writeAtomic(path, []byte("two"), []byte("three")))
	assert.Equal(t, "three", textAt(t, path))
	assert.Equal(t, "two", textAt(t, path+".before"))
	assert.Equal(t, []string{"site.toml", "site.toml.before"}, entries(t, dir))
	if runtime.GOOS != "windows" {
		info, err := os.Stat(path)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "the mode is kept")
	}
}

func TestWriteAtomicRefusesWhatItWasNotMadeFrom(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "site.toml")
	require.NoError(t, os.WriteFile(path, []byte("theirs"), 0o600))
	for _, was := range [][]byte{nil, []byte("mine"), []byte("their"), []byte("theirs, longer")} {
		assert.ErrorIs(t, writeAtomic(path, was, []byte("new")), ErrChanged, "%q", was)
		assert.ErrorIs(t, takeAway(path, was), ErrChanged, "%q", was)
	}
	assert.ErrorIs(t, writeAtomic(filepath.Join(dir, "gone"), []byte("was"), []byte("new")), ErrChanged)
	assert.Equal(t, "theirs", textAt(t, path))
	assert.Equal(t, []string{"site.toml"}, entries(t, dir))
}

func TestWriteAtomicLeavesLinksAlone(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real"), filepath.Join(dir, "link")
	require.NoError(t, os.WriteFile(real, []byte("x"), 0o600))
	require.NoError(t, os.Symlink(real, link))
	assert.ErrorIs(t, writeAtomic(link, []byte("x"), []byte("y")), ErrLink)
	assert.ErrorIs(t, takeAway(link, []byte("x")), ErrLink)
	assert.Equal(t, "x", textAt(t, real))
	assert.Equal(t, []string{"link", "real"}, entries(t, dir))
}

// Where the version before cannot be kept nothing is written.
func TestWriteAtomicIsWholeOrNot(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "site.toml")
	require.NoError(t, os.WriteFile(path, []byte("x"), 0o600))
	require.NoError(t, os.MkdirAll(filepath.Join(path+".before", "full"), 0o700))
	assert.ErrorContains(t, writeAtomic(path, []byte("x"), []byte("y")), "write site.toml")
	assert.Equal(t, "x", textAt(t, path))
	assert.Equal(t, []string{"site.toml", "site.toml.before"}, entries(t, dir), "no passing file is left")
	assert.Error(t, writeAtomic(filepath.Join(dir, "none", "a"), nil, []byte("y")), "a folder that is not there")
}

func TestTakeAwayKeepsTheVersionBefore(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "plot.geojson")
	require.NoError(t, os.WriteFile(path, []byte("x"), 0o600))
	require.NoError(t, takeAway(path, []byte("x")))
	assert.Equal(t, []string{"plot.geojson.before"}, entries(t, dir))
	assert.Equal(t, "x", textAt(t, path+".before"))
}
