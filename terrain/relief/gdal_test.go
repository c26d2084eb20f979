package relief_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/terrain/relief"
)

// Slope and facing of every node against the program of GDAL, where it is installed: Horn
// and Zevenbergen & Thorne, on the volcano and on a rough hillside with a hole in it.
func TestWholeGridsAgreeWithGDAL(t *testing.T) {
	gdaldem, err := exec.LookPath("gdaldem")
	if err != nil {
		t.Skip("gdaldem is not installed")
	}
	// GDAL adds heights up in float32; at 200 m that alone turns gentle ground by more than the
	// thousandth of a degree allowed here. So the ground is brought down to 0.
	rough := hillside(90, 70, 2)
	for i := range rough.Z {
		rough.Z[i] -= 200
	}
	rough.Z[3000] = float32(math.NaN())
	for name, r := range map[string]*relief.Raster{"volcano": rasterOf(t, readVolcano(t)), "hillside": rough} {
		for algorithm, method := range map[string]relief.Method{"Horn": relief.Horn, "ZevenbergenThorne": relief.ZevenbergenThorne} {
			t.Run(name+"/"+algorithm, func(t *testing.T) {
				folder := t.TempDir()
				grid := filepath.Join(folder, "ground.asc")
				require.NoError(t, os.WriteFile(grid, asciiGrid(r), 0o600))
				ours, err := relief.SlopesOf(context.Background(), r, relief.SlopeRowsOptions{Method: method})
				require.NoError(t, err)
				slope := runGDAL(t, gdaldem, r, "slope", algorithm, grid, folder)
				aspect := runGDAL(t, gdaldem, r, "aspect", algorithm, grid, folder)
				compareWithGDAL(t, r, ours, slope, aspect)
			})
		}
	}
}

// compareWithGDAL takes GDAL's slope and aspect in degrees; -9999 is nothing.
func compareWithGDAL(t *testing.T, r *relief.Raster, ours *relief.SlopeRaster, slope, aspect []float64) {
	t.Helper()
	const degrees = 180 / math.Pi
	var compared int
	for i, s := range slope {
		col, row := i%r.Cols, i/r.Cols
		if col == 0 || row == 0 || col == r.Cols-1 || row == r.Rows-1 {
			assert.Equal(t, -9999., s)
			assert.True(t, math.IsNaN(float64(ours.Fall[i])))
			continue
		}
		if math.IsNaN(float64(ours.Fall[i])) {
			continue // beside a missing height, where GDAL makes one up
		}
		compared++
		if got := math.Atan(float64(ours.Fall[i])) * degrees; math.Abs(got-s) > 1e-3 {
			t.Fatalf("node %d, %d: slope %v, GDAL %v", col, row, got, s)
		}
		if math.IsNaN(float64(ours.Facing[i])) {
			require.Equal(t, -9999., aspect[i], "level ground")
			continue
		}
		apart := math.Abs(float64(ours.Facing[i])*degrees - aspect[i])
		if min(apart, 360-apart) > 1e-3 {
			t.Fatalf("node %d, %d: facing %v, GDAL %v", col, row, float64(ours.Facing[i])*degrees, aspect[i])
		}
	}
	assert.GreaterOrEqual(t, compared, (r.Cols-2)*(r.Rows-2)-9)
}

// asciiGrid writes a raster as an ASCII grid with every digit that float32 keeps.
func asciiGrid(r *relief.Raster) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "ncols %d\nnrows %d\nxllcenter %v\nyllcenter %v\ncellsize %v\nNODATA_value -9999\n", r.Cols, r.Rows, r.Origin[0], r.Origin[1], r.Cell)
	for row := r.Rows - 1; row >= 0; row-- {
		for _, z := range r.Z[row*r.Cols : (row+1)*r.Cols] {
			if math.IsNaN(float64(z)) {
				z = -9999
			}
			b.WriteString(strconv.FormatFloat(float64(z), 'g', -1, 32) + " ")
		}
		b.WriteString("\n")
	}
	return b.Bytes()
}

// runGDAL gives GDAL's result row by row from the south.
func runGDAL(t *testing.T, gdaldem string, r *relief.Raster, what, algorithm, grid, folder string) []float64 {
	t.Helper()
	result := filepath.Join(folder, what+".asc")
	out, err := exec.Command(gdaldem, what, "-q", "-alg", algorithm, "-of", "AAIGrid", "-co", "SIGNIFICANT_DIGITS=12", grid, result).CombinedOutput()
	require.NoError(t, err, string(out))
	content, err := os.ReadFile(result)
	require.NoError(t, err)
	values := make([]float64, len(r.Z))
	row := r.Rows - 1
	for line := range strings.Lines(string(content)) {
		fields := strings.Fields(line)
		if len(fields) != r.Cols {
			continue // the heading
		}
		for col, f := range fields {
			values[row*r.Cols+col], err = strconv.ParseFloat(f, 64)
			require.NoError(t, err)
		}
		row--
	}
	require.Equal(t, -1, row, "rows read")
	return values
}
