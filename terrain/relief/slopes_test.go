package relief_test

import (
	"bufio"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain"
	"crossfall/terrain/relief"
)

// The formulas of Horn 1981, Zevenbergen & Thorne 1987 and Evans 1972 on one window,
// worked by hand. GDAL 3.6.2 (float32) has 18.2360 %, facing 151.32718, by the first and
// 18.01744 %, facing 150.94569, by the second.
func TestWindowDerivatives(t *testing.T) {
	g := gridOf(2, []float64{101.20, 101.05, 100.85}, []float64{100.90, 100.70, 100.55}, []float64{100.55, 100.42, 100.20})
	for _, tc := range []struct {
		method               relief.Method
		north, fall, degrees float64
	}{
		{relief.Horn, .16, .18236296, 151.326854},
		{relief.ZevenbergenThorne, .1575, .18017353, 150.945396},
		{relief.Evans, .160833333, .18309454, 151.451977},
	} {
		s, err := relief.Slopes(g, relief.SlopeOptions{Method: tc.method})
		require.NoError(t, err)
		got, ok := s.At(1, 1)
		require.True(t, ok)
		assert.InDelta(t, -.0875, got.East, 1e-9)
		assert.InDelta(t, tc.north, got.North, 1e-9)
		assert.InDelta(t, tc.fall, got.Fall(), 1e-8)
		assert.InDelta(t, tc.degrees, got.Downhill().Degrees(), 1e-6)
		_, ok = s.At(0, 0)
		assert.False(t, ok, "no gradient at the edge by default")
	}

	s, err := relief.Slopes(g, relief.SlopeOptions{})
	require.NoError(t, err)
	second := s.Seconds[4]
	assert.InDelta(t, -.0075, second.EastEast, 1e-9)
	assert.InDelta(t, 0, second.EastNorth, 1e-9)
	assert.InDelta(t, -.0025, second.NorthNorth, 1e-9)
	c, ok := s.CurvatureAt(1, 1)
	require.True(t, ok)
	assert.InEpsilon(t, .00346616860, c.Profile, 1e-6)
	assert.InEpsilon(t, .00625411484, c.Tangential, 1e-6)
	assert.InEpsilon(t, .0347256717, c.Plan, 1e-6)

	zt := relief.Around(g, 1, 1).Second(relief.ZevenbergenThorne, 2)
	assert.InDelta(t, .00625*2, zt.EastEast, 1e-9) // the paper's D is half the second derivative
	assert.InDelta(t, .00875*2, zt.NorthNorth, 1e-9)
}

// readVolcano reads the data set volcano of the R package datasets.
func readVolcano(t *testing.T) *terrain.Grid {
	t.Helper()
	file, err := os.Open("testdata/volcano/volcano_87x61.asc")
	require.NoError(t, err)
	defer file.Close()
	var rows [][]float64
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		fields := strings.Fields(lines.Text())
		if len(fields) < 61 {
			continue // the heading
		}
		var row []float64
		for _, f := range fields {
			z, err := strconv.ParseFloat(f, 64)
			require.NoError(t, err)
			row = append(row, z)
		}
		rows = append(rows, row)
	}
	require.Len(t, rows, 87)
	return gridOf(10, rows...)
}

// Twelve cells of the volcano as GDAL works them (3.6.2), with and without edges. In the four
// corners GDAL takes the missing neighbours of the edge rows as equal to the corner
// itself, which halves the gradient of a plane; there the heights are carried on instead,
// so the corners are not compared with its edge figures.
func TestSlopesAgreeWithGDAL(t *testing.T) {
	g := readVolcano(t)
	file, err := os.Open("testdata/volcano/volcano_gdaldem_12cells.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 13)
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	for _, method := range []struct {
		is   relief.Method
		name string
	}{{relief.Horn, "Horn"}, {relief.ZevenbergenThorne, "ZevenbergenThorne"}} {
		for _, edges := range []string{"", "_compute_edges"} {
			s, err := relief.Slopes(g, relief.SlopeOptions{Method: method.is, Edges: edges != ""})
			require.NoError(t, err)
			for _, row := range rows[1:] {
				number := func(name string) float64 {
					v, err := strconv.ParseFloat(row[column[name]], 64)
					require.NoError(t, err)
					return v
				}
				if edges != "" && strings.Contains(row[0], "corner") {
					continue
				}
				top, left := int(number("row_from_top_1based")), int(number("col_from_left_1based"))
				got, ok := s.At(left-1, 87-top)
				percent := number("slope_pct_" + method.name + edges)
				if percent == -9999 {
					assert.False(t, ok, row[0])
					continue
				}
				require.True(t, ok, row[0])
				assert.InDelta(t, percent, 100*got.Fall(), 2e-5, row[0])
				if facing := number("aspect_deg_" + method.name + edges); facing != -9999 {
					assert.InDelta(t, math.Mod(facing, 360), got.Downhill().Degrees(), 2e-4, row[0])
				} else {
					assert.Zero(t, got.Fall(), row[0])
				}
			}
		}
	}
}

// Whatever is missing round a node, the gradient of a plane comes out exact or not at all.
func TestEdgesKeepAPlane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		east := rapid.Float64Range(-1, 1).Draw(t, "east")
		north := rapid.Float64Range(-1, 1).Draw(t, "north")
		missing := rapid.SliceOfN(rapid.IntRange(0, 24), 0, 10).Draw(t, "missing")
		g := gridFrom(orb.Point{}, .5, 5, 5, func(x, y float64) float64 { return 50 + east*x + north*y })
		for _, m := range missing {
			g.Z[m] = math.NaN()
		}
		for _, method := range []relief.Method{relief.Evans, relief.Horn, relief.ZevenbergenThorne} {
			s, err := relief.Slopes(g, relief.SlopeOptions{Method: method, Edges: true})
			if err != nil {
				t.Fatal(err)
			}
			for i := range g.Z {
				got, ok := s.At(i%5, i/5)
				if ok && (math.Abs(got.East-east) > 1e-12 || math.Abs(got.North-north) > 1e-12) {
					t.Fatalf("node %d: %v", i, got)
				}
				if i == 12 && len(missing) == 0 && !ok {
					t.Fatal("no gradient in the middle")
				}
			}
		}
	})
}

func TestEdgeRules(t *testing.T) {
	g := gridFrom(orb.Point{}, 1, 4, 4, func(x, y float64) float64 { return x + 2*y })
	g.Set(2, 2, math.NaN())
	s, err := relief.Slopes(g, relief.SlopeOptions{})
	require.NoError(t, err)
	for row := range 4 {
		for col := range 4 {
			_, ok := s.At(col, row)
			assert.False(t, ok, "%d, %d touches the edge or the missing node", col, row)
		}
	}
	s, err = relief.Slopes(g, relief.SlopeOptions{Edges: true})
	require.NoError(t, err)
	_, ok := s.At(2, 2)
	assert.False(t, ok, "nothing is made up for the missing node itself")
	_, ok = s.At(3, 2)
	assert.False(t, ok, "no neighbour east or west")
	got, ok := s.At(0, 0)
	assert.True(t, ok)
	assert.Equal(t, terrain.Gradient{East: 1, North: 2}, got)
	assert.True(t, s.Extended[0])
	_, ok = s.At(-1, 0)
	assert.False(t, ok)
	_, ok = s.CurvatureAt(-1, 0)
	assert.False(t, ok)

	level, err := relief.Slopes(gridFrom(orb.Point{}, 1, 3, 3, func(_, _ float64) float64 { return 4 }), relief.SlopeOptions{})
	require.NoError(t, err)
	_, ok = level.CurvatureAt(1, 1)
	assert.False(t, ok, "level ground has no way down to bend along")
}

func TestSlopesRefuseABadGrid(t *testing.T) {
	_, err := relief.Slopes(&terrain.Grid{Cell: 1, Cols: 2, Rows: 2, Z: []float64{1}}, relief.SlopeOptions{})
	assert.ErrorContains(t, err, "2 by 2 nodes holds 1")
	_, err = relief.Slopes(terrain.NewGrid(orb.Point{}, 0, 2, 2), relief.SlopeOptions{})
	assert.ErrorContains(t, err, "not over 0")
	_, err = relief.Slopes(nil, relief.SlopeOptions{})
	assert.Error(t, err)
}

// The test function of Franke 1979 (Naval Postgraduate School report NPS-53-79-003) at 5
// times height on 100 m by 100 m: root mean square errors of the gradient on a clean
// grid, interior nodes, as worked beforehand by another program. The order (four
// neighbours, Horn, Evans) is the one found by Jones 1998, Computers & Geosciences 24(4).
func TestErrorsOnFrankesFunction(t *testing.T) {
	for _, tc := range []struct {
		cell              float64
		horn, four, evans float64
	}{
		{1, .00020, .00014, .00022}, {2, .00080, .00057, .00089}, {5, .00484, .00352, .00538},
	} {
		n := int(100/tc.cell) + 1
		g := gridFrom(orb.Point{}, tc.cell, n, n, func(x, y float64) float64 { return 5 * franke(x/100, y/100) })
		for method, want := range map[relief.Method]float64{
			relief.Horn: tc.horn, relief.ZevenbergenThorne: tc.four, relief.Evans: tc.evans,
		} {
			s, err := relief.Slopes(g, relief.SlopeOptions{Method: method})
			require.NoError(t, err)
			var sum, count float64
			for row := 1; row < n-1; row++ {
				for col := 1; col < n-1; col++ {
					p := g.Node(col, row)
					const h = 1e-4
					east := (franke((p[0]+h)/100, p[1]/100) - franke((p[0]-h)/100, p[1]/100)) * 5 / (2 * h)
					north := (franke(p[0]/100, (p[1]+h)/100) - franke(p[0]/100, (p[1]-h)/100)) * 5 / (2 * h)
					got, _ := s.At(col, row)
					sum += (got.East-east)*(got.East-east) + (got.North-north)*(got.North-north)
					count++
				}
			}
			assert.InDelta(t, want, math.Sqrt(sum/count), 2e-5, "cell %v", tc.cell)
		}
	}
}

// Errors of 10 mm in the heights turn the order of the formulas round. By hand: the
// gradient's parts are weighted sums of heights, so that each has a standard deviation
// of sqrt(12)/8 of the error over the spacing by Horn, sqrt(2)/2 by Zevenbergen & Thorne
// and sqrt(6)/6 by Evans, and the whole gradient sqrt(2) of that.
func TestNoiseTurnsTheOrderRound(t *testing.T) {
	noise := newNoise()
	g := gridFrom(orb.Point{}, 1, 201, 201, func(x, y float64) float64 { return .1*x + .01*noise() })
	for method, each := range map[relief.Method]float64{
		relief.Horn: math.Sqrt(12) / 8, relief.ZevenbergenThorne: math.Sqrt2 / 2, relief.Evans: math.Sqrt(6) / 6,
	} {
		s, err := relief.Slopes(g, relief.SlopeOptions{Method: method})
		require.NoError(t, err)
		sum, count := 0.0, 0.0
		for row := 1; row < 200; row++ {
			for col := 1; col < 200; col++ {
				got, _ := s.At(col, row)
				sum += (got.East-.1)*(got.East-.1) + got.North*got.North
				count++
			}
		}
		assert.InEpsilon(t, math.Sqrt2*each*.01, math.Sqrt(sum/count), .03)
	}
}

// The function of Franke 1979 and its slopes at two places, worked by another program.
func TestFranke(t *testing.T) {
	for _, c := range []struct{ x, y, z, east, north float64 }{
		{.5, .5, .3257620893, -.1677515605, -.9973893316}, {.2, .3, 1.0989476467, .1504290108, -2.4658639670},
	} {
		assert.InDelta(t, c.z, franke(c.x, c.y), 5e-11)
		assert.InDelta(t, c.east, (franke(c.x+1e-5, c.y)-franke(c.x-1e-5, c.y))/2e-5, 1e-8)
		assert.InDelta(t, c.north, (franke(c.x, c.y+1e-5)-franke(c.x, c.y-1e-5))/2e-5, 1e-8)
	}
}

func franke(x, y float64) float64 {
	x, y = 9*x, 9*y
	return .75*math.Exp(-((x-2)*(x-2)+(y-2)*(y-2))/4) + .75*math.Exp(-(x+1)*(x+1)/49-(y+1)/10) +
		.5*math.Exp(-((x-7)*(x-7)+(y-3)*(y-3))/4) - .2*math.Exp(-(x-4)*(x-4)-(y-7)*(y-7))
}

func TestGradientBetweenNodes(t *testing.T) {
	g := gridFrom(orb.Point{10, 20}, 1, 5, 5, func(x, y float64) float64 { return .01*x*x + .02*y })
	s, err := relief.Slopes(g, relief.SlopeOptions{})
	require.NoError(t, err)
	got, ok := s.GradientAt(orb.Point{12.25, 22})
	require.True(t, ok)
	assert.InDelta(t, .02*12.25, got.East, 1e-12)
	assert.InDelta(t, .02, got.North, 1e-12)
	for _, p := range []orb.Point{{10.5, 22}, {9, 22}, {math.NaN(), 22}, {12, 30}} {
		_, ok = s.GradientAt(p)
		assert.False(t, ok, "%v", p)
	}
	_, ok = s.GradientAt(orb.Point{13, 23})
	assert.True(t, ok, "the last node that has a gradient")
}
