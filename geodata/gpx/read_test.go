package gpx_test

import (
	"fmt"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/gpx"
	"crossfall/geodata/internal/faulttest"
	"crossfall/geodata/internal/realdata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const both = "gpx-heights-rough"

func wrap(points string) string {
	return `<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1">` + points + `</gpx>`
}

func TestHeights(t *testing.T) {
	for _, c := range []struct {
		name, point string
		height      float64
		has         bool
		codes       []string
	}{
		{"given", `<wpt lat="50.7" lon="-3.5"><ele>27.93</ele></wpt>`, 27.93, true, []string{"warning " + both}},
		{"blanks", "<wpt lat='50.7' lon='-3.5'><ele>\n 27.93 </ele></wpt>", 27.93, true, []string{"warning " + both}},
		{"zero is real", `<wpt lat="50.7" lon="-3.5"><ele>0</ele></wpt>`, 0, true, []string{"warning " + both}},
		{"none", `<wpt lat="50.7" lon="-3.5"/>`, 0, false, nil},
		{"empty", `<wpt lat="50.7" lon="-3.5"><ele></ele></wpt>`, 0, false, nil},
		{"closed", `<wpt lat="50.7" lon="-3.5"><ele/></wpt>`, 0, false, nil},
		{"blank", `<wpt lat="50.7" lon="-3.5"><ele>  </ele></wpt>`, 0, false, nil},
		{"attribute", `<wpt lat="50.7" lon="-3.5" ele="12"/>`, 12, true, []string{"warning " + both, "warning height-as-attribute:1:62"}},
		{"empty attribute", `<wpt lat="50.7" lon="-3.5" ele=""/>`, 0, false, nil},
		{"twice the same", `<wpt lat="50.7" lon="-3.5" ele="12"><ele>12</ele></wpt>`, 12, true, []string{"warning " + both, "warning height-as-attribute:1:62"}},
		{"of another element", `<wpt lat="50.7" lon="-3.5"><extensions><ele>99</ele><name>no</name></extensions></wpt>`, 0, false, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fs := gpx.Read([]byte(wrap(c.point)), "p.gpx", gpx.Options{})
			assert.Equal(t, c.codes, faulttest.Codes(fs))
			require.Len(t, got.Points, 1)
			p := got.Points[0]
			assert.Equal(t, c.has, p.HasHeight)
			assert.Equal(t, c.height, p.Height)
			assert.Equal(t, [2]float64{-3.5, 50.7}, [2]float64{p.X, p.Y})
			assert.Equal(t, "waypoint", p.Kind)
			assert.Empty(t, p.Name)
		})
	}
}

// Each fault in its place, all of them at once, and no points.
func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name, data string
		codes      []string
	}{
		{"all at once", wrap("\n<wpt lat='x' lon='-3,5'/>\n<wpt lon='1'/>\n<wpt lat='91' lon='181'/>\n<wpt lat='1' lon='1'>\n <ele>12 m</ele></wpt>"), []string{
			"problem not-a-number:2:1", "problem not-a-number:2:1", "problem number-missing:3:1",
			"problem not-degrees:4:1", "problem not-degrees:4:1", "problem not-a-number:6:7",
		}},
		{"two heights", wrap(`<wpt lat="1" lon="1"><ele>1</ele><ele>2</ele></wpt>`), []string{"warning " + both, "problem height-twice:1:95"}},
		{"infinite", wrap(`<wpt lat="1" lon="1"><ele>Inf</ele></wpt>`), []string{"problem not-a-number:1:88"}},
		{"tracks only", wrap(`<trk><trkseg><trkpt lat="1" lon="1"/></trkseg></trk>`), []string{"problem no-points", "note gpx-points-not-taken"}},
		{"nothing", wrap(""), []string{"problem no-points"}},
		{"another format", "<kml/>", []string{"problem not-gpx:1:1"}},
		{"cut", `<gpx><wpt lat="1" lon="1"><ele>3</ele>`, []string{"problem not-xml:1:39"}},
		{"text", "x,y,z", []string{"problem not-xml:1:6"}},
		{"empty", "", []string{"problem empty-file"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fs := gpx.Read([]byte(c.data), "p.gpx", gpx.Options{})
			assert.Equal(t, c.codes, faulttest.Codes(fs))
			assert.Empty(t, got.Points)
			for _, f := range fs {
				assert.Equal(t, "p.gpx", f.Pos.File)
			}
		})
	}
}

const walk = `<?xml version="1.0" encoding="UTF-8"?>
<g:gpx version="1.0" xmlns:g="http://www.topografix.com/GPX/1/0">
 <g:wpt lat="50.7" lon="-3.5"><g:name> f3 </g:name><g:ele>27.93</g:ele></g:wpt>
 <g:trk><g:name>walk</g:name><g:trkseg>
  <g:trkpt lat="50.7001" lon="-3.5001"><g:ele>28</g:ele></g:trkpt>
 </g:trkseg></g:trk>
 <g:rte><g:name>way</g:name><g:rtept lat="50.7002" lon="-3.5002"><g:name>r</g:name></g:rtept></g:rte>
</g:gpx>`

func TestTracksAndRoutesAreAskedFor(t *testing.T) {
	for _, c := range []struct {
		opt   gpx.Options
		kinds []string
		notes int
	}{
		{gpx.Options{}, []string{"waypoint"}, 2},
		{gpx.Options{Tracks: true}, []string{"waypoint", "track point"}, 1},
		{gpx.Options{Tracks: true, Routes: true}, []string{"waypoint", "track point", "route point"}, 0},
	} {
		got, fs := gpx.Read([]byte(walk), "w.gpx", c.opt)
		require.NoError(t, fs.Err())
		var kinds []string
		for _, p := range got.Points {
			kinds = append(kinds, p.Kind)
		}
		assert.Equal(t, c.kinds, kinds)
		assert.Len(t, fs, c.notes+1)
		assert.Equal(t, "f3", got.Points[0].Name)
		assert.Equal(t, geodata.Pos{File: "w.gpx", Line: 3, Col: 2}, got.Points[0].Source)
		assert.True(t, got.Geographic)
		assert.Equal(t, 4326, got.EPSG)
	}
}

func TestSniff(t *testing.T) {
	assert.True(t, gpx.Sniff([]byte(walk)))
	assert.True(t, gpx.Sniff([]byte("\xef\xbb\xbf"+walk)))
	assert.False(t, gpx.Sniff([]byte("<kml/>")))
	assert.False(t, gpx.Sniff(nil))
}

// The public sample files that CROSSFALL_DATA names.
func TestSampleFiles(t *testing.T) {
	all := gpx.Options{Tracks: true, Routes: true}
	for _, c := range []struct {
		file            string
		points, heights int
		problem         string
	}{
		{"empty_ele.gpx", 2, 0, ""},
		{"zero_elevation.gpx", -1, -1, ""},
		{"wpt.gpx", -1, 0, ""},
		{"gdal.gpx", 9, 8, ""},
		{"trek.gpx", -1, -1, ""},
		{"garmin_extensions.gpx", -1, -1, ""},
		{"empty_trk.gpx", 0, 0, "no-points"},
		{"bad.gpx", 0, 0, "not-a-number"},
	} {
		t.Run(c.file, func(t *testing.T) {
			data := realdata.Bytes(t, "formats", "vector", c.file)
			assert.True(t, gpx.Sniff(data))
			got, fs := gpx.Read(data, c.file, all)
			if c.problem != "" {
				require.Positive(t, fs.Problems())
				for _, f := range fs {
					if f.Severity == geodata.Problem {
						assert.Equal(t, c.problem, f.Code)
					}
				}
				return
			}
			require.NoError(t, fs.Err())
			if c.points < 0 { // every point of the file, counted by its tags
				c.points = strings.Count(string(data), "<wpt ") + strings.Count(string(data), "<trkpt ") + strings.Count(string(data), "<rtept ")
			}
			assert.Len(t, got.Points, c.points)
			heights := 0
			for _, p := range got.Points {
				if p.HasHeight {
					heights++
				}
			}
			if c.heights < 0 {
				c.heights = strings.Count(string(data), "</ele>")
			}
			assert.Equal(t, c.heights, heights)
		})
	}
}

func FuzzRead(f *testing.F) {
	for _, seed := range []string{walk, wrap(`<wpt lat="1" lon="2" ele="3"><wpt lat="4"/></wpt>`), "<gpx><wpt", "\xff\xfe<\x00g\x00", ""} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		gpx.Sniff(data)
		got, fs := gpx.Read(data, "f.gpx", gpx.Options{Tracks: true, Routes: true})
		if len(got.Points) == 0 == (fs.Problems() == 0) {
			t.Fatalf("%d points and %d problems", len(got.Points), fs.Problems())
		}
	})
}

func ExampleRead() {
	file := `<gpx version="1.1">
<wpt lat="50.70012" lon="-3.50031"><ele>27.9</ele><name>f3</name></wpt>
<wpt lat="50.70020" lon="-3.50031"><ele/><name>gate</name></wpt>
</gpx>`
	points, faults := gpx.Read([]byte(file), "spots.gpx", gpx.Options{})
	if err := faults.Err(); err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range points.Points {
		fmt.Println(p.Name, p.X, p.Y, p.Height, p.HasHeight)
	}
	fmt.Println(faults[0].Severity, faults[0].Code)
	// Output:
	// f3 -3.50031 50.70012 27.9 true
	// gate -3.50031 50.7002 0 false
	// warning gpx-heights-rough
}
