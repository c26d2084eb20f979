package heightgrid

import (
	"bytes"
	"encoding/binary"
	"math"
)

// Limits on the records before the points. Defaults of ours.
const (
	mostRecords  = 1000
	mostLASBytes = 64 << 10 // a record's length is a 16-bit number
)

// reference reads the coordinate system from the records before the points:
// GeoTIFF keys, or well-known text, which comes first in LAS 1.4.
func (l *lasFile) reference(at int64, n int) (Reference, error) {
	var keys, doubles, text []byte
	for range min(n, mostRecords) {
		h, err := l.f.bytes(at, 54, "records before the points")
		if err != nil {
			return Reference{}, err
		}
		id, size := binary.LittleEndian.Uint16(h[18:]), int64(binary.LittleEndian.Uint16(h[20:]))
		owner, _, _ := bytes.Cut(h[2:18], []byte{0})
		at += 54
		if string(owner) == "LASF_Projection" && size <= mostLASBytes {
			b, err := l.f.bytes(at, size, "records before the points")
			if err != nil {
				return Reference{}, err
			}
			switch id {
			case tagGeoKeys:
				keys = b
			case tagGeoDoubles:
				doubles = b
			case 2112:
				text = b
			}
		}
		at += size
	}
	if len(text) > 0 {
		return parseProjection(string(text))
	}
	return parseGeoKeys(shorts(keys), floats(doubles)).reference()
}

func shorts(b []byte) []uint64 {
	out := make([]uint64, len(b)/2)
	for i := range out {
		out[i] = uint64(binary.LittleEndian.Uint16(b[2*i:]))
	}
	return out
}

func floats(b []byte) []float64 {
	out := make([]float64, len(b)/8)
	for i := range out {
		out[i] = math.Float64frombits(binary.LittleEndian.Uint64(b[8*i:]))
	}
	return out
}
