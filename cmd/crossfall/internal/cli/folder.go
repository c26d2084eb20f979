package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"crossfall/geodata/plotfolder"
)

// file is one file to be written into a new plot folder.
type file struct {
	name    string
	content []byte
}

// checkNewFolder says whether dir can become a plot folder: it is empty, or it
// does not exist and its parent does. Names that begin with a dot do not count.
func checkNewFolder(dir string) error {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return checkFolder(filepath.Dir(filepath.Clean(dir)), "cannot make "+dir)
	}
	if err != nil {
		return fmt.Errorf("cannot use %s: it is not a folder that can be read", dir)
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") {
			return fmt.Errorf("%s is not empty (it holds %s): nothing was written; give a new or an empty folder", dir, e.Name())
		}
	}
	return nil
}

// writeFolder writes all the files into a new or empty folder, or none.
func writeFolder(dir string, files []file) (err error) {
	if err := checkNewFolder(dir); err != nil {
		return err
	}
	made := os.Mkdir(dir, 0o755)
	if made != nil && !errors.Is(made, fs.ErrExist) {
		return fmt.Errorf("cannot make %s: %w", dir, made)
	}
	defer func() {
		if err != nil && made == nil {
			_ = os.Remove(dir) // made for nothing; stays if anything is in it
		}
	}()
	var s plotfolder.Staged
	defer s.Discard()
	for _, f := range files {
		if err := s.Add(filepath.Join(dir, f.name), f.content); err != nil {
			return err
		}
	}
	return s.Commit()
}
