package heightgrid

import (
	"bytes"
	"fmt"
	"io"
	"unicode/utf8"
)

// format is a kind of file that is read: how it is known by its first bytes,
// and how it is opened.
type format struct {
	knows func(head []byte) bool
	open  func(f file) (opened, error)
}

// formats are tried in this order.
func formats() []format {
	return []format{
		{isTIFF, openTIFF},
		{isLAS, openLAS},
		{isTextGrid, openTextGrid},
		{isText, openXYZ},
	}
}

// others are formats that come under the same names and are not read.
var others = []struct{ start, name, advice string }{
	{"DSAA", "a text grid of the DSAA kind", asTextGrid},
	{"DSBB", "a binary grid of the DSBB kind", asTextGrid},
	{"DSRB", "a binary grid of the DSRB kind", asTextGrid},
	{"CDF\x01", "a netCDF file", asTextGrid},
	{"CDF\x02", "a netCDF file", asTextGrid},
	{"CDF\x05", "a netCDF file", asTextGrid},
	{"\x89HDF", "a netCDF or HDF5 file", asTextGrid},
	{"SQLite format 3\x00", "a GeoPackage or another database", "turn it into a GeoTIFF, such as with: gdal_translate in.gpkg out.tif"},
	{"\x1f\x8b", "a file compressed with gzip", "unpack it first"},
	{"PK\x03\x04", "a zip archive", "unpack it first"},
	{"7z\xbc\xaf", "a 7z archive", "unpack it first"},
	{"\x89PNG", "a picture (PNG)", asTextGrid},
	{"\xff\xd8\xff", "a picture (JPEG)", asTextGrid},
}

const asTextGrid = "save the heights as a GeoTIFF or as a text grid with the lines ncols, nrows, xllcorner, yllcorner and cellsize on top"

// headBytes is how much of a file is looked at to know its kind.
const headBytes = 4096

// Open finds out what kind of file it is and reads what it says of itself.
// size is the number of bytes and name what messages call the file. Of a
// GeoTIFF or LAS file only the head is read, of a text grid its header; a list
// of x, y, z is read through once, for only all of it tells whether it is a
// grid. The reader must stay open as long as the Source is used.
//
// The error is geodata.Faults: format-not-read for a kind of file that is
// known but not read, format-not-known for any other, and those of the format.
func Open(r io.ReaderAt, size int64, name string) (*Source, error) {
	f := file{r, size}
	head, err := f.bytes(0, min(max(size, 0), headBytes), "first bytes")
	if err != nil {
		return nil, faultsOf(name, err)
	}
	if err := otherFormat(head); err != nil {
		return nil, faultsOf(name, err)
	}
	for _, kind := range formats() {
		if !kind.knows(head) {
			continue
		}
		o, err := kind.open(f)
		if err != nil {
			return nil, faultsOf(name, err)
		}
		return &Source{name: name, opened: o}, nil
	}
	return nil, faultsOf(name, refuse("format-not-known", "this is not a kind of height file that is known", asTextGrid))
}

// otherFormat names a kind of file that is not read.
func otherFormat(head []byte) error {
	if len(bytes.TrimSpace(head)) == 0 {
		return refuse("file-empty", "the file is empty", "")
	}
	for _, o := range others {
		if bytes.HasPrefix(head, []byte(o.start)) {
			return refuse("format-not-read", fmt.Sprintf("this is %s, which is not read", o.name), o.advice)
		}
	}
	if isTIFF(head) || isLAS(head) {
		return nil
	}
	if bytes.HasPrefix(head, []byte{0xff, 0xfe}) || bytes.HasPrefix(head, []byte{0xfe, 0xff}) {
		return refuse("format-not-read", "this is text in UTF-16, which is not read", "save it as plain text (UTF-8)")
	}
	if bytes.IndexByte(head, 0) >= 0 {
		return refuse("format-not-read", "this is a binary file of a kind that is not read", asTextGrid)
	}
	if w := firstWord(head); isGRASSKey(w) {
		return refuse("format-not-read", "this is a GRASS text grid (north:, south:, east:, west:), which is not read", asTextGrid)
	}
	return nil
}

// isGRASSKey tells whether a file's first word opens the header of a GRASS text
// grid.
func isGRASSKey(word string) bool {
	switch word {
	case "north:", "south:", "east:", "west:", "rows:", "cols:", "proj:", "zone:":
		return true
	}
	return false
}

// firstWord is the first word of a text in small letters.
func firstWord(head []byte) string {
	words := bytes.Fields(bytes.TrimPrefix(head, utf8BOM))
	if len(words) == 0 {
		return ""
	}
	return string(bytes.ToLower(words[0]))
}

// utf8BOM is the mark that some programs put before a text in UTF-8.
var utf8BOM = []byte("\uFEFF")

// isText tells whether the head may be text: the last character may be cut.
func isText(head []byte) bool {
	for i := 0; i < len(head); {
		r, n := utf8.DecodeRune(head[i:])
		control := r < ' ' && r != '\t' && r != '\n' && r != '\r' && r != '\f'
		if control {
			return false
		}
		i += n
	}
	return true
}
