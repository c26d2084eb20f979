package relief_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"crossfall/terrain/relief"
)

// BenchmarkBesideGDAL does one thing in turn here, on one core and in memory, and by a
// program of GDAL, which reads a plain file and writes another. gdal-ms is its time from
// start to end, ratio ours over that.
func BenchmarkBesideGDAL(b *testing.B) {
	const n = 4000
	r := hillside(n, n, 1)
	g := gridOfRaster(r)
	flat := relief.SlopeRowsOptions{Method: relief.Horn, Want: relief.FallOnly, Workers: 1}
	dst, err := relief.SlopesOf(context.Background(), r, flat)
	require.NoError(b, err)
	grid := plainGrid(b, r)
	for _, c := range []struct {
		name, program string
		args          []string
		ours          func() error
	}{
		{"slope", "gdaldem", []string{"slope", "-q", "-alg", "Horn", grid, filepath.Join(b.TempDir(), "slope.tif")},
			func() error { return relief.SlopeRows(context.Background(), r, dst, flat) }},
		{"contours=5m", "gdal_contour", []string{"-q", "-i", "5", "-f", "FlatGeobuf", grid, filepath.Join(b.TempDir(), "lines.fgb")},
			func() error { _, err := relief.ContoursBy(g, relief.Levels(150, 320, 5), 1); return err }},
	} {
		b.Run(fmt.Sprintf("%s/nodes=%dx%d", c.name, n, n), func(b *testing.B) {
			program, err := exec.LookPath(c.program)
			if err != nil {
				b.Skip(c.program + " (of the package gdal-bin) is not installed")
			}
			var theirs time.Duration
			for b.Loop() {
				require.NoError(b, c.ours())
				b.StopTimer()
				_ = os.Remove(c.args[len(c.args)-1])
				start := time.Now()
				said, err := exec.Command(program, c.args...).CombinedOutput()
				theirs += time.Since(start)
				require.NoError(b, err, string(said))
				b.StartTimer()
			}
			b.ReportMetric(theirs.Seconds()*1000/float64(b.N), "gdal-ms")
			b.ReportMetric(b.Elapsed().Seconds()/theirs.Seconds(), "ratio")
		})
	}
}

// plainGrid writes a raster as rows of bare numbers with a header, from the north,
// which GDAL reads (an ENVI file).
func plainGrid(b *testing.B, r *relief.Raster) string {
	b.Helper()
	var rows bytes.Buffer
	for row := r.Rows - 1; row >= 0; row-- {
		require.NoError(b, binary.Write(&rows, binary.LittleEndian, r.Z[row*r.Cols:(row+1)*r.Cols]))
	}
	grid := filepath.Join(b.TempDir(), "ground.bin")
	require.NoError(b, os.WriteFile(grid, rows.Bytes(), 0o600))
	header := fmt.Sprintf("ENVI\nsamples = %d\nlines = %d\nbands = 1\ndata type = 4\nbyte order = 0\nmap info = {Arbitrary, 1, 1, 0, %d, 1, 1}\n", r.Cols, r.Rows, r.Rows)
	require.NoError(b, os.WriteFile(filepath.Join(filepath.Dir(grid), "ground.hdr"), []byte(header), 0o600))
	return grid
}
