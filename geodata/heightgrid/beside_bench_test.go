package heightgrid_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkBesideGDAL reads a grid whole in turn here, on both cores, and by
// gdal_translate, which writes the heights as bare numbers besides. gdal-ms is its
// time from start to end, ratio ours over that.
func BenchmarkBesideGDAL(b *testing.B) {
	const side = 4000
	packed := tiffSpec{class: 3, bits: 32, tile: 256, packing: 8, predictor: 3, cols: side, rows: side,
		tags: placed(0, 0, 1, britishGrid...), z: benchHeight}
	for _, c := range []struct {
		name string
		file []byte
	}{{"hill.tif", packed.write()}, {"hill.asc", textGrid(side, side)}} {
		b.Run(c.name+"/heights=4000x4000", func(b *testing.B) {
			translate, err := exec.LookPath("gdal_translate")
			if err != nil {
				b.Skip("gdal_translate (of the package gdal-bin) is not installed")
			}
			path := filepath.Join(b.TempDir(), c.name)
			require.NoError(b, os.WriteFile(path, c.file, 0o600))
			var theirs time.Duration
			for b.Loop() {
				src, err := open(c.file, "hill")
				require.NoError(b, err)
				_, err = src.All(b.Context())
				require.NoError(b, err)
				b.StopTimer()
				start := time.Now()
				said, err := exec.Command(translate, "-q", "-of", "ENVI", "--config", "GDAL_NUM_THREADS", "2", path, path+".bin").CombinedOutput()
				theirs += time.Since(start)
				require.NoError(b, err, string(said))
				b.StartTimer()
			}
			b.ReportMetric(theirs.Seconds()*1000/float64(b.N), "gdal-ms")
			b.ReportMetric(b.Elapsed().Seconds()/theirs.Seconds(), "ratio")
		})
	}
}
