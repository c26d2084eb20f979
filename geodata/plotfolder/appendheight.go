package plotfolder

import (
	"errors"
	"fmt"
	"math"
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
	if !info.IsDir() {
		return path, nil
	}
	file := filepath.Join(path, heightsStem+".csv")
	if _, err := os.Stat(file); err != nil {
		return "", fmt.Errorf("readings are added to heights.csv, and the folder %s has none: make one with the header name,x,y,z", filepath.Base(path))
	}
	return file, nil
}

// ReadSite reads site.toml of a plot folder alone, before there are any heights;
// the zero Site for a folder without one, or for a file. The error is a
// geodata.Faults.
func ReadSite(path string) (geodata.Site, error) {
	var c, elsewhere collector
	info, err := os.Stat(path)
	if err != nil || !info.IsDir() {
		return geodata.Site{}, nil
	}
	in := load(path, Options{MostBytes: geodata.MostFileBytes}, &elsewhere)
	if in.site == nil {
		return geodata.Site{}, nil
	}
	site := readSite(in.site, &c)
	return site, c.err()
}

// CheckAppend tells whether AppendHeight can add to a file of heights: nil, or an
// error that wraps ErrColumns.
func CheckAppend(path string, site geodata.Site) error {
	_, _, err := columnsAt(path, site)
	return err
}

// AppendHeight appends one reading to a CSV file of heights, in the order, the
// units and with the delimiter of its header, and flushes it to disk. A column
// that the reading does not fill stays empty. The error wraps ErrColumns when
// the file's columns do not allow it.
func AppendHeight(path string, site geodata.Site, r NewReading) error {
	t, cols, err := columnsAt(path, site)
	if err != nil {
		return err
	}
	cells := cols.cells(r, t.Commas == csvtable.CommaDecimal)
	if err := checkRowLength(filepath.Base(path), strings.TrimSuffix(rowText(t.Delimiter, cells), "\n")); err != nil {
		return err
	}
	return AppendRow(path, t.Delimiter, cells)
}

// columnsAt reads the header of a file that a reading is to be put under.
func columnsAt(path string, site geodata.Site) (*csvtable.Table, columns, error) {
	name := filepath.Base(path)
	data, err := readAtMost(path, geodata.MostFileBytes)
	if err != nil {
		return nil, columns{}, fmt.Errorf("append to %s: %s", name, reason(err))
	}
	return appendColumns(name, data, site, xCol, yCol, zCol)
}

// appendColumns reads the header that a reading is to be put under, which must
// have the columns that are needed.
func appendColumns(name string, data []byte, site geodata.Site, needed ...role) (*csvtable.Table, columns, error) {
	t, _ := csvtable.Read(name, data)
	if t == nil || t.Header == nil {
		return nil, columns{}, fmt.Errorf("append to %s: there is no header row, write name,x,y,z at its top: %w", name, ErrColumns)
	}
	if len(t.Rows) >= geodata.MostHeights { // one more, and none of them would be read
		return nil, columns{}, geodata.Faults{{
			Code: "too-many-heights", Pos: geodata.Pos{File: name},
			Message: fmt.Sprintf("the file has %d heights, as many as are read", len(t.Rows)), Want: "thin them out before more are added",
		}}
	}
	var c collector
	cols, ok := columnsOf(t, []role{nameCol, xCol, yCol, zCol, noteCol, sigmaCol, sideCol}, bareUnit(site), &c)
	ok = cols.need(t, "", needed, &c) && ok
	switch {
	case cols.lonLat:
		return nil, columns{}, fmt.Errorf("append to %s: its places are longitude and latitude, and readings are keyed in by x and y: %w", name, ErrColumns)
	case !ok:
		var words []string
		for _, r := range needed {
			words = append(words, synonyms[r][0])
		}
		return nil, columns{}, fmt.Errorf("append to %s: the columns %s are needed: %w", name, strings.Join(words, ", "), ErrColumns)
	}
	return t, cols, nil
}

// cells are a reading's cells in the order of the header; a length that is not a
// number is left empty.
func (cols *columns) cells(r NewReading, decimalComma bool) []string {
	out := make([]string, cols.count)
	put := func(which role, text string) {
		if at := cols.of[which].at; at >= 0 {
			out[at] = text
		}
	}
	length := func(which role, metres float64) {
		if !math.IsNaN(metres) {
			put(which, lengthText(metres, cols.of[which].unit, decimalComma))
		}
	}
	put(nameCol, r.Name)
	put(noteCol, r.Note)
	length(xCol, r.X)
	length(yCol, r.Y)
	length(zCol, r.Z)
	return out
}

// lengthText writes a length given in metres in a unit, to four decimals.
func lengthText(metres float64, unit geodata.Unit, decimalComma bool) string {
	text := strconv.FormatFloat(metres/float64(unit), 'f', 4, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		text = "0"
	}
	if decimalComma {
		text = strings.Replace(text, ".", ",", 1)
	}
	return text
}
