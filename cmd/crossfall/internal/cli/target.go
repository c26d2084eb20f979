package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"crossfall/geodata/plotfolder"
)

// checkTarget says whether a file may be written at path: its folder exists,
// and what stands there, if anything, is a plain file. Asked before long work,
// so that a slip of the pen does not cost the wait.
func checkTarget(path string) error {
	info, err := os.Lstat(path)
	switch {
	case err != nil: // nothing there, or not to be looked at: the folder tells
	case info.IsDir():
		return fmt.Errorf("cannot write %s: it is a folder; give the name of a file", path)
	case info.Mode()&fs.ModeSymlink != 0:
		return fmt.Errorf("cannot write %s: %w", path, plotfolder.ErrLink)
	case !info.Mode().IsRegular(): // renaming over a device would replace it
		return fmt.Errorf("cannot write %s: it is not a plain file", path)
	}
	return checkFolder(filepath.Dir(path), "cannot write "+path)
}

// checkFolder says whether dir is a folder that exists.
func checkFolder(dir, doing string) error {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: there is no folder %s; make it first", doing, dir)
	case err != nil:
		return fmt.Errorf("%s: %w", doing, err)
	case !info.IsDir():
		return fmt.Errorf("%s: %s is not a folder", doing, dir)
	}
	return nil
}
