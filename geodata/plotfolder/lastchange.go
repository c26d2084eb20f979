package plotfolder

import (
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// LastChange is when the files that Read looks at were last changed: the newest of
// their times of modification, in UTC; zero for a folder without any. A path that
// is a file stands for itself. The error is the system's, for a path that cannot
// be looked at.
func LastChange(path string) (time.Time, error) {
	info, err := os.Stat(path)
	if err != nil {
		return time.Time{}, fmt.Errorf("look at %s: %s", filepath.Base(path), reason(err))
	}
	if !info.IsDir() {
		return info.ModTime().UTC(), nil
	}
	entries, err := os.ReadDir(path)
	if err != nil {
		return time.Time{}, fmt.Errorf("look into %s: %s", filepath.Base(path), reason(err))
	}
	var newest time.Time
	for _, e := range entries {
		if e.IsDir() || !hasMeaning(e.Name()) {
			continue
		}
		if info, err := e.Info(); err == nil && info.ModTime().After(newest) {
			newest = info.ModTime()
		}
	}
	return newest.UTC(), nil
}
