package plotfolder

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// beforeEnding is put behind the name of a file that was written anew to name
// the version before.
const beforeEnding = ".before"

// plainMode is the mode of a file that was not there before.
const plainMode = 0o644

// writeAtomic puts a file in place whole or not at all: it is written under a
// passing name beside its own, flushed, and renamed; the version before is kept
// as NAME.before. was is the content that the new one was made from, nil for a
// file that was not there: when another is found now the error is ErrChanged. A
// link is refused with ErrLink. Other errors are the system's, with the file's
// name; the file is then as it was.
func writeAtomic(path string, was, content []byte) error {
	wrong := func(err error) error { return fmt.Errorf("write %s: %w", filepath.Base(path), err) }
	mode, err := unchanged(path, was)
	if err != nil {
		return wrong(err)
	}
	temp, err := writePassing(path, content, mode)
	if err != nil {
		return wrong(err)
	}
	if was != nil {
		err = keepBefore(path, was, mode)
	}
	if err == nil { // another program may have appended meanwhile
		_, err = unchanged(path, was)
	}
	if err == nil {
		err = os.Rename(temp, path)
	}
	if err != nil {
		return wrong(errors.Join(err, os.Remove(temp)))
	}
	flushFolder(filepath.Dir(path))
	return nil
}

// takeAway takes a file away, keeping it as NAME.before. was and the errors are
// those of writeAtomic.
func takeAway(path string, was []byte) error {
	if _, err := unchanged(path, was); err != nil {
		return fmt.Errorf("take away %s: %w", filepath.Base(path), err)
	}
	if err := os.Rename(path, path+beforeEnding); err != nil {
		return fmt.Errorf("take away %s: %w", filepath.Base(path), err)
	}
	flushFolder(filepath.Dir(path))
	return nil
}

// unchanged checks that a file still is what it was, and gives its mode.
func unchanged(path string, was []byte) (fs.FileMode, error) {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && was == nil:
		return plainMode, nil
	case errors.Is(err, fs.ErrNotExist):
		return 0, ErrChanged
	case err != nil:
		return 0, err
	case info.Mode()&fs.ModeSymlink != 0:
		return 0, ErrLink
	case was == nil:
		return 0, ErrChanged
	}
	now, err := readAtMost(path, int64(len(was)))
	if errors.As(err, new(errTooLarge)) || err == nil && !bytes.Equal(now, was) {
		err = ErrChanged
	}
	return info.Mode().Perm(), err
}

// keepBefore keeps the content of a file under the name of the version before.
func keepBefore(path string, content []byte, mode fs.FileMode) error {
	temp, err := writePassing(path, content, mode)
	if err != nil {
		return err
	}
	if err := os.Rename(temp, path+beforeEnding); err != nil {
		return errors.Join(err, os.Remove(temp))
	}
	return nil
}

// writePassing writes and flushes a file under a passing name beside path.
func writePassing(path string, content []byte, mode fs.FileMode) (name string, err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".crossfall-*")
	if err != nil {
		return "", err
	}
	_, err = f.Write(content)
	if err == nil {
		err = f.Sync()
	}
	err = errors.Join(err, f.Close(), os.Chmod(f.Name(), mode))
	if err != nil {
		return "", errors.Join(err, os.Remove(f.Name()))
	}
	return f.Name(), nil
}

// flushFolder asks the system to flush the names in a folder. Some systems cannot
// (Windows has no such call): the file is in place all the same.
func flushFolder(dir string) {
	f, err := os.Open(dir)
	if err != nil {
		return
	}
	_ = f.Sync()
	_ = f.Close()
}
