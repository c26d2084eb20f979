package export_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"math"
	"slices"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"
	"crossfall/geodata/gpx"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/twpayne/go-geom/encoding/geojson"
)

// three points: with a note that every format must guard, without a height, and
// at nought.
var three = []export.Point{
	{Name: `gate "post" <&>`, Kind: "mark", Note: "iron, left; 2nd", At: orb.Point{17.9, 13.2}, Height: 28.123},
	{Name: "Bed 1 uphill left", Kind: "bed corner", At: orb.Point{-1.25, 100}, Height: math.NaN()},
	{Name: "kámen", Kind: "mark", At: orb.Point{math.Copysign(0, -1), 0}, Height: 0},
}

// onTheEarth is a frame whose place is known, its +y axis turned by some degrees.
func onTheEarth(turn float64) siting.Frame {
	return siting.Frame{Origin: &orb.Point{-2.9, 51.2}, AxisBearing: turn, North: "true north"}
}

func TestPointsCSV(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, export.PointsCSV(&b, three, geodata.Metric))
	assert.Equal(t, `name,kind,x (m),y (m),z (m),note
"gate ""post"" <&>",mark,17.900,13.200,28.123,"iron, left; 2nd"
Bed 1 uphill left,bed corner,-1.250,100.000,,
kámen,mark,0.000,0.000,0.000,
`, b.String())
	b.Reset()
	require.NoError(t, export.PointsCSV(&b, three, geodata.FeetAndInch))
	lines := strings.Split(b.String(), "\n")
	assert.Equal(t, "name,kind,x (ft),y (ft),z (ft),note", lines[0])
	// 17.9/0.3048 = 58.7270, 13.2/0.3048 = 43.3071, 28.123/0.3048 = 92.2671
	assert.Contains(t, lines[1], ",58.727,43.307,92.267,")
}

func TestPointsGeoJSONInMetres(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, export.PointsGeoJSON(&b, "Set out", siting.Frame{North: "true north"}, three))
	var c struct {
		CRS      struct{ Properties struct{ Name string } }
		Frame    string `json:"coordinate_frame"`
		Features []struct {
			Geometry   geojson.Geometry
			Properties struct {
				Name   string
				Height *float64 `json:"height_m"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &c))
	assert.Contains(t, c.CRS.Properties.Name, `LENGTHUNIT["metre",1]`)
	assert.Contains(t, c.Frame, "not longitude and latitude")
	require.Len(t, c.Features, 3)
	for i, f := range c.Features {
		g, err := f.Geometry.Decode()
		require.NoError(t, err)
		assert.InDelta(t, three[i].At[0], g.FlatCoords()[0], 1e-4)
		assert.InDelta(t, three[i].At[1], g.FlatCoords()[1], 1e-4)
		assert.Equal(t, three[i].Name, f.Properties.Name)
	}
	assert.Equal(t, 28.123, *c.Features[0].Properties.Height)
	assert.Nil(t, c.Features[1].Properties.Height)
	assert.NotContains(t, b.String(), "-0,")
}

// A plot whose +y axis bears 90 degrees has its x axis to the south: a point 10 m
// along +y lies 10 m east of the origin.
func TestPlaceOfATurnedPlot(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, export.PointsGeoJSON(&b, "", onTheEarth(90), []export.Point{{At: orb.Point{3, 10}, Height: math.NaN()}}))
	var c struct {
		Features []struct {
			Geometry struct{ Coordinates orb.Point }
		}
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &c))
	assert.NotContains(t, b.String(), `"crs"`, "RFC 7946 has no such member")
	at := geodata.LocalMetres{Origin: orb.Point{-2.9, 51.2}}.From(c.Features[0].Geometry.Coordinates)
	assert.InDelta(t, 10, at[0], 2e-4)
	assert.InDelta(t, -3, at[1], 2e-4)
}

func TestPointsGPX(t *testing.T) {
	var b bytes.Buffer
	require.ErrorIs(t, export.PointsGPX(&b, "", siting.Frame{}, three), export.ErrNoPlace)
	assert.Zero(t, b.Len())
	require.NoError(t, export.PointsGPX(&b, "Hillside & co", onTheEarth(0), three))
	assert.True(t, strings.HasPrefix(b.String(), xml.Header+`<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="Crossfall">`))
	read, faults := gpx.Read(b.Bytes(), "waypoints.gpx", gpx.Options{})
	require.NoError(t, faults.Err())
	require.Len(t, read.Points, 3)
	local := geodata.LocalMetres{Origin: orb.Point{-2.9, 51.2}}
	for i, p := range read.Points {
		at := local.From(orb.Point{p.X, p.Y})
		assert.InDelta(t, three[i].At[0], at[0], 2e-4)
		assert.InDelta(t, three[i].At[1], at[1], 2e-4)
		assert.Equal(t, three[i].Name, p.Name)
	}
	assert.NotContains(t, b.String(), "NaN")
}

// The elements that a waypoint may hold, in the order that the schema of GPX 1.1
// lays down (wptType; from memory).
var wptOrder = []string{
	"ele", "time", "magvar", "geoidheight", "name", "cmt", "desc", "src", "link", "sym", "type",
	"fix", "sat", "hdop", "vdop", "pdop", "ageofdgpsdata", "dgpsid", "extensions",
}

func TestGPXFollowsItsSchema(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, export.PointsGPX(&b, "Hillside", onTheEarth(0), three))
	var g struct {
		XMLName xml.Name
		Version string `xml:"version,attr"`
		Creator string `xml:"creator,attr"`
		Parts   []struct {
			XMLName xml.Name
			Lat     float64 `xml:"lat,attr"`
			Lon     float64 `xml:"lon,attr"`
			Inner   []struct {
				XMLName xml.Name
				Text    string `xml:",chardata"`
			} `xml:",any"`
		} `xml:",any"`
	}
	require.NoError(t, xml.Unmarshal(b.Bytes(), &g))
	assert.Equal(t, xml.Name{Space: "http://www.topografix.com/GPX/1/1", Local: "gpx"}, g.XMLName)
	assert.Equal(t, "1.1", g.Version)
	assert.NotEmpty(t, g.Creator)
	require.Len(t, g.Parts, 1+len(three))
	assert.Equal(t, "metadata", g.Parts[0].XMLName.Local, "comes first")
	for _, wpt := range g.Parts[1:] {
		assert.Equal(t, "wpt", wpt.XMLName.Local)
		assert.InDelta(t, 51.2, wpt.Lat, 0.01)
		assert.InDelta(t, -2.9, wpt.Lon, 0.01)
		last := -1
		for _, e := range wpt.Inner {
			at := slices.Index(wptOrder, e.XMLName.Local)
			assert.Greater(t, at, last, e.XMLName.Local)
			last = at
			assert.NotEmpty(t, e.Text, "%s is left out where there is nothing to say", e.XMLName.Local)
		}
	}
}
