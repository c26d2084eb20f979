package plotfolder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"crossfall/geodata"
)

// loadFile reads one file whole, unless it is too large.
func loadFile(path string, opt Options, c *collector) *file {
	name := filepath.Base(path)
	most, want := opt.MostBytes, "give the part around the plot, or thin the heights out"
	switch strings.ToLower(name) {
	case siteFile:
		most, want = geodata.MostSiteBytes, "it holds wishes, one line each: see the example that crossfall start writes"
	case rainFile:
		want = "give the latest years, or the days in place of shorter times"
	}
	data, err := readAtMost(path, most)
	var large errTooLarge
	switch {
	case errors.As(err, &large):
		c.problem(geodata.Pos{File: name}, "file-too-large", large.size(), "the file is larger than "+bytesSaid(most), want)
		return nil
	case err != nil:
		c.problem(geodata.Pos{File: name}, "cannot-read", "", "the file cannot be read: "+reason(err), "")
		return nil
	}
	return &file{name: name, data: data}
}

// errTooLarge is the error for a file over its limit, with its size in bytes.
type errTooLarge int64

func (e errTooLarge) size() string  { return bytesSaid(int64(e)) }
func (e errTooLarge) Error() string { return "it is too large, " + e.size() }

// bytesSaid is a size in words, rounded down but for what is under a KiB.
func bytesSaid(n int64) string {
	switch {
	case n >= 1<<20:
		return fmt.Sprintf("%d MiB", n>>20)
	case n >= 1<<10:
		return fmt.Sprintf("%d KiB", n>>10)
	}
	return fmt.Sprintf("%d bytes", n)
}

// ReadKept reads a file that the program keeps beside a plot, such as a storm
// played, up to geodata.MostFileBytes. A pipe or a device, which might never
// end, is an error.
func ReadKept(path string) ([]byte, error) { return readAtMost(path, geodata.MostFileBytes) }

func readAtMost(path string, most int64) ([]byte, error) {
	f, size, err := openPlain(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if size > most { // told before memory is spent on it
		return nil, errTooLarge(size)
	}
	data, err := io.ReadAll(io.LimitReader(f, most+1)) // it may grow, or not know its size
	if err == nil && int64(len(data)) > most {
		err = errTooLarge(len(data))
	}
	return data, err
}

// openPlain opens a file that is one: opening a pipe would wait for its other
// end, and a device may have none.
func openPlain(path string) (f *os.File, size int64, err error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, 0, err
	case info.IsDir():
		return nil, 0, errors.New("it is a folder, not a file")
	case !info.Mode().IsRegular():
		return nil, 0, errors.New("it is a pipe or a device, not a file")
	}
	f, err = os.Open(path)
	return f, info.Size(), err
}

// reason is the system's own word for an error, without the path, which would
// differ from one working folder to another.
func reason(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return err.Error()
}
