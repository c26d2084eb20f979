package export_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"
	"crossfall/geodata/dxf"
	"crossfall/geodata/gpx"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// anyPoints are points with whatever names and notes, some of unknown height.
func anyPoints() *rapid.Generator[[]export.Point] {
	point := rapid.Custom(func(t *rapid.T) export.Point {
		metres := rapid.Float64Range(-1e5, 1e5)
		p := export.Point{
			Name: rapid.String().Draw(t, "name"), Kind: rapid.String().Draw(t, "kind"), Note: rapid.String().Draw(t, "note"),
			At:     orb.Point{metres.Draw(t, "x"), metres.Draw(t, "y")},
			Height: rapid.Float64Range(-400, 8848).Draw(t, "z"),
		}
		if rapid.Bool().Draw(t, "unknown height") {
			p.Height = math.NaN()
		}
		return p
	})
	return rapid.SliceOfN(point, 1, 8)
}

// Whatever points are called, each form reads back as so many points in their
// places.
func TestAnyPointsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := anyPoints().Draw(t, "points")
		var b bytes.Buffer

		require.NoError(t, export.PointsDXF(&b, points))
		lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
		require.Zero(t, len(lines)%2, "codes and values by pairs")
		drawn, _ := dxf.Read(b.Bytes(), "points.dxf", dxf.Options{Unit: geodata.Metre})
		for _, p := range drawn.Points { // none of a flat drawing, and one of those that coincide
			there := func(q export.Point) bool { return math.Hypot(q.At[0]-p.X, q.At[1]-p.Y) < 2e-4 }
			require.True(t, slices.ContainsFunc(points, there), "%v was not drawn", p)
		}

		b.Reset()
		require.NoError(t, export.PointsCSV(&b, points, geodata.Metric))
		rows, err := csv.NewReader(&b).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, 1+len(points))

		b.Reset()
		require.NoError(t, export.PointsGeoJSON(&b, "", siting.Frame{}, points))
		var c struct{ Features []readFeature }
		require.NoError(t, json.Unmarshal(b.Bytes(), &c))
		require.Len(t, c.Features, len(points))

		b.Reset()
		near := points[:0:0] // of the place, within 2 km
		for _, p := range points {
			p.At = orb.Point{math.Mod(p.At[0], 1000), math.Mod(p.At[1], 1000)}
			near = append(near, p)
		}
		require.NoError(t, export.PointsGPX(&b, "", onTheEarth(77), near))
		read, faults := gpx.Read(b.Bytes(), "points.gpx", gpx.Options{})
		require.NoError(t, faults.Err())
		require.Len(t, read.Points, len(points))
	})
}

// An answer that holds nothing gives files that hold nothing, and no panic.
func TestEmptyAssessment(t *testing.T) {
	a := &siting.Assessment{}
	var b bytes.Buffer
	require.NoError(t, export.GeoJSON(&b, a))
	assert.Contains(t, b.String(), `"features":[]`)
	require.NoError(t, export.DXF(&b, a))
	require.NoError(t, export.SetOut(&b, a, geodata.Metric))
	require.NoError(t, export.CutList(&b, a.Quantities, geodata.Metric))
	require.NoError(t, export.Buying(&b, a.Quantities, geodata.Metric))
	require.NoError(t, export.JSON(&b, a))
	_, _, err := export.Set(a, export.Made{Units: geodata.Metric})
	assert.ErrorContains(t, err, "plan", "there is nothing to draw")
}
