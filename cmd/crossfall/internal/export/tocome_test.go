package export_test

import (
	"io"
	"regexp"
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// GDAL finds the ground for what is to come with the area that the assessment says,
// and barrow ways with their length, in both kinds of file; simplefeatures, which
// refuses areas that are not valid, reads the ground of the GeoJSON.
func TestToComeAndWaysByGDAL(t *testing.T) {
	p, err := plotfolder.Read("../../../../testdata/hillside", plotfolder.Options{})
	require.NoError(t, err)
	tall, low := 7.0, 2.5
	p.Site.ToCome = []geodata.TallThing{{What: "pear tree", Height: &tall}, {What: "shed", Height: &low}}
	a, err := siting.Assess(t.Context(), p, siting.Options{})
	require.NoError(t, err)
	require.Len(t, a.ToCome, 2)

	dir := geoJSONIn(t, a)
	ask := func(kind, what string) []string {
		text := outside(t, dir, "ogrinfo", "-q", "-sql", `SELECT `+what+` FROM "`+a.Name+`" WHERE kind = '`+kind+`'`, "plot-result.geojson")
		var out []string
		for _, m := range regexp.MustCompile(what+` \(Real\) = (\S+)`).FindAllStringSubmatch(text, -1) {
			out = append(out, m[1])
		}
		return out
	}
	areas, said := ask("ground for what is to come", "OGR_GEOM_AREA"), ask("ground for what is to come", "free_area_m2_low")
	require.Len(t, areas, 2)
	for i, thing := range a.ToCome {
		require.Greater(t, thing.Area.Low, 10.0)
		assert.InDelta(t, thing.Area.Low, number(t, areas[i]), 0.01, thing.What)
		assert.InDelta(t, thing.Area.Low, number(t, said[i]), 0.051, thing.What)
	}
	var ways []float64
	for _, b := range a.Beds {
		if b.Access != nil && len(b.Access.Route) > 1 {
			ways = append(ways, b.Access.Length)
		}
	}
	require.NotEmpty(t, ways)
	for _, f := range ofKind(readResult(t, a), "ground for what is to come") {
		_, err := geom.UnmarshalGeoJSON([]byte(`{"type":"` + f.Geometry.Type + `","coordinates":` + string(f.Geometry.Coordinates) + `}`))
		assert.NoError(t, err)
	}

	layers := map[string][]float64{}
	drawn := 0.0
	for _, f := range readByGDAL(t, fileIn(t, "plan.dxf", func(w io.Writer) error { return export.DXF(w, a) }), "plan.dxf") {
		if f.Geometry.Type != "LineString" {
			continue
		}
		at, layer := f.places(t, siting.Frame{}), f.Properties["Layer"].(string)
		layers[layer] = append(layers[layer], planar.Length(orb.LineString(at)))
		if layer == "GROUND-FOR-WHAT-IS-TO-COME" {
			drawn += planar.Area(orb.Ring(at)) // of holes, which run clockwise, less than nothing
		}
	}
	assert.InDelta(t, a.ToCome[0].Area.Low+a.ToCome[1].Area.Low, drawn, 0.01)
	require.Len(t, layers["WAYS-FOR-COMPOST"], len(ways))
	for i, length := range ways {
		assert.InDelta(t, length, layers["WAYS-FOR-COMPOST"][i], 0.01)
	}
}
