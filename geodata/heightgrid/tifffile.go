package heightgrid

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
)

// Limits on the parts of a TIFF file that say what the picture is. Defaults of
// ours, far above what any program writes for one grid.
const (
	mostDirectories = 256     // pictures looked at
	mostEntries     = 4096    // entries of a directory
	mostTagBytes    = 1 << 20 // of one entry, but for the tables of blocks
)

// isTIFF knows a TIFF file, classic (42) or big (43), by the TIFF 6.0
// specification (Adobe, 1992), section 2, and the BigTIFF design (libtiff).
func isTIFF(head []byte) bool {
	for _, m := range []string{"II*\x00", "MM\x00*", "II+\x00", "MM\x00+"} {
		if bytes.HasPrefix(head, []byte(m)) {
			return true
		}
	}
	return false
}

// tiffFile is a file with its byte order and size of numbers.
type tiffFile struct {
	file
	order binary.ByteOrder
	big   bool
}

// field is an entry of a directory: numbers of one type at a place in the file.
type field struct {
	kind  uint16
	count uint64
	at    int64
}

// directory holds the entries of one picture by their tag.
type directory map[uint16]field

// kindSize is the number of bytes of a number of each type; 0 for types that
// are not known.
func kindSize(kind uint16) int64 {
	sizes := [...]int64{0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4, 0, 0, 8, 8, 8}
	if int(kind) >= len(sizes) {
		return 0
	}
	return sizes[kind]
}

// tiffStart reads the head of the file and gives the place of the first
// directory.
func tiffStart(f file) (t tiffFile, first int64, err error) {
	t = tiffFile{file: f, order: binary.LittleEndian}
	head, err := f.bytes(0, 8, "head")
	if err != nil {
		return t, 0, err
	}
	if head[0] == 'M' {
		t.order = binary.BigEndian
	}
	if t.order.Uint16(head[2:]) == 42 {
		return t, int64(t.order.Uint32(head[4:])), nil
	}
	t.big = true
	head, err = f.bytes(0, 16, "head")
	if err != nil {
		return t, 0, err
	}
	if t.order.Uint16(head[4:]) != 8 {
		return t, 0, refuse("tiff-damaged", "the head of the file is damaged", "download or copy the file again")
	}
	return t, place(t.order.Uint64(head[8:])), nil
}

// place makes an offset of one that may be too large for a file: those become
// negative, which no file holds.
func place(v uint64) int64 {
	if v > math.MaxInt64 {
		return -1
	}
	return int64(v)
}

// directoryAt reads the entries at a place and the place of the next directory,
// 0 after the last.
func (t tiffFile) directoryAt(at int64) (d directory, next int64, err error) {
	countBytes, entryBytes, nextBytes := int64(2), int64(12), int64(4)
	if t.big {
		countBytes, entryBytes, nextBytes = 8, 20, 8
	}
	b, err := t.bytes(at, countBytes, "directory")
	if err != nil {
		return nil, 0, err
	}
	n := uint64(t.order.Uint16(b))
	if t.big {
		n = t.order.Uint64(b)
	}
	if n == 0 || n > mostEntries {
		return nil, 0, refuse("tiff-damaged", fmt.Sprintf("a directory of the file claims %d entries", n), "download or copy the file again")
	}
	b, err = t.bytes(at+countBytes, int64(n)*entryBytes, "directory")
	if err != nil {
		return nil, 0, err
	}
	d = directory{}
	for i := range int64(n) {
		d.add(t, b[i*entryBytes:(i+1)*entryBytes], at+countBytes+i*entryBytes)
	}
	after := at + countBytes + int64(n)*entryBytes
	if !t.holds(after, nextBytes) { // the last number was left out: no further picture
		return d, 0, nil
	}
	b, err = t.bytes(after, nextBytes, "directory")
	if err != nil {
		return nil, 0, err
	}
	return d, t.offset(b), nil
}

// offset reads a place: 4 bytes, or 8 in a big file.
func (t tiffFile) offset(b []byte) int64 {
	if t.big {
		return place(t.order.Uint64(b))
	}
	return int64(t.order.Uint32(b))
}

// add puts in the entry b, which lies at a place in the file. The first of two
// entries with the same tag counts.
func (d directory) add(t tiffFile, b []byte, at int64) {
	tag := t.order.Uint16(b)
	if _, twice := d[tag]; twice {
		return
	}
	f := field{kind: t.order.Uint16(b[2:]), count: uint64(t.order.Uint32(b[4:]))}
	inline, room := int64(8), uint64(4)
	if t.big {
		f.count, inline, room = t.order.Uint64(b[4:]), 12, 8
	}
	size := uint64(kindSize(f.kind))
	f.at = at + inline
	if size == 0 || f.count > room/size {
		f.at = t.offset(b[inline:])
	}
	d[tag] = f
}

// raw reads the bytes of n numbers of a field, from the i-th on.
func (t tiffFile) raw(f field, i, n int64) ([]byte, error) {
	size := kindSize(f.kind)
	if size == 0 || i < 0 || n < 0 || uint64(i)+uint64(n) > f.count || f.count > uint64(t.size) {
		return nil, refuse("tiff-damaged", "an entry of the file's directory is damaged", "download or copy the file again")
	}
	return t.bytes(f.at+i*size, n*size, "directory's values")
}

// whole is the count of a field that is read at one go.
func (f field) whole() (int64, error) {
	if size := uint64(kindSize(f.kind)); size == 0 || f.count > mostTagBytes/size {
		return 0, refuse("tiff-damaged", fmt.Sprintf("an entry of the file's directory claims %d values", f.count), "download or copy the file again")
	}
	return int64(f.count), nil
}

// uints reads n whole numbers of a field, from the i-th on.
func (t tiffFile) uints(f field, i, n int64) ([]uint64, error) {
	b, err := t.raw(f, i, n)
	if err != nil {
		return nil, err
	}
	out := make([]uint64, n)
	for k := range out {
		switch f.kind {
		case 1, 2, 6, 7:
			out[k] = uint64(b[k])
		case 3, 8:
			out[k] = uint64(t.order.Uint16(b[2*k:]))
		case 4, 9, 13:
			out[k] = uint64(t.order.Uint32(b[4*k:]))
		case 16, 17, 18:
			out[k] = t.order.Uint64(b[8*k:])
		default:
			return nil, refuse("tiff-damaged", "an entry of the file's directory holds fractions where whole numbers belong", "download or copy the file again")
		}
	}
	return out, nil
}
