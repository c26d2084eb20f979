package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// staged is a set of files written under passing names and renamed together
// at the end, so that none appears before all could be written.
type staged struct {
	temps, finals []string
}

// checkTarget says whether a file may be written at path: its folder exists,
// and what stands there, if anything, is a plain file. Asked before long work,
// so that a slip of the pen does not cost the wait.
func checkTarget(path string) error {
	info, err := os.Stat(path)
	switch {
	case err != nil: // nothing there, or not to be looked at: the folder tells
	case info.IsDir():
		return fmt.Errorf("cannot write %s: it is a folder; give the name of a file", path)
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

// add writes content beside path under a passing name.
func (s *staged) add(path string, content []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".crossfall-*")
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	s.temps = append(s.temps, f.Name())
	s.finals = append(s.finals, path)
	_, err = f.Write(content)
	if err == nil {
		err = f.Sync()
	}
	err = errors.Join(err, f.Close(), os.Chmod(f.Name(), 0o644))
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return nil
}

// commit gives the files their names.
func (s *staged) commit() error {
	for i, temp := range s.temps {
		if err := os.Rename(temp, s.finals[i]); err != nil {
			return fmt.Errorf("cannot write %s: %w", s.finals[i], err)
		}
	}
	s.temps, s.finals = nil, nil
	return nil
}

// discard removes what commit has not named; after commit it does nothing.
func (s *staged) discard() {
	for _, temp := range s.temps {
		_ = os.Remove(temp) // a passing file that is already gone is no loss
	}
}
