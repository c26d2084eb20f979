package plotfolder_test

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func fingerprint(t *testing.T, path string) string {
	t.Helper()
	print, err := plotfolder.Fingerprint(path)
	require.NoError(t, err)
	return print
}

// The fingerprint is the hash that its comment says, worked here from the
// definition.
func TestFingerprintIsTheHashOfNamesAndBytes(t *testing.T) {
	dir := folder(t, files{"site.toml": "units = \"m\"\n", "heights.csv": sound})
	words := ""
	for _, f := range [][2]string{{"heights.csv", sound}, {"site.toml", "units = \"m\"\n"}} {
		sum := sha256.Sum256([]byte(f[1]))
		words += fmt.Sprintf("%d:%s,32:%s,", len(f[0]), f[0], sum[:])
	}
	want := sha256.Sum256([]byte(words))
	assert.Equal(t, hex.EncodeToString(want[:]), fingerprint(t, dir))
}

func TestFingerprintChangesWithWhatReadLooksAt(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	seen := map[string]string{fingerprint(t, dir): "heights alone"}
	put := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
		print := fingerprint(t, dir)
		assert.Equal(t, print, fingerprint(t, dir), "the same twice")
		assert.NotContains(t, seen, print, name)
		seen[print] = name
	}
	for _, name := range []string{
		"levels.csv", "ties.csv", "features.csv", "plot.geojson", "rain.csv", "site.toml", "hillside.asc", "hillside.prj",
		"Heights.GPX", "hillside.gpkg",
	} {
		put(name, "a")
		put(name, "b")
	}
	before := fingerprint(t, dir)
	require.NoError(t, os.Remove(filepath.Join(dir, "levels.csv")))
	assert.NotEqual(t, before, fingerprint(t, dir), "one was taken away")
}

func TestFingerprintPassesOverTheRest(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	before := fingerprint(t, dir)
	require.NoError(t, os.MkdirAll(filepath.Join(dir, ".crossfall", "site.toml"), 0o700))
	for _, name := range []string{"heights.csv.before", "site.toml.before", "report.html", ".crossfall/readings.jsonl", ".crossfall-123"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("x"), 0o600))
	}
	assert.Equal(t, before, fingerprint(t, dir))
}

func TestFingerprintOfALargeFileIsItsSizeAndTime(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	path := filepath.Join(dir, "hillside.tif")
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, f.Truncate(100<<20)) // takes no room
	require.NoError(t, f.Close())
	before := fingerprint(t, dir)
	assert.Equal(t, before, fingerprint(t, dir))
	require.NoError(t, os.Chtimes(path, time.Time{}, time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)))
	assert.NotEqual(t, before, fingerprint(t, dir), "another time")
	before = fingerprint(t, dir)
	require.NoError(t, os.Truncate(path, 100<<20+1))
	require.NoError(t, os.Chtimes(path, time.Time{}, time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)))
	assert.NotEqual(t, before, fingerprint(t, dir), "another size")
}

func TestFingerprintOfOneFile(t *testing.T) {
	dir := folder(t, files{"a.csv": sound, "site.toml": "x"})
	path := filepath.Join(dir, "a.csv")
	before := fingerprint(t, path)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "site.toml"), []byte("y"), 0o600))
	assert.Equal(t, before, fingerprint(t, path), "what lies beside is not read")
	require.NoError(t, os.WriteFile(path, []byte(sound+"e,1,1,29\n"), 0o600))
	assert.NotEqual(t, before, fingerprint(t, path))
	_, err := plotfolder.Fingerprint(filepath.Join(dir, "none"))
	assert.ErrorContains(t, err, "look at none")
}

// Nothing that this package puts into a folder is told as a stray file.
func TestReadIsQuietAboutItsOwnFiles(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	quiet, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	require.NoError(t, os.Mkdir(filepath.Join(dir, ".crossfall"), 0o700))
	for _, name := range []string{
		"heights.csv.before", "levels.csv.before", "ties.csv.before", "features.csv.before", "plot.geojson.before",
		"rain.csv.before", "site.toml.before", "hillside.tif.before", ".crossfall/readings.jsonl", ".crossfall-123",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("x"), 0o600))
	}
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	assert.Equal(t, quiet, p)
}
