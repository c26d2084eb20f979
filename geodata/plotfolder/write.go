package plotfolder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// AppendRow appends one row to a table and flushes it to disk, so that what it
// returned for is there whatever happens next. The file must exist; a last line
// without its end gets one first, and line ends within a cell become blanks. A
// link is refused with ErrLink; other errors are the system's, with the file's
// name.
func AppendRow(path string, delimiter rune, cells []string) error {
	row := rowText(delimiter, cells)
	unlock, err := lockPlot(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer unlock()
	if info, err := os.Lstat(path); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		return fmt.Errorf("append to %s: %w", filepath.Base(path), ErrLink)
	}
	f, err := os.OpenFile(path, os.O_RDWR|os.O_APPEND, 0)
	if err != nil {
		return fmt.Errorf("append to %s: %w", filepath.Base(path), err)
	}
	err = appendRow(f, []byte(row))
	if err := errors.Join(err, f.Close()); err != nil {
		return fmt.Errorf("append to %s: %w", filepath.Base(path), err)
	}
	return nil
}

// rowText joins cells so that csvtable reads the same cells back.
func rowText(delimiter rune, cells []string) string {
	var b strings.Builder
	for i, c := range cells {
		if i > 0 {
			b.WriteRune(delimiter)
		}
		c = strings.TrimSpace(strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ").Replace(c))
		switch {
		case strings.ContainsRune(c, delimiter), strings.Contains(c, `"`),
			i == 0 && strings.HasPrefix(c, "#"), // it would be a comment
			c == "" && delimiter == ' ':         // it would be passed over
			c = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
		}
		b.WriteString(c)
	}
	return b.String() + "\n"
}

// errUTF16 is told instead of mixing two encodings in one file.
var errUTF16 = errors.New("it is in UTF-16: save it as UTF-8 first")

// appendRow writes a row behind a whole last line, or nothing of it.
func appendRow(f *os.File, row []byte) error {
	info, err := f.Stat()
	if err != nil {
		return err
	}
	size := info.Size()
	if size > 0 {
		ends := make([]byte, 3) // the first two bytes and the last
		_, errFirst := f.ReadAt(ends[:min(2, size)], 0)
		_, errLast := f.ReadAt(ends[2:], size-1)
		switch {
		case errFirst != nil || errLast != nil:
			return errors.Join(errFirst, errLast)
		case ends[0] == 0xff && ends[1] == 0xfe || ends[0] == 0xfe && ends[1] == 0xff:
			return errUTF16
		case ends[2] != '\n':
			row = append([]byte("\n"), row...)
		}
	}
	if _, err := f.Write(row); err != nil {
		return errors.Join(err, f.Truncate(size))
	}
	return f.Sync()
}

// ErrLink is the error for a file that is a link: what it points at may lie
// outside the folder and is left alone.
var ErrLink = errors.New("it is a link to another place and is not written through")
