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

// asciiGrid is a text grid of cols x rows cells of 1 m from (100, 200), z = 10 +
// 0.1 east of the corner + 0.05 north of it, at the cells' middles.
func asciiGrid(cols, rows int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "ncols %d\nnrows %d\nxllcorner 100\nyllcorner 200\ncellsize 1\nnodata_value -9999\n", cols, rows)
	for r := rows - 1; r >= 0; r-- {
		for c := range cols {
			fmt.Fprintf(&b, "%.4f ", 10+0.1*(float64(c)+0.5)+0.05*(float64(r)+0.5))
		}
		b.WriteString("\n")
	}
	return b.String()
}

func TestGridCountsAsManyHeights(t *testing.T) {
	p := plot(t, files{"heights.asc": asciiGrid(6, 4)})
	require.Len(t, p.Spots, 24)
	for _, s := range p.Spots {
		assert.InDelta(t, 10+0.1*(s.At[0]-100)+0.05*(s.At[1]-200), s.Height, 1e-4, "the height stands at the middle of its cell")
		assert.InDelta(t, 0.05, s.Sigma, 1e-12, "the default for a ground model")
	}
	assert.Contains(t, codes(p.Notes, geodata.Note), "grid-precision")
}

func TestGridPrecisionIsTheGrowers(t *testing.T) {
	p := plot(t, files{"heights.asc": asciiGrid(6, 4), "site.toml": "[ground]\nreading_precision_mm = 30\n"})
	assert.Zero(t, p.Spots[0].Sigma, "left to the precision that site.toml names")
	assert.NotContains(t, codes(p.Notes, geodata.Note), "grid-precision")
}

func TestGridIsCutToTheBoundary(t *testing.T) {
	p := plot(t, files{
		"heights.asc":  asciiGrid(80, 60),
		"features.csv": "kind,name,x,y\nboundary,b,120,220\nboundary,b,130,220\nboundary,b,130,232\nboundary,b,120,232\n",
	})
	for _, s := range p.Spots {
		assert.True(t, s.At[0] > 113 && s.At[0] < 137 && s.At[1] > 213 && s.At[1] < 239, "%v lies far off the boundary", s.At)
	}
	assert.Greater(t, len(p.Spots), 10*12)
	assert.Less(t, len(p.Spots), 24*26)
}

func TestLargeGridIsThinnedAndSaysSo(t *testing.T) {
	p := plot(t, files{"heights.asc": asciiGrid(250, 200)})
	assert.Less(t, len(p.Spots), 10_000)
	assert.Greater(t, len(p.Spots), 4_000)
	assert.Contains(t, codes(p.Notes, geodata.Note), "grid-thinned")
	assert.InDelta(t, 3, math.Abs(p.Spots[0].At[1]-p.Spots[1].At[1]), 1e-9, "one in three each way")
}

func TestPhoneHeightsCarryTheirPrecision(t *testing.T) {
	gpx := `<gpx version="1.1"><wpt lat="50.7" lon="-3.5"><ele>10</ele></wpt><wpt lat="50.7002" lon="-3.5"><ele>12</ele></wpt>` +
		`<wpt lat="50.7002" lon="-3.4997"><ele>12.5</ele></wpt><wpt lat="50.7" lon="-3.4997"><ele>0</ele><name>low</name></wpt></gpx>`
	p := plot(t, files{"heights.gpx": gpx})
	require.Len(t, p.Spots, 4)
	assert.True(t, p.Frame.Geographic)
	for _, s := range p.Spots {
		assert.InDelta(t, 10, s.Sigma, 1e-12)
	}
	assert.Contains(t, codes(p.Notes, geodata.Warning), "gpx-heights-rough")
}

func TestHeightsInOtherFormats(t *testing.T) {
	dxf := "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n6\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n"
	for i, h := range []string{"1", "1.5", "1.2", "1.9"} {
		dxf += fmt.Sprintf("0\nPOINT\n8\nS\n10\n%d\n20\n%d\n30\n%s\n", i%2*9, i/2*7, h)
	}
	dxf += "0\nENDSEC\n0\nEOF\n"
	xml := `<LandXML version="1.2" xmlns="http://www.landxml.org/schema/LandXML-1.2"><Units><Metric linearUnit="meter"/></Units><CgPoints>` +
		`<CgPoint name="a">0 0 1</CgPoint><CgPoint name="b">0 9 1.5</CgPoint><CgPoint name="c">7 0 1.2</CgPoint><CgPoint name="d">7 9 1.9</CgPoint></CgPoints></LandXML>`
	wkt := "MULTIPOINT Z ((0 0 1), (9 0 1.5), (0 7 1.2), (9 7 1.9))"
	for name, text := range map[string]string{"heights.dxf": dxf, "heights.xml": xml, "heights.wkt": wkt} {
		p := plot(t, files{name: text})
		require.Len(t, p.Spots, 4, name)
		last := p.Spots[3]
		assert.InDeltaSlice(t, []float64{9, 7, 1.9}, []float64{last.At[0], last.At[1], last.Height}, 1e-9, name)
	}
}

func TestHeightsAllAlikeAreAsked(t *testing.T) {
	find(t, faults(t, files{"heights.wkt": "MULTIPOINT Z ((0 0 1), (9 0 1), (0 7 1))"}), "heights-all-equal")
}

// Two sheds of 4 x 4 cells and 2.5 m on a lawn of 20 x 20 cells: 2 x 16 steps
// among 760 pairs of neighbours.
func TestRoofsAreSuspected(t *testing.T) {
	grid := strings.Split(asciiGrid(20, 20), "\n")
	for _, r := range []int{4, 5, 6, 7} {
		cells := strings.Fields(grid[6+r])
		for _, c := range []int{3, 4, 5, 6, 12, 13, 14, 15} {
			cells[c] = "14.5"
		}
		grid[6+r] = strings.Join(cells, " ")
	}
	p := plot(t, files{"heights.asc": strings.Join(grid, "\n")})
	assert.Contains(t, codes(p.Notes, geodata.Warning), "surface-model-suspected")
	assert.NotContains(t, codes(plot(t, files{"heights.asc": asciiGrid(20, 20)}).Notes, geodata.Warning), "surface-model-suspected")
}
