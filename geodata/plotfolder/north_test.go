package plotfolder_test

import (
	"math"
	"strings"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Heights on the British National Grid about E 294 164, N 90 002, which is
// -3.5, 50.7 on WGS84: the convergence there is about
// (-3.5 + 2) sin 50.7 = -1.161 degrees, grid north west of true north.
const onBritishGrid = "name,east,north,height\na,294160,90000,30\nb,294180,90000,31\nc,294180,90020,32\nd,294160,90020,31\n"

func TestNorthOfAMapGridIsSaid(t *testing.T) {
	p := plot(t, files{"heights.csv": onBritishGrid, "site.toml": "[place]\ngrid_epsg = 27700\n"})
	assert.Equal(t, 27700, p.Frame.EPSG)
	assert.Equal(t, "grid north of the British National Grid, which lies 1.2 degrees west of true north here", p.Frame.North)
	require.NotNil(t, p.Frame.NorthFromTrue)
	assert.InDelta(t, -1.5*math.Sin(50.7*math.Pi/180), *p.Frame.NorthFromTrue*180/math.Pi, 2e-3)
	assert.Contains(t, find(t, p.Notes, "map-grid").Message, "100 m of ground are 99.97 m")

	fs := faults(t, files{"heights.csv": sound, "site.toml": "[place]\ngrid_epsg = 32755\n"})
	assert.Equal(t, []string{"not-on-grid"}, codes(fs, geodata.Problem), "a corner of its own is on no grid")
	fs = faults(t, files{"heights.csv": sound, "site.toml": "[place]\ngrid_epsg = 3857\n"})
	assert.Equal(t, []string{"grid-not-read"}, codes(fs, geodata.Problem))
}

// Bearings read in 2018 with a map that says 5 degrees 30 minutes west of grid
// north in 2003, 9 minutes less each year: 3 degrees 15 minutes west. A mark at
// 0, 0 and a station 15 m from it on a bearing of 93.25 then lies at 15, 0.
func TestCompassBearingsAreTurned(t *testing.T) {
	const (
		place  = "[place]\nnorth = \"grid\"\ny_axis_bearing_degrees = 0\n"
		ties   = "point,method,from,a,b\nq,bearing,post,93.25,15\n"
		marks  = "kind,name,x,y,z\nmark,post,0,0,30\nboundary,p,-1,-1,\nboundary,p,30,-1,\nboundary,p,30,30,\nboundary,p,-1,30,\n"
		levels = "station,back,inter,fore,level\npost,1.2,,,30\nq,,2.2,,\n"
	)
	read := func(compass string) *geodata.Plot {
		return plot(t, files{"heights.csv": sound, "ties.csv": ties, "features.csv": marks, "levels.csv": levels, "site.toml": place + compass})
	}
	at := func(p *geodata.Plot) [2]float64 {
		for _, s := range p.Spots {
			if s.Name == "q" {
				return s.At
			}
		}
		require.Fail(t, "no station q")
		return [2]float64{}
	}
	p := read("[compass]\nnorth = \"magnetic\"\ndeclination_from = \"grid\"\ndeclination_degrees = -5.5\ndeclination_year = 2003\ndeclination_minutes_a_year = 9\nbearings_year = 2018\n")
	q := at(p)
	assert.InDeltaSlice(t, []float64{15, 0}, q[:], 1e-9)
	assert.Contains(t, find(t, p.Notes, "bearings-turned").Message, "-3.25 degrees were added to count them from the +y axis, give or take 0.8")

	q = at(read(""))
	assert.InDelta(t, 15*math.Sin(93.25*math.Pi/180), q[0], 1e-9, "without a word they count from the +y axis")
	q = at(read("[compass]\nnorth = \"grid\"\n"))
	assert.InDelta(t, 15*math.Cos(93.25*math.Pi/180), q[1], 1e-9)

	for want, compass := range map[string]string{
		"declination_degrees": "[compass]\nnorth = \"magnetic\"\n",
		"bearings_year":       "[compass]\nnorth = \"magnetic\"\ndeclination_degrees = 1\ndeclination_year = 2003\n",
		"the years":           "[compass]\nnorth = \"magnetic\"\ndeclination_from = \"grid\"\ndeclination_degrees = 1\ndeclination_year = 1950\ndeclination_minutes_a_year = 9\nbearings_year = 2018\n",
		"grid_epsg":           "[compass]\nnorth = \"magnetic\"\ndeclination_degrees = 1\n",
	} {
		fs := faults(t, files{"heights.csv": sound, "ties.csv": ties, "features.csv": marks, "levels.csv": levels, "site.toml": place + compass})
		require.Contains(t, codes(fs, geodata.Problem), "north-not-known", want)
		if want != "the years" {
			assert.Contains(t, find(t, fs, "north-not-known").Want, want)
		}
	}
}

// A member crs with the code of a known grid says that the numbers are metres on
// it, of heights and of features alike.
func TestGeoJSONOnAMapGrid(t *testing.T) {
	on := func(code string, features ...string) string {
		return `{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::` + code + `"}},"features":[` + strings.Join(features, ",") + `]}`
	}
	var heights []string
	for _, at := range []string{"294160,90000,30", "294180,90000,31", "294180,90020,32", "294160,90020,31"} {
		heights = append(heights, feature(`{"type":"Point","coordinates":[`+at+`]}`, "{}"))
	}
	p := plot(t, files{"heights.geojson": on("27700", heights...)})
	assert.Equal(t, 27700, p.Frame.EPSG)
	assert.False(t, p.Frame.Geographic)
	assert.Len(t, p.Spots, 4)

	tree := feature(`{"type":"Point","coordinates":[294170,90010]}`, `{"kind":"tree","name":"oak"}`)
	p = plot(t, files{"heights.csv": onBritishGrid, "plot.geojson": on("27700", tree)})
	assert.Equal(t, 27700, p.Frame.EPSG, "the features name the grid for both")
	fs := faults(t, files{"heights.geojson": on("27700", heights...), "plot.geojson": on("32630", tree)})
	assert.Equal(t, []string{"grid-contradicts"}, codes(fs, geodata.Problem))
}

func TestTheNamedNorthFromTrueNorth(t *testing.T) {
	frame := func(place string) geodata.Frame {
		return plot(t, files{"heights.csv": sound, "site.toml": place}).Frame
	}
	f := frame("[place]\nnorth = \"magnetic\"\n[compass]\ndeclination_degrees = -2\n")
	assert.Equal(t, "magnetic north", f.North)
	require.NotNil(t, f.NorthFromTrue)
	assert.InDelta(t, -2, *f.NorthFromTrue*180/math.Pi, 1e-12)
	f = frame("[place]\nnorth = \"true\"\n")
	require.NotNil(t, f.NorthFromTrue)
	assert.Zero(t, *f.NorthFromTrue)
	assert.Nil(t, frame("[place]\nnorth = \"magnetic\"\n").NorthFromTrue)
	assert.Nil(t, frame("").NorthFromTrue, "the y axis is no north")
}
