package plotfolder

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// BeforeSuffix is put behind a file's name for the version before.
const BeforeSuffix = ".before"

// AppendRow appends one row to a table and flushes it to disk, so that what it
// returned for is there whatever happens next. The file must exist; a last line
// without its end gets one first. The error is the system's, with the file's
// name.
func AppendRow(path string, delimiter rune, cells []string) error {
	var row bytes.Buffer
	w := csv.NewWriter(&row)
	w.Comma = delimiter
	if err := w.Write(cells); err != nil {
		return fmt.Errorf("append to %s: %w", filepath.Base(path), err)
	}
	w.Flush()
	f, err := os.OpenFile(path, os.O_RDWR|os.O_APPEND, 0)
	if err != nil {
		return fmt.Errorf("append to %s: %w", filepath.Base(path), err)
	}
	err = appendRow(f, row.Bytes())
	if err := errors.Join(err, f.Close()); err != nil {
		return fmt.Errorf("append to %s: %w", filepath.Base(path), err)
	}
	return nil
}

// appendRow writes a row behind a whole last line.
func appendRow(f *os.File, row []byte) error {
	info, err := f.Stat()
	if err != nil {
		return err
	}
	if size := info.Size(); size > 0 {
		last := make([]byte, 1)
		if _, err := f.ReadAt(last, size-1); err != nil {
			return err
		}
		if last[0] != '\n' {
			row = append([]byte("\n"), row...)
		}
	}
	if _, err := f.Write(row); err != nil {
		return err
	}
	return f.Sync()
}

// ErrLink is the error for a file that is a link: what it points at may lie
// outside the folder and is left alone.
var ErrLink = errors.New("it is a link to another place and is not written through")

// WriteAtomic writes a file so that a reader finds the old one or the new one
// whole, never a part: to a new file beside it, flushed, then renamed over it.
// The version before is kept beside it as NAME.before. A link is refused with
// ErrLink.
func WriteAtomic(path string, data []byte) error {
	if err := writeAtomic(path, data); err != nil {
		return fmt.Errorf("write %s: %w", filepath.Base(path), err)
	}
	return nil
}

func writeAtomic(path string, data []byte) error {
	info, err := os.Lstat(path)
	switch {
	case err == nil && info.Mode()&fs.ModeSymlink != 0:
		return ErrLink
	case err == nil:
		if err := keepBefore(path); err != nil {
			return err
		}
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	return replace(path, data)
}

// keepBefore copies the present version beside itself.
func keepBefore(path string) error {
	old, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	return replace(path+BeforeSuffix, old)
}

// replace writes a new file beside path and renames it over path.
func replace(path string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name()) // nothing half done is left
		}
	}()
	_, err = f.Write(data)
	if err = errors.Join(err, f.Chmod(0o644), f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
