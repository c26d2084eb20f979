package plotfolder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"crossfall/geodata"
)

// WriteKept puts a file in place whole, or not at all, and keeps what it held
// before beside it. The folder .crossfall is made where it is missing; any other
// must be there. A link is refused with ErrLink; other errors are the system's.
func WriteKept(path string, content []byte) error {
	if parent := filepath.Dir(path); filepath.Base(parent) == ownFolder {
		if err := os.Mkdir(parent, 0o755); err != nil && !errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("make the folder %s: %s", ownFolder, reason(err))
		}
	}
	was, err := readAtMost(path, geodata.MostFileBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		was = nil
	case err != nil:
		return fmt.Errorf("read %s: %s", filepath.Base(path), reason(err))
	}
	return writeAtomic(path, was, content)
}
