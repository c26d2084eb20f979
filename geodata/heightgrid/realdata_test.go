package heightgrid_test

import (
	"encoding/csv"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata/heightgrid"
	"crossfall/geodata/internal/realdata"
)

// lowHighMean are the extremes and the mean of the heights.
func lowHighMean(r *heightgrid.Raster) (low, high, mean float64, n int) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, z := range r.Z {
		if !math.IsNaN(z) {
			low, high, mean, n = min(low, z), max(high, z), mean+z, n+1
		}
	}
	return low, high, mean / float64(n), n
}

// The encodings of one window of the Cornwall ground model, written by GDAL
// 3.6.2, with the extremes and mean that GDAL gives.
func TestEncodingsOfRealGround(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(string(realdata.Bytes(t, "formats/index.csv")))).ReadAll()
	require.NoError(t, err)
	seen := 0
	for _, row := range rows {
		name := row[0]
		if filepath.Ext(name) != ".tif" {
			continue
		}
		seen++
		t.Run(name, func(t *testing.T) {
			file := realdata.Bytes(t, "formats/"+name)
			if strings.Contains(name, "lerc") || strings.Contains(name, "zstd") {
				f := faultOf(t, file)
				assert.Equal(t, []string{"tiff-compression"}, codes(f))
				return
			}
			r := readAll(t, file, name)
			low, high, mean, n := lowHighMean(r)
			assert.Equal(t, 27700, r.EPSG)
			switch name {
			case "cog_f32_deflate.tif":
				assert.Equal(t, []any{200, 200, orb.Point{169650.5, 12100.5}}, []any{r.Cols, r.Rows, r.Origin})
				return
			case "f32_nodata_hole.tif":
				assert.Equal(t, []int{1560, 40}, []int{n, r.Missing})
				for i, z := range north(r) {
					row, col := i/40+1, i%40+1
					assert.Equal(t, row >= 6 && row <= 9 && col >= 11 && col <= 20, math.IsNaN(z))
				}
				return
			}
			assert.Equal(t, []any{40, 40, 1.0, 1600, orb.Point{169750.5, 12160.5}}, []any{r.Cols, r.Rows, r.CellX, n, r.Origin})
			assert.InDelta(t, 52.76, low, 1e-5)
			assert.InDelta(t, 54.90, high, 1e-5)
			assert.InDelta(t, 53.821894, mean, 1e-6)
		})
	}
	assert.Equal(t, 17, seen, "grids in the index")
}

func TestRealGroundInAllFormatsIsTheSame(t *testing.T) {
	tiff := readAll(t, realdata.Bytes(t, "cornwall_dtm_1m_200x200.tif"), "cornwall.tif")
	text := readAll(t, realdata.Bytes(t, "cornwall_dtm_1m_200x200.asc"), "cornwall.asc")
	assert.Equal(t, tiff.Origin, text.Origin)
	for i, z := range tiff.Z {
		require.InDelta(t, z, text.Z[i], .00501)
	}
	src, err := open(realdata.Bytes(t, "cornwall_dtm_1m_200x200.tif"), "cornwall.tif")
	require.NoError(t, err)
	part, err := src.Window(t.Context(), box(169750, 12160, 169790, 12200))
	require.NoError(t, err)
	xyz := readAll(t, realdata.Bytes(t, "cornwall_dtm_1m_40x40.xyz"), "cornwall.xyz")
	assert.Equal(t, part.Origin, xyz.Origin)
	for i, z := range part.Z {
		require.InDelta(t, z, xyz.Z[i], 1e-9)
	}
}

func TestRealProjectionFile(t *testing.T) {
	src, err := open(realdata.Bytes(t, "cornwall_dtm_1m_200x200.asc"), "cornwall.asc")
	require.NoError(t, err)
	require.NoError(t, src.ReadProjection(string(realdata.Bytes(t, "cornwall_dtm_1m_200x200.prj"))))
	assert.Equal(t, heightgrid.Reference{Unit: 1}, src.Info().Reference)
}

// The elevations of Luxembourg (R package terra) are in degrees; GDAL gives 141
// to 547 m.
func TestRealGridInDegrees(t *testing.T) {
	r := readAll(t, realdata.Bytes(t, "luxembourg_elev_lonlat_int16.tif"), "luxembourg.tif")
	low, high, _, _ := lowHighMean(r)
	assert.Equal(t, []float64{141, 547}, []float64{low, high})
	assert.True(t, r.Geographic && !r.Guessed)
	assert.Equal(t, 4326, r.EPSG)
	assert.True(t, slices.Contains(codes(r.Notes), "grid-in-degrees"))
	assert.InDelta(t, 1./120, r.CellX, 1e-12)
	assert.InDelta(t, 50.1916667-.5/120, r.Origin[1]+89*r.CellY, 1e-7)
}
