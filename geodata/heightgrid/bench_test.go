package heightgrid_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"crossfall/geodata/heightgrid"
)

// benchAll reads a whole file again and again; the rate is that of the bytes
// given.
func benchAll(b *testing.B, file []byte, counted int64) {
	b.SetBytes(counted)
	b.ReportAllocs()
	for b.Loop() {
		src, err := open(file, "hill")
		require.NoError(b, err)
		_, err = src.All(b.Context())
		require.NoError(b, err)
	}
}

func BenchmarkTextGrid(b *testing.B) {
	for _, side := range []int{1000, 4000} {
		b.Run(fmt.Sprintf("%dx%d", side, side), func(b *testing.B) {
			file := textGrid(side, side)
			benchAll(b, file, int64(len(file)))
		})
	}
}

// The rate is of heights as 4 bytes each, unpacked.
func BenchmarkGeoTIFFDeflatePredictor3(b *testing.B) {
	for _, side := range []int{1000, 4000} {
		b.Run(fmt.Sprintf("%dx%d", side, side), func(b *testing.B) {
			s := tiffSpec{class: 3, bits: 32, tile: 256, packing: 8, predictor: 3, cols: side, rows: side,
				tags: placed(0, 0, 1, britishGrid...), z: benchHeight}
			benchAll(b, s.write(), int64(4*side*side))
		})
	}
}

// benchHeight is rolling ground, rounded to centimetres.
func benchHeight(c, r int) float64 {
	x, y := float64(c%701), float64(r%577)
	return float64(int(5000+x*(701-x)*.02+y*(577-y)*.03)) / 100
}

func BenchmarkWindow500OfTiled10000(b *testing.B) {
	file := large(b)
	src, err := heightgrid.Open(bytes.NewReader(file), int64(len(file)), "large.tif")
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, err := src.Window(b.Context(), box(404_000, 104_000, 404_500, 104_500))
		require.NoError(b, err)
	}
}

func BenchmarkXYZ(b *testing.B) {
	for _, side := range []int{300, 1000} {
		b.Run(fmt.Sprintf("%dx%d", side, side), func(b *testing.B) {
			file := []byte(strings.Join(xyzLines(side, side), "\n"))
			benchAll(b, file, int64(len(file)))
		})
	}
}

func BenchmarkLAS(b *testing.B) {
	for _, n := range []int{10_000, 1_000_000} {
		b.Run(fmt.Sprintf("%d points", n), func(b *testing.B) {
			s := lasSample()
			s.points = make([]lasPoint, n)
			for i := range s.points {
				s.points[i] = lasPoint{x: int32(i % 1000), y: int32(i / 1000), z: 100, class: byte(1 + i%2)}
			}
			file := s.write()
			benchAll(b, file, int64(len(file)))
		})
	}
}
