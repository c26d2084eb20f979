package export_test

import (
	"bytes"
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// outside runs a program that is not ours on a file of the folder; the test is
// skipped without the program.
func outside(t *testing.T, dir, program string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Skipf("%s is not here: what was written is not looked at by it", program)
	}
	cmd := exec.Command(path, args...)
	cmd.Dir = dir
	var out, said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &said
	require.NoError(t, cmd.Run(), "%s: %s", program, said.String())
	assert.Empty(t, said.String(), "what %s says of the file", program)
	return out.String()
}

// fileIn writes one file into a folder of its own.
func fileIn(t *testing.T, name string, write func(io.Writer) error) (dir string) {
	t.Helper()
	dir = t.TempDir()
	var b bytes.Buffer
	require.NoError(t, write(&b))
	require.NoError(t, os.WriteFile(filepath.Join(dir, name), b.Bytes(), 0o644))
	return dir
}

func geoJSONIn(t *testing.T, a *siting.Assessment) string {
	t.Helper()
	return fileIn(t, "plot-result.geojson", func(w io.Writer) error { return export.GeoJSON(w, a) })
}

// counted is the number of features and the extent that ogrinfo -so tells.
func counted(t *testing.T, text string) (n int, box orb.Bound) {
	t.Helper()
	m := regexp.MustCompile(`Feature Count: (\d+)\s+Extent: \((\S+), (\S+)\) - \((\S+), (\S+)\)`).FindStringSubmatch(text)
	require.NotNil(t, m, text)
	var v [5]float64
	for i, cell := range m[1:] {
		f, err := strconv.ParseFloat(cell, 64)
		require.NoError(t, err)
		v[i] = f
	}
	return int(v[0]), orb.Bound{Min: orb.Point{v[1], v[2]}, Max: orb.Point{v[3], v[4]}}
}

// readByGDAL turns a file into GeoJSON in the same coordinates by ogr2ogr.
func readByGDAL(t *testing.T, dir, name string, options ...string) []readFeature {
	t.Helper()
	args := []string{"-f", "GeoJSON", "-lco", "COORDINATE_PRECISION=9", "/vsistdout/", name}
	text := outside(t, dir, "ogr2ogr", append(args, options...)...)
	var c struct{ Features []readFeature }
	require.NoError(t, json.Unmarshal([]byte(text), &c))
	return c.Features
}

func within(t *testing.T, want, got orb.Bound, slack float64) {
	t.Helper()
	for _, d := range []float64{want.Min[0] - got.Min[0], want.Min[1] - got.Min[1], got.Max[0] - want.Max[0], got.Max[1] - want.Max[1]} {
		assert.InDelta(t, 0, d, slack, "extent %v in place of %v", got, want)
	}
}

// GDAL reads from the GeoJSON what the assessment says: as many features, their
// extent, and the areas of beds.
func TestGeoJSONByGDAL(t *testing.T) {
	for _, plot := range plots {
		a := assessed(t, plot)
		dir := geoJSONIn(t, a)
		all := readResult(t, a)
		n, box := counted(t, outside(t, dir, "ogrinfo", "-so", "-al", "plot-result.geojson"))
		assert.Equal(t, len(all), n)
		var want orb.MultiPoint
		for _, f := range all {
			want = append(want, f.places(t, a.Frame)...)
		}
		within(t, want.Bound(), box, 1e-4)
		text := outside(t, dir, "ogrinfo", "-q", "-sql",
			`SELECT name, OGR_GEOM_AREA FROM "`+a.Name+`" WHERE kind = 'bed'`, "plot-result.geojson")
		areas := regexp.MustCompile(`OGR_GEOM_AREA \(Real\) = (\S+)`).FindAllStringSubmatch(text, -1)
		require.Len(t, areas, len(a.Beds))
		for i, b := range a.Beds {
			assert.InDelta(t, b.Length*b.Width, number(t, areas[i][1]), 0.002*(b.Length+b.Width), b.Name)
		}
	}
}

// In longitude and latitude GDAL, with its own projection, finds the distances
// that are taped.
func TestLonLatByGDAL(t *testing.T) {
	a := onEarth(assessed(t, "hillside"))
	dir := geoJSONIn(t, a)
	info := outside(t, dir, "ogrinfo", "-so", "-al", "plot-result.geojson")
	assert.Contains(t, info, `ID["EPSG",4326]`)
	// A transverse Mercator projection on the origin's meridian, scale 1.
	projected := readByGDAL(t, dir, "plot-result.geojson", "-t_srs",
		"+proj=tmerc +lat_0=51.2 +lon_0=-2.9 +k=1 +x_0=0 +y_0=0 +ellps=WGS84 +units=m", "-where", "kind='bed'")
	require.Len(t, projected, len(a.Beds))
	plain := siting.Frame{}
	for i, b := range a.Beds {
		ring := projected[i].places(t, plain)
		assert.InDelta(t, b.Length, planar.Distance(ring[1], ring[2]), tapeError)
		assert.InDelta(t, b.Width, planar.Distance(ring[0], ring[1]), tapeError)
		assert.InDelta(t, b.Length*b.Width, planar.Area(orb.Polygon{ring}), 0.005)
	}
}

// GDAL reads the drawing: the extent of the beds, and from corner to mark what the
// sheet says to tape.
func TestDXFByGDAL(t *testing.T) {
	for _, plot := range plots {
		a := assessed(t, plot)
		all := readByGDAL(t, fileIn(t, "plan.dxf", func(w io.Writer) error { return export.DXF(w, a) }), "plan.dxf")
		layer := func(name string, shape string) (out []readFeature) {
			for _, f := range all {
				if f.Properties["Layer"] == name && f.Geometry.Type == shape && f.Properties["Text"] == nil {
					out = append(out, f)
				}
			}
			return out
		}
		plain := siting.Frame{}
		beds := append(layer("BEDS", "LineString"), layer("BEDS-NOT-TO-BE-BUILT", "LineString")...)
		assert.Len(t, beds, len(a.Beds))
		for _, f := range beds {
			ring := f.places(t, plain)
			require.Len(t, ring, 5, "closed")
		}
		assert.Len(t, layer("CONTOURS", "LineString"), len(a.Ground.Contours))
		assert.Len(t, layer("SPOT-HEIGHTS", "Point"), len(a.Ground.Heights))
		corners, taped := layer("BED-CORNERS", "Point"), 0
		marks := map[string]orb.Point{}
		for i, m := range layer("MARKS", "Point") {
			marks[a.SettingOut.Marks[i].Name] = m.places(t, plain)[0]
		}
		k := 0
		for _, b := range a.SettingOut.Beds {
			for _, c := range b.Corners {
				at := corners[k].places(t, plain)[0]
				k++
				for _, tie := range c.Ties {
					if from, drawn := marks[tie.Mark]; drawn {
						assert.InDelta(t, tie.Distance, planar.Distance(from, at), tapeError)
						taped++
					}
				}
			}
		}
		if len(marks) > 1 {
			assert.NotZero(t, taped, plot)
		}
	}
}

// GDAL reads every waypoint, where the GeoJSON of the same points has it.
func TestGPXByGDAL(t *testing.T) {
	a := onEarth(assessed(t, "hillside"))
	dir := fileIn(t, "waypoints.gpx", func(w io.Writer) error { return export.PointsGPX(w, a.Name, a.Frame, export.Points(a, geodata.Metric)) })
	points := export.Points(a, geodata.Metric)
	n, _ := counted(t, outside(t, dir, "ogrinfo", "-so", "waypoints.gpx", "waypoints"))
	assert.Equal(t, len(points), n)
	read := readByGDAL(t, dir, "waypoints.gpx", "waypoints")
	require.Len(t, read, len(points))
	for i, p := range points {
		at := read[i].places(t, a.Frame)[0]
		assert.InDelta(t, 0, planar.Distance(p.At, at), tapeError, p.Name)
		assert.Equal(t, p.Name, read[i].Properties["name"])
	}
}

// GDAL brings longitude and latitude back on to the map grid that they came from.
func TestMapGridByGDAL(t *testing.T) {
	by := orb.Point{506980, 5671974} // UTM zone 30, where 2.9 degrees west crosses 51.2 north
	a := onGrid(assessed(t, "hillside"), 32630, by)
	read := readByGDAL(t, geoJSONIn(t, a), "plot-result.geojson", "-t_srs", "EPSG:32630", "-where", "kind='bed'")
	require.Len(t, read, len(a.Beds))
	for i, b := range a.Beds {
		ring := read[i].places(t, siting.Frame{})
		assert.InDelta(t, 0, planar.Distance(orb.Point{b.Corners[0][0], b.Corners[0][1]}, ring[0]), tapeError)
		assert.InDelta(t, b.Length, planar.Distance(ring[1], ring[2]), tapeError)
	}
}
