package plotfolder_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// slope is ground falling 1 in 10 to the north, on the datum of a map.
func slope(x, y float64) float64 { return 80 - y/10 }

// mapGrid is a text grid of that ground with cells of 2 m from (x0, y0).
func mapGrid(x0, y0 float64, cols, rows int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "ncols %d\nnrows %d\nxllcorner %g\nyllcorner %g\ncellsize 2\n", cols, rows, x0, y0)
	for r := rows - 1; r >= 0; r-- {
		for c := range cols {
			fmt.Fprintf(&b, "%.4f ", slope(x0+2*float64(c)+1, y0+2*float64(r)+1))
		}
		b.WriteString("\n")
	}
	return b.String()
}

// own is a survey of a 10 x 10 m plot on the same ground, on a datum 70 m lower,
// one height off by 0.2 m.
func own(dx float64) string {
	var b strings.Builder
	b.WriteString("name,x,y,z\n")
	for i := range 9 {
		x, y := 500+dx+float64(i%3)*5, 600+float64(i/3)*5
		z := slope(x, y) - 70
		if i == 4 {
			z += 0.2
		}
		fmt.Fprintf(&b, "h%d,%g,%g,%.4f\n", i, x, y, z)
	}
	return b.String()
}

func TestHillsideIsBroughtToThePlotsDatum(t *testing.T) {
	p := plot(t, files{"heights.csv": own(0), "hillside.asc": mapGrid(300, 400, 200, 200)})
	h := p.Hillside
	require.NotNil(t, h)
	assert.InDelta(t, 70, h.Shift, 1e-3, "the median leaves one wrong height out")
	assert.InDelta(t, 0.2, h.Worst, 1e-3)
	assert.Equal(t, 9, h.Overlap)
	assert.Less(t, h.ShiftError, 0.01)
	known := 0
	for i, z := range h.Z {
		if math.IsNaN(z) {
			continue
		}
		known++
		x, y := h.Origin[0]+float64(i%h.Cols)*h.Cell, h.Origin[1]+float64(i/h.Cols)*h.Cell
		assert.InDelta(t, slope(x, y)-70, z, 1e-3)
	}
	assert.Greater(t, known, 10_000)
	assert.Contains(t, codes(p.Notes, geodata.Note), "hillside-joined")
	assert.Len(t, p.Spots, 9, "it is no part of the plot's own heights")
}

func TestHillsideThatCannotBeJoinedIsRefused(t *testing.T) {
	rough := strings.ReplaceAll(mapGrid(300, 400, 200, 200), "\n", " \n")
	for _, fs := range map[string]files{
		"nothing overlaps": {"heights.csv": own(5000), "hillside.asc": mapGrid(300, 400, 200, 200)},
		"degrees":          {"heights.csv": "lon,lat,z\n-3.5,50.7,1\n-3.4999,50.7,1.2\n-3.5,50.7001,1.4\n", "hillside.asc": mapGrid(300, 400, 200, 200)},
		"another shape":    {"heights.csv": "x,y,z\n500,600,1\n510,600,4\n500,610,9\n510,610,2\n505,605,20\n", "hillside.asc": rough},
	} {
		find(t, faults(t, fs), "hillside-not-joined")
	}
}

// utm30 is a projection file of UTM zone 30 on WGS84.
const utm30 = `PROJCS["WGS 84 / UTM zone 30N",GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",0],PARAMETER["central_meridian",-3],PARAMETER["scale_factor",0.9996],PARAMETER["false_easting",500000],PARAMETER["false_northing",0],UNIT["metre",1],AUTHORITY["EPSG","32630"]]`

// A plot in longitude and latitude joins a ground model in UTM zone 30, where
// -3.5, 50.7 has easting 464689.524 and northing 5616583.845 (PROJ). The ground
// falls 1 in 10 to grid north from there; true north is 0.387 degrees west of it
// (convergence, worked by hand), which turns 10 m by 70 mm.
func TestGeographicPlotJoinsAMapGrid(t *testing.T) {
	const east, north = 464689.5242, 5616583.8446
	rows := strings.SplitAfter(mapGrid(0, 0, 300, 300), "\n")
	rows[2], rows[3] = fmt.Sprintf("xllcorner %.4f\n", east-300), fmt.Sprintf("yllcorner %.4f\n", north-300)
	heights := "lon,lat,z\n"
	for i := range 9 {
		lon, lat := -3.5+float64(i%3)*7e-5, 50.7+float64(i/3)*5e-5
		heights += fmt.Sprintf("%.7f,%.7f,%.3f\n", lon, lat, slope(0, 300+(lat-50.7)*111242.5)-70)
	}
	p := plot(t, files{"heights.csv": heights, "hillside.asc": strings.Join(rows, ""), "hillside.prj": utm30})
	h := p.Hillside
	require.NotNil(t, h)
	assert.InDelta(t, 70, h.Shift, 0.01)
	assert.Less(t, h.Worst, 0.02)
	find(t, faults(t, files{"heights.csv": heights, "hillside.asc": strings.Join(rows, "")}), "hillside-not-joined")
}

// A plot in metres of its own corner, turned by 90 degrees, is placed on the
// ground model by marks that have both coordinates: its +y axis points west, its
// corner lies at 500, 600 on the map.
func TestHillsideIsPlacedByMarks(t *testing.T) {
	heights := "name,x,y,z\n"
	for i := range 9 {
		x, y := float64(i%3)*5, float64(i/3)*5
		heights += fmt.Sprintf("h%d,%g,%g,%.4f\n", i, x, y, slope(500-y, 600+x)-70)
	}
	mark := "kind,name,x,y,map_east_m,map_north_m\nmark,post,0,0,500,600\nmark,oak,10,0,500,%g\nmark,gate,0,12,488,600\n"
	p := plot(t, files{"heights.csv": heights, "features.csv": fmt.Sprintf(mark, 610.), "hillside.asc": mapGrid(300, 400, 200, 200)})
	require.NotNil(t, p.Hillside)
	assert.InDelta(t, 70, p.Hillside.Shift, 1e-3)
	assert.Less(t, p.Hillside.Worst, 1e-3)
	assert.Contains(t, find(t, p.Notes, "hillside-joined").Message, "placed by 3 marks, the worst 0.000 m off")

	fs := faults(t, files{"heights.csv": heights, "features.csv": fmt.Sprintf(mark, 611.5), "hillside.asc": mapGrid(300, 400, 200, 200)})
	assert.Contains(t, find(t, fs, "hillside-not-joined").Message, "do not fit")
}

// A plot on the British National Grid joins a ground model in UTM zone 30 by way
// of longitude and latitude; E 294163.9025 N 90002.1649 is -3.5, 50.7 (PROJ), and
// that is 464689.524, 5616583.845 in zone 30.
func TestAPlotOnOneMapGridJoinsAnother(t *testing.T) {
	rows := strings.SplitAfter(mapGrid(0, 0, 300, 300), "\n")
	rows[2], rows[3] = fmt.Sprintf("xllcorner %.4f\n", 464689.5242-300), fmt.Sprintf("yllcorner %.4f\n", 5616583.8446-300)
	heights := "name,x,y,z\n"
	const turn = 1.161 - 0.387 // degrees from the one grid north to the other: convergences -1.161 and -0.387, by hand
	for i := range 9 {
		x, y := float64(i%3)*5, float64(i/3)*5
		heights += fmt.Sprintf("h%d,%.3f,%.3f,%.4f\n", i, 294163.9025+x, 90002.1649+y, slope(0, 300+y+x*turn*math.Pi/180)-70)
	}
	p := plot(t, files{"heights.csv": heights, "site.toml": "[place]\ngrid_epsg = 27700\n", "hillside.asc": strings.Join(rows, ""), "hillside.prj": utm30})
	require.NotNil(t, p.Hillside)
	assert.InDelta(t, 70, p.Hillside.Shift, 0.01)
	assert.Less(t, p.Hillside.Worst, 0.02)
	assert.Contains(t, find(t, p.Notes, "hillside-joined").Message, "may lie up to 5 m apart")
}
