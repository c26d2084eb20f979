package plotfolder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"crossfall/geodata"
)

// errNoFolder is told where readings are to be booked into a file alone.
var errNoFolder = errors.New("readings with an id are booked into a plot folder, and this is none")

// aim is one reading on its way into a table.
type aim struct {
	dir    string
	id     string
	file   string                               // name of the table
	header string                               // of a table that is made for it; without a line end
	row    func(table []byte) (string, error)   // the row, or two, as the table has them
	check  func(whole []byte, fault *collector) // tells what is wrong with the table once the row is in it
}

// book appends a row for an id once, whatever is sent again after a crash at any
// point. First the journal gets what will be written and where, then the table
// the row, then the journal that it is there, each flushed before the next. What
// an earlier booking left unfinished is settled first.
func (a aim) book() (again bool, err error) {
	if a.id == "" {
		return false, errors.New("a reading needs an id")
	}
	if info, err := os.Stat(a.dir); err != nil || !info.IsDir() {
		return false, errNoFolder
	}
	unlock, err := lockPlot(a.dir)
	if err != nil {
		return false, err
	}
	defer unlock()
	j, err := openJournal(a.dir)
	if err != nil {
		return false, err
	}
	if err := j.settle(); err != nil {
		return false, err
	}
	if j.byID[a.id] != nil {
		return true, nil
	}
	path := filepath.Join(a.dir, a.file)
	if err := makeTable(path, a.header); err != nil {
		return false, err
	}
	return false, a.enter(j, path)
}

// enter books a row of which the journal knows nothing.
func (a aim) enter(j *journal, path string) error {
	data, err := readAtMost(path, geodata.MostFileBytes)
	if err != nil {
		return fmt.Errorf("append to %s: %s", a.file, reason(err))
	}
	if isUTF16(data) {
		return fmt.Errorf("append to %s: %w", a.file, errUTF16)
	}
	row, err := a.row(data)
	if err != nil {
		return err
	}
	if err := checkRowLength(a.file, row); err != nil {
		return err
	}
	text := row + "\n"
	if len(data) > 0 && data[len(data)-1] != '\n' {
		text = "\n" + text
	}
	whole := append(data[:len(data):len(data)], text...)
	var c collector
	a.check(whole, &c)
	if err := c.err(); err != nil {
		return err
	}
	offset := int64(len(whole) - len(row) - 1)
	if err := j.append(record{ID: a.id, File: a.file, Offset: offset, Row: row}); err != nil {
		return err
	}
	if err := appendText(path, int64(len(data)), text); err != nil {
		return fmt.Errorf("append to %s: %s", a.file, reason(err))
	}
	return j.append(record{ID: a.id, Done: true})
}

// appendText writes behind the end of a file, or nothing of it, and flushes.
func appendText(path string, size int64, text string) error {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_APPEND, 0)
	if err != nil {
		return err
	}
	if _, err = f.WriteString(text); err != nil {
		err = errors.Join(err, f.Truncate(size))
	} else {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// isUTF16 tells whether a file begins as UTF-16 with a mark does.
func isUTF16(data []byte) bool {
	return len(data) > 1 && (data[0] == 0xff && data[1] == 0xfe || data[0] == 0xfe && data[1] == 0xff)
}

// makeTable makes a table with its header where there is none, or puts the header
// behind remarks that stand there alone. A link is refused.
func makeTable(path, header string) error {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return writeAtomic(path, nil, []byte(header+"\n"))
	case err == nil && info.Mode()&fs.ModeSymlink != 0:
		return fmt.Errorf("append to %s: %w", filepath.Base(path), ErrLink)
	}
	data, err := readAtMost(path, geodata.MostFileBytes)
	if err != nil {
		return fmt.Errorf("append to %s: %s", filepath.Base(path), reason(err))
	}
	for _, l := range linesOf(data) {
		if text := strings.TrimSpace(strings.TrimPrefix(l.text, "\ufeff")); text != "" && text[0] != '#' {
			return nil
		}
	}
	made := append(data[:len(data):len(data)], header+"\n"...)
	if len(data) > 0 && data[len(data)-1] != '\n' {
		made = append(data[:len(data):len(data)], "\n"+header+"\n"...)
	}
	return writeAtomic(path, data, made)
}

// tableNamed is the name of a table of a plot folder as it is called there,
// whatever its case.
func tableNamed(dir, name string) string {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return name
	}
	for _, e := range entries {
		if !e.IsDir() && strings.EqualFold(e.Name(), name) {
			return e.Name()
		}
	}
	return name
}

// unitWord is how a header names the unit of bare numbers.
func unitWord(site geodata.Site) string {
	if site.Units == string(geodata.FeetAndInch) {
		return "ft"
	}
	return "m"
}
