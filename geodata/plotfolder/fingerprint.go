package plotfolder

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// ErrChanged is the error for a change that was asked for after a look at the
// files, when they are no longer as they were then. Nothing was written.
var ErrChanged = errors.New("the files have changed since they were read")

// largeFile is the size, bytes, over which a file is told by its size and its
// time of modification alone.
const largeFile = 8 << 20

// Fingerprint is a name for the state of the files that Read looks at: the
// hexadecimal SHA-256 of their names and bytes, in order of their names; of a
// file over 8 MiB its size and time of modification stand for its bytes. It is
// another when any of them changes, comes or goes. A path that is a file stands
// for itself and the .prj file beside it. The error is the system's, for a path
// that cannot be looked at.
func Fingerprint(path string) (string, error) {
	info, err := os.Stat(path)
	if err != nil {
		return "", fmt.Errorf("look at %s: %s", filepath.Base(path), reason(err))
	}
	h := sha256.New()
	if !info.IsDir() {
		printFile(h, path)
		if projection := strings.TrimSuffix(path, filepath.Ext(path)) + ".prj"; projection != path {
			printFile(h, projection)
		}
		return hex.EncodeToString(h.Sum(nil)), nil
	}
	entries, err := os.ReadDir(path) // in order of their names
	if err != nil {
		return "", fmt.Errorf("look into %s: %s", filepath.Base(path), reason(err))
	}
	for _, e := range entries {
		if !e.IsDir() && hasMeaning(e.Name()) {
			printFile(h, filepath.Join(path, e.Name()))
		}
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// stems are the names, without what follows the first point, of the files of a
// plot folder that have a meaning.
var stems = []string{heightsStem, "hillside", "plot", "features", "levels", "ties", "rain", "site"}

// hasMeaning tells whether Read would look at a file of this name, be it only to
// say that it is not read.
func hasMeaning(name string) bool {
	stem, ending, _ := strings.Cut(strings.ToLower(name), ".")
	return slices.Contains(stems, stem) && !strings.HasSuffix("."+ending, beforeEnding)
}

// printFile puts one file into a fingerprint. What cannot be read is put in as
// such: Read tells why.
func printFile(h hash.Hash, path string) {
	part := func(words string) { fmt.Fprintf(h, "%d:%s,", len(words), words) }
	info, err := os.Stat(path)
	if errors.Is(err, os.ErrNotExist) {
		return
	}
	part(filepath.Base(path))
	switch {
	case err != nil:
		part("unread: " + reason(err))
		return
	case !info.Mode().IsRegular():
		part("unread: it is not a file")
		return
	case info.Size() > largeFile:
		part(fmt.Sprintf("%d bytes of %d", info.Size(), info.ModTime().UnixNano()))
		return
	}
	f, err := os.Open(path)
	if err != nil {
		part("unread: " + reason(err))
		return
	}
	defer f.Close()
	content := sha256.New()
	if _, err := io.Copy(content, f); err != nil {
		part("unread: " + reason(err))
		return
	}
	part(string(content.Sum(nil)))
}
