// Package realdata finds the files of real ground that tests read from a folder
// of the tester's own.
package realdata

import (
	"os"
	"path/filepath"
	"testing"
)

// Path is a file or pattern in the folder that CROSSFALL_DATA names. The test is
// skipped without one.
func Path(t testing.TB, parts ...string) string {
	t.Helper()
	folder := os.Getenv("CROSSFALL_DATA")
	if folder == "" {
		t.Skip("set CROSSFALL_DATA to the folder of real data to run this test")
	}
	return filepath.Join(append([]string{folder}, parts...)...)
}

// Bytes reads a file of that folder.
func Bytes(t testing.TB, parts ...string) []byte {
	t.Helper()
	b, err := os.ReadFile(Path(t, parts...))
	if err != nil {
		t.Fatal(err)
	}
	return b
}
