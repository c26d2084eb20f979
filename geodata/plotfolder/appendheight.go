package plotfolder

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// ErrColumns is the error for a file of heights to which no row can be added:
// its header is not understood, or it gives longitude and latitude.
var ErrColumns = errors.New("a reading cannot be added to these columns")

// NewReading is one height as it is keyed in, in metres.
type NewReading struct {
	Name    string
	X, Y, Z float64
	Note    string
}

// HeightsFile is the CSV file of heights of a plot folder, or path itself when
// it is a file.
func HeightsFile(path string) (string, error) {
	info, err := os.Stat(path)
	if err != nil {
		return "", fmt.Errorf("find the heights of %s: %w", filepath.Base(path), err)
	}
	if info.IsDir() {
		path = filepath.Join(path, heightsStem+".csv")
	}
	if _, err := os.Stat(path); err != nil {
		return "", fmt.Errorf("find the heights of %s: %w", filepath.Base(path), err)
	}
	return path, nil
}

// AppendHeight appends one reading to a CSV file of heights, in the order, the
// units and with the delimiter of its header, and flushes it to disk. A column
// that the reading does not fill stays empty. The error wraps ErrColumns when
// the file's columns do not allow it.
func AppendHeight(path string, site geodata.Site, r NewReading) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return fmt.Errorf("append to %s: %w", filepath.Base(path), err)
	}
	t, _ := csvtable.Read(filepath.Base(path), data)
	if t == nil || t.Header == nil {
		return fmt.Errorf("append to %s: there is no header row: %w", filepath.Base(path), ErrColumns)
	}
	var c collector
	cols, ok := columnsOf(t, []role{nameCol, xCol, yCol, zCol, noteCol, sigmaCol, sideCol}, bareUnit(site), &c)
	if ok = cols.need(t, "", []role{xCol, yCol, zCol}, &c) && ok; !ok || cols.lonLat {
		return fmt.Errorf("append to %s: %w", filepath.Base(path), ErrColumns)
	}
	return AppendRow(path, t.Delimiter, cols.cells(r, t.Commas == csvtable.CommaDecimal))
}

// cells are a reading's cells in the order of the header.
func (cols *columns) cells(r NewReading, decimalComma bool) []string {
	out := make([]string, cols.count)
	put := func(which role, text string) {
		if at := cols.of[which].at; at >= 0 {
			out[at] = text
		}
	}
	length := func(which role, metres float64) {
		text := strconv.FormatFloat(metres/float64(cols.of[which].unit), 'f', 4, 64)
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
		if decimalComma {
			text = strings.Replace(text, ".", ",", 1)
		}
		put(which, text)
	}
	put(nameCol, r.Name)
	put(noteCol, r.Note)
	length(xCol, r.X)
	length(yCol, r.Y)
	length(zCol, r.Z)
	return out
}
