package heightgrid_test

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAgainstGDAL has gdal_translate write one grid in every encoding that is
// read and compares the heights with what the grid was made of.
func TestAgainstGDAL(t *testing.T) {
	tool, err := exec.LookPath("gdal_translate")
	if err != nil {
		t.Skip("gdal_translate is not installed")
	}
	const cols, rows = 45, 38
	folder := t.TempDir()
	metres := func(c, r int) float64 { return math.Round(100*(40+10*math.Sin(float64(c)/7)+.3*float64(r))) / 100 }
	grid := func(name string, z func(c, r int) float64) string {
		var b strings.Builder
		fmt.Fprintf(&b, "ncols %d\nnrows %d\nxllcorner 169750\nyllcorner 12160\ncellsize 2\nNODATA_value 1\n", cols, rows)
		for i, v := range sampled(cols, rows, z) {
			fmt.Fprintf(&b, "%v%s", v, map[bool]string{true: "\n", false: " "}[i%cols == cols-1])
		}
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o600))
		return path
	}
	around := []string{"", "TILED=YES BLOCKXSIZE=16 BLOCKYSIZE=16", "BIGTIFF=YES", "ENDIANNESS=BIG", "BIGTIFF=YES ENDIANNESS=BIG TILED=YES BLOCKXSIZE=32 BLOCKYSIZE=16"}
	packed := []string{"", "COMPRESS=LZW PREDICTOR=2", "COMPRESS=DEFLATE PREDICTOR=3"}
	single := []string{"COMPRESS=LZW", "COMPRESS=DEFLATE", "COMPRESS=PACKBITS", "BLOCKYSIZE=1", "BLOCKYSIZE=7 COMPRESS=LZW PREDICTOR=3", "SPARSE_OK=TRUE"}
	wholes, decimals := grid("wholes.asc", sampleHeight), grid("metres.asc", metres)
	n := 0
	check := func(from, kind, way string, want []float64, options ...string) {
		n++
		to := filepath.Join(folder, fmt.Sprintf("%d.tif", n))
		args := append([]string{"-q", "-of", "GTiff", "-ot", kind, "-a_srs", "EPSG:27700"}, options...)
		for _, o := range strings.Fields(way) {
			args = append(args, "-co", o)
		}
		out, err := exec.CommandContext(t.Context(), tool, append(args, from, to)...).CombinedOutput()
		require.NoError(t, err, "%s: %s", way, out)
		file, err := os.ReadFile(to)
		require.NoError(t, err)
		r := readAll(t, file, way)
		sameHeights(t, want, north(r), kind, way)
		require.Equal(t, []any{orb.Point{169751, 12161}, 2.0, 27700}, []any{r.Origin, r.CellX, r.EPSG}, way)
	}
	// GDAL reads decimals of a text grid as 32-bit numbers.
	floats := sampled(cols, rows, func(c, r int) float64 { return float64(float32(metres(c, r))) })
	for _, way := range packed {
		for _, more := range around {
			check(decimals, "Float32", way+" "+more, floats)
		}
	}
	for _, way := range single {
		check(decimals, "Float32", way, floats)
	}
	check(decimals, "Float64", "COMPRESS=DEFLATE PREDICTOR=3", floats)
	check(decimals, "Float64", "COMPRESS=LZW PREDICTOR=3 ENDIANNESS=BIG", floats)
	for _, kind := range []string{"Byte", "UInt16", "Int16", "UInt32", "Int32", "Float32", "Float64"} {
		check(wholes, kind, "COMPRESS=DEFLATE PREDICTOR=2", sampled(cols, rows, sampleHeight))
		check(wholes, kind, "COMPRESS=LZW PREDICTOR=2 ENDIANNESS=BIG", sampled(cols, rows, sampleHeight))
	}
	for _, interleave := range []string{"BAND", "PIXEL COMPRESS=LZW PREDICTOR=2", "PIXEL COMPRESS=DEFLATE PREDICTOR=3"} {
		check(decimals, "Float32", "PHOTOMETRIC=MINISBLACK INTERLEAVE="+interleave, floats, "-b", "1", "-b", "1", "-b", "1", "-mo", "AREA_OR_POINT=Point")
	}
	centimetres := sampled(cols, rows, func(c, r int) float64 { return 2 + .01*sampleHeight(c, r) })
	check(wholes, "Int16", "COMPRESS=LZW", centimetres, "-a_scale", "0.01", "-a_offset", "2")
	assert.Equal(t, 41, n)
}
