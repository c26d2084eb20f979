package heightgrid_test

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkInflateAlone unpacks the blocks of the same files as
// BenchmarkGeoTIFFDeflatePredictor3 and does nothing else: the floor that the
// reading of such a file is held against.
func BenchmarkInflateAlone(b *testing.B) {
	for _, side := range []int{1000, 4000} {
		b.Run(fmt.Sprintf("%dx%d", side, side), func(b *testing.B) {
			s := tiffSpec{class: 3, bits: 32, tile: 256, packing: 8, predictor: 3, cols: side, rows: side,
				tags: placed(0, 0, 1, britishGrid...), z: benchHeight}
			blocks := packed(b, s.write())
			tiles := (side + 255) / 256
			require.Len(b, blocks, tiles*tiles)
			b.SetBytes(int64(4 * side * side))
			for b.Loop() {
				for _, block := range blocks {
					r, err := zlib.NewReader(bytes.NewReader(block))
					require.NoError(b, err)
					_, err = io.Copy(io.Discard, r)
					require.NoError(b, err)
				}
			}
		})
	}
}

// packed finds the zlib streams of a file: where a header's two bytes are and
// all that follows unpacks to a tile.
func packed(b *testing.B, file []byte) [][]byte {
	b.Helper()
	const tile = 256 * 256 * 4
	var out [][]byte
	for i := 0; i+1 < len(file); i++ {
		if file[i] != 0x78 || (int(file[i])<<8|int(file[i+1]))%31 != 0 {
			continue
		}
		rest := bytes.NewReader(file[i:])
		r, err := zlib.NewReader(rest)
		if err != nil {
			continue
		}
		if n, err := io.Copy(io.Discard, r); err != nil || n != tile {
			continue
		}
		used := len(file[i:]) - rest.Len()
		out = append(out, file[i:i+used])
		i += used - 1
	}
	return out
}
