package heightgrid

import (
	"encoding/binary"
	"slices"
)

// unpredict makes the values of one row out of the differences that were
// packed. The row is little-endian after it, whatever the file's order. spare
// is as long as the row when the predictor is 3.
func (im *image) unpredict(row, spare []byte) {
	if im.predictor == 3 {
		undoFloats(row, spare, im.sample.bytes, im.together, im.lowPlaneFirst)
		return
	}
	if im.t.order == binary.BigEndian {
		swap(row, im.sample.bytes)
	}
	if im.predictor == 2 {
		undoDifferences(row, im.sample.bytes, im.together)
	}
}

// swap turns the bytes of each value about.
func swap(row []byte, size int) {
	switch size {
	case 1:
	case 2:
		for i := 0; i+1 < len(row); i += 2 {
			row[i], row[i+1] = row[i+1], row[i]
		}
	default:
		for i := 0; i+size <= len(row); i += size {
			slices.Reverse(row[i : i+size])
		}
	}
}

// undoDifferences adds up the differences between each value and that stride
// values before, as words that wrap around: predictor 2 (TIFF 6.0, section 14),
// which programs use on the bits of floating values too.
func undoDifferences(row []byte, size, stride int) {
	le := binary.LittleEndian
	back := size * stride
	switch size {
	case 1:
		for i := back; i < len(row); i++ {
			row[i] += row[i-back]
		}
	case 2:
		for i := back; i+2 <= len(row); i += 2 {
			le.PutUint16(row[i:], le.Uint16(row[i:])+le.Uint16(row[i-back:]))
		}
	case 4:
		for i := back; i+4 <= len(row); i += 4 {
			le.PutUint32(row[i:], le.Uint32(row[i:])+le.Uint32(row[i-back:]))
		}
	case 8:
		for i := back; i+8 <= len(row); i += 8 {
			le.PutUint64(row[i:], le.Uint64(row[i:])+le.Uint64(row[i-back:]))
		}
	}
}

// undoFloats undoes predictor 3 (Adobe Photoshop TIFF technical note 3, 2005):
// the bytes of a row's values are sorted by significance, the most significant
// of all values first, and each byte is the difference to that stride bytes
// before. This order does not depend on the file's byte order.
// lowFirst is for files with the planes the wrong way round.
func undoFloats(row, spare []byte, size, stride int, lowFirst bool) {
	copy(spare, row)
	for i := stride; i < len(spare); i++ {
		spare[i] += spare[i-stride]
	}
	n := len(row) / size
	for plane := range size {
		from, to := spare[plane*n:(plane+1)*n], size-1-plane
		if lowFirst {
			to = plane
		}
		for i, b := range from {
			row[i*size+to] = b
		}
	}
}
