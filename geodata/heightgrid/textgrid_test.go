package heightgrid_test

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
)

const header = "ncols 3\nnrows 2\nxllcorner 100\nyllcorner 50\ncellsize 2\n"

func TestTextGridHeaders(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		text   string
		origin orb.Point
		cell   [2]float64
		z      []float64 // from the north
	}{
		"five lines":         {header + "1 2 3\n4 5 6\n", orb.Point{101, 51}, [2]float64{2, 2}, []float64{1, 2, 3, 4, 5, 6}},
		"a mark for missing": {header + "NODATA_value -9999\n1 2 -9999\n4 5 6\n", orb.Point{101, 51}, [2]float64{2, 2}, []float64{1, 2, nan, 4, 5, 6}},
		"centres":            {"ncols 3\nnrows 2\nxllcenter 100\nyllcentre 50\ncellsize 2\n1 2 3 4 5 6", orb.Point{100, 50}, [2]float64{2, 2}, []float64{1, 2, 3, 4, 5, 6}},
		"any order, any case, seven lines": {"CELLSIZE 2\r\nNoData_Value 0\r\nYLLCORNER 50\r\nXLLCENTER 100\r\nNROWS 2\r\nNCOLS 3\r\nDX 4\r\n1 0 3\r\n4 5 6\r\n",
			orb.Point{100, 51}, [2]float64{2, 2}, []float64{1, nan, 3, 4, 5, 6}},
		"cells of two sizes":       {"ncols 3\nnrows 2\nxllcorner 100\nyllcorner 50\ndx 4\ndy 2\n1 2 3 4 5 6", orb.Point{102, 51}, [2]float64{4, 2}, []float64{1, 2, 3, 4, 5, 6}},
		"one height a line":        {header + "1\n2\n3\n4\n5\n6\n", orb.Point{101, 51}, [2]float64{2, 2}, []float64{1, 2, 3, 4, 5, 6}},
		"rows folded":              {header + "1 2\n3 4\n5 6\n", orb.Point{101, 51}, [2]float64{2, 2}, []float64{1, 2, 3, 4, 5, 6}},
		"first is missing":         {header + "nan null NaN\n4 -nan 1.#QNAN", orb.Point{101, 51}, [2]float64{2, 2}, []float64{nan, nan, nan, 4, nan, nan}},
		"mark is nan":              {header + "nodata_value nan\n1 2 nan 4 5 6", orb.Point{101, 51}, [2]float64{2, 2}, []float64{1, 2, nan, 4, 5, 6}},
		"commas":                   {strings.ReplaceAll(header, "100", "100,5") + "1,25 2 3 4 5 6,5", orb.Point{101.5, 51}, [2]float64{2, 2}, []float64{1.25, 2, 3, 4, 5, 6.5}},
		"exponents":                {header + "1e+02 2.5E1 3 -4e-1 5 6.", orb.Point{101, 51}, [2]float64{2, 2}, []float64{100, 25, 3, -.4, 5, 6}},
		"a mark of the encoding":   {"\uFEFF" + header + "1 2 3 4 5 6", orb.Point{101, 51}, [2]float64{2, 2}, []float64{1, 2, 3, 4, 5, 6}},
		"huge numbers are missing": {header + "1 2 -3.4028235e38 4 5 1e308", orb.Point{101, 51}, [2]float64{2, 2}, []float64{1, 2, nan, 4, 5, nan}},
	} {
		t.Run(name, func(t *testing.T) {
			r := readAll(t, []byte(c.text), "hill.asc")
			assert.Equal(t, c.origin, r.Origin)
			assert.Equal(t, c.cell, [2]float64{r.CellX, r.CellY})
			sameHeights(t, c.z, north(r))
			missing := 0
			for _, z := range c.z {
				if math.IsNaN(z) {
					missing++
				}
			}
			assert.Equal(t, missing, r.Missing)
			assert.Equal(t, name == "commas", hasCode(r.Notes, "grid-decimal-commas"))
		})
	}
}

func TestTextGridFaults(t *testing.T) {
	for name, c := range map[string]struct {
		text, code string
		line, col  int
		read       string
	}{
		"a word":                 {header + "1 2 3\n4 five 6\n", "grid-height-not-read", 7, 3, "five"},
		"a word for the first":   {header + "one 2 3\n4 5 6\n", "grid-header", 6, 1, "one"},
		"two points":             {header + "1 2 3\n4 5 1.2.3\n", "grid-height-not-read", 7, 5, "1.2.3"},
		"hexadecimal":            {header + "1 2 3\n4 5 0x1F\n", "grid-height-not-read", 7, 5, "0x1F"},
		"commas between":         {header + "1 2 3 4,5,6 1 1", "grid-height-not-read", 6, 7, "4,5,6"},
		"one too few":            {header + "1 2 3\n4 5\n", "grid-too-few-heights", 8, 1, ""},
		"one too many":           {header + "1 2 3\n4 5 6\n  7\n", "grid-too-many-heights", 8, 3, "7"},
		"far too few":            {strings.ReplaceAll(header, "ncols 3", "ncols 30000") + "1 2 3\n", "grid-too-few-heights", 2, 0, ""},
		"no rows":                {"ncols 3\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2 3", "grid-header", 1, 0, ""},
		"half a cell":            {strings.ReplaceAll(header, "nrows 2", "nrows 2.5") + "1 2 3", "grid-header", 2, 0, "2.5"},
		"cells without size":     {strings.ReplaceAll(header, "cellsize 2", "cellsize 0") + "1 2 3 4 5 6", "grid-header", 5, 0, "0"},
		"cells lost in rounding": {strings.ReplaceAll(header, "xllcorner 100", "xllcorner 1e300") + "1 2 3 4 5 6", "grid-header", 5, 0, "2"},
		"twice":                  {"ncols 3\n" + header + "1 2 3 4 5 6", "grid-header", 2, 1, "ncols"},
		"a key without number":   {"ncols three\n" + header[8:] + "1 2 3 4 5 6", "grid-header", 1, 12, ""},
		"an unknown key":         {header + "projection utm\n1 2 3 4 5 6", "grid-header", 6, 1, "projection"},
	} {
		t.Run(name, func(t *testing.T) {
			f := faultOf(t, []byte(c.text))
			require.Equal(t, []string{c.code}, codes(f), "%v", f)
			assert.Equal(t, geodata.Pos{File: "hill", Line: c.line, Col: c.col}, f[0].Pos)
			assert.Equal(t, c.read, f[0].Read)
		})
	}
	assert.Len(t, faultOf(t, []byte(header+"1 x x x x x x x")), 6, "each of those that are wanted, and that there are more")
	many := strings.ReplaceAll(header, "ncols 3", "ncols 300")
	assert.Len(t, faultOf(t, []byte(many+"1 "+strings.Repeat("x ", 599))), 20)
	assert.Len(t, faultOf(t, []byte("ncols 3\nnrows 2\n1 2 3 4 5 6")), 3, "every line that lacks")
}

// A window must not hide that the file is cut.
func TestTextWindowFindsFaultsElsewhere(t *testing.T) {
	src, err := open([]byte(header+"1 2 3\n4 5\n"), "hill.asc")
	require.NoError(t, err)
	_, err = src.Window(context.Background(), box(100, 52, 101, 53))
	assert.Error(t, err)
}

func TestTextWindowIsAPartOfTheWhole(t *testing.T) {
	src, err := open(textGrid(31, 27), "hill.asc")
	require.NoError(t, err)
	checkWindows(t, src)
}

// textGrid writes a grid of heights with two decimals.
func textGrid(cols, rows int) []byte {
	b := fmt.Appendf(nil, "ncols %d\nnrows %d\nxllcorner 1000\nyllcorner 2000\ncellsize 1\nNODATA_value -9999\n", cols, rows)
	for r := range rows {
		for c := range cols {
			b = fmt.Appendf(b, " %.2f", 50+20*math.Sin(float64(c)/90)*math.Cos(float64(r)/70))
		}
		b = append(b, '\n')
	}
	return b
}

// Words longer than what is read at a time, and those that lie across it, are
// still one word.
func TestWordsAcrossTheReadingSize(t *testing.T) {
	for pad := 262_144 - 80; pad < 262_144+20; pad++ {
		text := header + strings.Repeat(" ", pad-len(header)) + "1.125 2.25\n 3.5 4 5 6"
		r := readAll(t, []byte(text), "hill.asc")
		sameHeights(t, []float64{1.125, 2.25, 3.5, 4, 5, 6}, north(r), pad)
	}
	f := faultOf(t, []byte(header+"1 2 3 4 5 6"+strings.Repeat("0", 600_000)))
	assert.Equal(t, "grid-height-not-read", f[0].Code)
}

func TestDegreesAreGuessedInText(t *testing.T) {
	text := "ncols 2\nnrows 2\nxllcorner -5.2\nyllcorner 49.9\ncellsize 0.0001\n1 2 3 4"
	src, err := open([]byte(text), "hill.asc")
	require.NoError(t, err)
	info := src.Info()
	assert.True(t, info.Geographic && info.Guessed)
	assert.Equal(t, "grid-in-degrees", info.Notes[0].Code)
	require.NoError(t, src.ReadProjection(`LOCAL_CS["site",UNIT["metre",1]]`))
	assert.Equal(t, geodata.Metre, src.Info().Unit)
	assert.False(t, src.Info().Geographic)
}

// The data set volcano of the R package datasets (R. Ihaka): 87 rows of 61 cells of 10 m; the
// first height of the file is 100, the highest is 195, the mean of the R matrix
// 130.1879.
func TestVolcano(t *testing.T) {
	b, err := os.ReadFile(filepath.FromSlash("../../terrain/relief/testdata/volcano/volcano_87x61.asc"))
	require.NoError(t, err)
	r := readAll(t, b, "volcano.asc")
	assert.Equal(t, []any{61, 87, 10.0, orb.Point{0, 0}, 0}, []any{r.Cols, r.Rows, r.CellX, r.Origin, r.Missing})
	sum, highest := 0.0, 0.0
	for _, z := range r.Z {
		sum, highest = sum+z, max(highest, z)
	}
	assert.Equal(t, []float64{100, 195}, []float64{north(r)[0], highest})
	assert.InDelta(t, 130.1879, sum/5307, 5e-5)
}
