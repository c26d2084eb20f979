package plotfolder

import (
	"bytes"
	"errors"
	"math"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/require"
)

// The fuzz targets go past the disk, straight to the files in memory: a
// stranger's bytes may be refused with places, but never stop the program, and
// what is taken holds no figure that is not a number.

const (
	soundHeights = "name,x,y,z\na,0,0,29\nb,20,0,29\nc,20,20,30\nd,0,20,30\n"
	soundSite    = "coordinates = \"local\"\n"
)

// soundTable is the heights that stand beside a strange file.
func soundTable() *file {
	return &file{name: "heights.csv", data: []byte(soundHeights), format: format{read: readHeightsCSV}}
}

// fuzzed checks what reading made of one file of strange bytes.
func fuzzed(t *testing.T, strange *file, in inputs) {
	t.Helper()
	var c collector
	p, err := assemble(in, Options{MostBytes: geodata.MostFileBytes}, &c)
	lines := 1 + bytes.Count(strange.data, []byte("\n")) + bytes.Count(strange.data, []byte("\r"))
	told := func(fs geodata.Faults) {
		for _, f := range fs {
			require.NotEmpty(t, f.Code)
			require.NotEmpty(t, f.Message)
			require.NotEmpty(t, f.Pos.File)
			require.True(t, f.Pos.Line >= 0 && f.Pos.Col >= 0 && (f.Pos.File != strange.name || f.Pos.Line <= lines), "%v", f)
		}
	}
	if err != nil {
		var fs geodata.Faults
		require.True(t, errors.As(err, &fs) && p == nil && fs.Problems() > 0)
		told(fs)
		return
	}
	told(p.Notes)
	require.Zero(t, p.Notes.Problems())
	require.GreaterOrEqual(t, len(p.Spots), 3)
	for _, s := range p.Spots {
		for _, v := range []float64{s.At[0], s.At[1], s.Height, s.Sigma} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%v", s)
		}
	}
	for _, ring := range p.Boundary {
		require.Empty(t, geodata.CheckRing(ring))
	}
	for _, f := range p.Fixtures {
		require.NotNil(t, f.Shape)
		b := f.Shape.Bound()
		require.False(t, math.IsNaN(b.Min[0]+b.Min[1]+b.Max[0]+b.Max[1]), "%v", f)
	}
}

func FuzzHeightsCSV(f *testing.F) {
	for _, s := range []string{
		soundHeights, "lon;lat;z\n-3,5;50,7;1\n-3,5001;50,7;2\n-3,5;50,7001;3\n", "1 2 3\n4 5 6\n9 1 2\n", ",,\n", "x (ft)|y (in)|z (mm)|sd|side\n4'6\"|½ in|3|0.01|top\n",
		"\xff\xfex\x00,\x00y\x00", "a,0,0,1\na,0,0,1.001\nb,5,0,1\nc,0,5,inf\n", "name,x,y,z,note\n\"q\"\"\",1,2,3,toe\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		h := &file{name: "heights.csv", data: data, format: format{read: readHeightsCSV}}
		fuzzed(t, h, inputs{heights: h})
	})
}

func FuzzFeaturesCSV(f *testing.F) {
	for _, s := range []string{
		"kind,name,x,y\nboundary,p,-1,-1\nboundary,p,21,-1\nboundary,p,21,21\n", ",,,\n", "kind;x (ft);y;height;z\ntree;1,5;2,5;3;4\n",
		"kind,name,x,y,pinned\nbed,b,0,0,yes\nbed,b,3,0,\nbed,b,3,1,\nbed,b,0,1,\nbed,b,0,0,\n", "kind,name,lon,lat\nmark,a,-3.5,50.7\nmark,b,-3.4998,50.7\n",
		"kind,x,y,carries,located\nservice,1,1,gas,located by me\nservice,1,9,,\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		strange := &file{name: featuresFile, data: data}
		fuzzed(t, strange, inputs{heights: soundTable(), features: strange})
	})
}

func FuzzGeoJSON(f *testing.F) {
	for _, s := range []string{
		"null", "[]", "{}", `{"type":"FeatureCollection","features":[null]}`, `{"type":"Feature","geometry":null,"properties":{"kind":"mark"}}`,
		`{"type":"Feature","geometry":{"type":"GeometryCollection","geometries":[null]},"properties":{"kind":"mark"}}`,
		`{"type":"Feature","id":{},"geometry":{"type":"Point","coordinates":[1]},"properties":{"kind":"mark"}}`,
		`{"type":"Feature","geometry":{"type":"Polygon","coordinates":[[[0,0],[9,0],[9,9],[0,0]],[]]},"properties":{"kind":"boundary"}}`,
		`{"type":"Feature","geometry":{"type":"MultiLineString","coordinates":[[[0,0,1],[9,0,1]]]},"properties":{"kind":"service","depth_m":"1'"}}`,
		`{"type":"MultiPoint","coordinates":[[0,0,1],[9,0,2],[0,9,3]]}`, `{"crs":{"properties":{"name":7}},"type":"Point"}`, "{\"type\":\"\xff\"}",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		strange := &file{name: geoJSONFile, data: data}
		fuzzed(t, strange, inputs{heights: soundTable(), geoJSON: strange, site: &file{name: siteFile, data: []byte(soundSite)}})
		strange = &file{name: "heights.geojson", data: data, format: format{read: readHeightsJSON}}
		fuzzed(t, strange, inputs{heights: strange})
	})
}

func FuzzSiteTOML(f *testing.F) {
	for _, s := range []string{
		"beds = {count = \"4\", {}}", "[beds\ncount=1", "beds.count = 1\n[beds]\nwidth_m=1", "[[acknowledged]]\n[[acknowledged]]\ndate=1", "a.\"b.c\" = [1,\n2]\n", "x = \"\"\"\n\n", "[services]\ngas=1\n\"\"=\"drawn\"",
		"count = nan\n[boards]\nlengths_m=[inf,\"a\"]", "name = \"x\"\nunits = \"ft\"\n[beds]\ncount = 4\nlength_m = 3.6\n[boards]\nlengths_m = [3.6, 4.8]\n", "# é\n[place]\nnorth='true'\nlatitude=1_0.0",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		strange := &file{name: siteFile, data: data}
		fuzzed(t, strange, inputs{heights: soundTable(), site: strange})
	})
}

func FuzzRain(f *testing.F) {
	for _, s := range []string{
		"month,mm\n1,2\n2,3\n", "minutes,years,mm\n60,5,18\n", "date,mm\n2021-01-01,1\n2021-01-02,\n", "time,mm\n2021-01-01 00:00,1\n2021-01-01 00:30,2\n", "time,rain (0.01 in)\n0001-01-01 00:00,1\n9999-12-31T23:59:59Z,2\n", ",,\n", "mm\n1\n", "date;rain (in)\n0001-01-01;1,5\n9999-12-31;2\n",
		"month,in\nJan,1\nFeb,1\nMar,1\nApr,1\nMay,1\nJun,1\nJul,1\nAug,1\nSep,1\nOct,1\nNov,1\nDec,1\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		strange := &file{name: rainFile, data: data}
		fuzzed(t, strange, inputs{heights: soundTable(), rain: strange})
	})
}
