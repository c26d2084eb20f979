package mapgrid_test

import (
	"fmt"
	"testing"

	"crossfall/geodata/mapgrid"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestByCodeRefusesByName(t *testing.T) {
	for _, c := range []struct {
		code int
		why  error
		name string
	}{
		{4326, mapgrid.ErrDegrees, "WGS84"},
		{3857, mapgrid.ErrWebMap, "web Mercator"},
		{900913, mapgrid.ErrWebMap, "web Mercator"},
		{2154, mapgrid.ErrOtherProjection, "Lambert 93"},
		{28992, mapgrid.ErrOtherProjection, "RD New"},
		{0, mapgrid.ErrUnknownCode, "EPSG:0"},
		{32600, mapgrid.ErrUnknownCode, "EPSG:32600"},
		{32661, mapgrid.ErrUnknownCode, "EPSG:32661"},
		{-1, mapgrid.ErrUnknownCode, "EPSG:-1"},
	} {
		_, err := mapgrid.ByCode(c.code)
		assert.ErrorIs(t, err, c.why)
		assert.ErrorContains(t, err, c.name)
	}
}

// grids are all grids that are known by a code.
func grids() (all []mapgrid.Grid) {
	for code := range 40_000 {
		if g, err := mapgrid.ByCode(code); err == nil {
			all = append(all, g)
		}
	}
	return all
}

func TestGridsAreFoundByTheirCodes(t *testing.T) {
	seen := map[int]bool{}
	for _, g := range grids() {
		assert.False(t, seen[g.EPSG], "EPSG:%d is there twice", g.EPSG)
		seen[g.EPSG] = true
		assert.NotEmpty(t, g.Name)
		assert.NotEmpty(t, g.Datum.Name)
		found, err := mapgrid.ByCode(g.EPSG)
		require.NoError(t, err)
		assert.Equal(t, g, found)
		// The origin of each grid lies at its false origin.
		en, err := g.From(orb.Point{g.Longitude, g.Latitude})
		require.NoError(t, err)
		assert.InDelta(t, g.FalseEast, en[0], 1e-6)
		assert.InDelta(t, g.FalseNorth, en[1], 1e-6)
	}
	assert.Len(t, seen, 7+14+11+23+11+60+60)
}

// PROJ 9.1.1 (Debian), cs2cs from EPSG:4326 to +proj=tmerc +lat_0=49 +lon_0=-2
// +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy
// +towgs84=446.448,-125.157,542.06,0.15,0.247,0.842,-20.489. Its parameters are
// those of the Ordnance Survey rounded, the other way: they differ by under
// 2 cm on the ground.
func TestShiftAgainstPROJ(t *testing.T) {
	g := byCode(t, 27700)
	for _, c := range []struct{ lonLat, want orb.Point }{
		{orb.Point{-3.5, 50.7}, orb.Point{294163.9025, 90002.1649}},
		{orb.Point{1.7179215833333, 52.657570305556}, orb.Point{651538.6406, 313138.4045}},
		{orb.Point{-4.2, 57.5}, orb.Point{268261.0028, 847667.8821}},
	} {
		en, off, err := g.FromWGS84(c.lonLat)
		require.NoError(t, err)
		assert.InDelta(t, c.want[0], en[0], 0.02)
		assert.InDelta(t, c.want[1], en[1], 0.02)
		assert.Equal(t, 5.0, off)

		back, off, err := g.BackWGS84(en)
		require.NoError(t, err)
		// A millimetre: the height of the place above either ellipsoid is left
		// out of account both ways.
		assert.InDelta(t, c.lonLat[0], back[0], 2e-8)
		assert.InDelta(t, c.lonLat[1], back[1], 2e-8)
		assert.Equal(t, 5.0, off)
	}
}

func TestGridsWithoutShiftRefuseWGS84(t *testing.T) {
	g := byCode(t, 29903)
	_, _, err := g.FromWGS84(orb.Point{-6.26, 53.35})
	assert.ErrorIs(t, err, mapgrid.ErrNoShift)
	_, _, err = g.BackWGS84(orb.Point{315855, 234718})
	assert.ErrorIs(t, err, mapgrid.ErrNoShift)

	utm := byCode(t, 32630)
	en, off, err := utm.FromWGS84(orb.Point{-3.5, 50.7})
	require.NoError(t, err)
	assert.Zero(t, off)
	same, err := utm.From(orb.Point{-3.5, 50.7})
	require.NoError(t, err)
	assert.Equal(t, same, en)
	_, _, err = utm.FromWGS84(orb.Point{40, 50.7})
	assert.ErrorIs(t, err, mapgrid.ErrOutside)
}

func ExampleGrid_FromWGS84() {
	g, err := mapgrid.ByCode(27700)
	if err != nil {
		fmt.Println(err)
		return
	}
	en, off, err := g.FromWGS84(orb.Point{-3.5, 50.7})
	fmt.Printf("%s: east %.0f, north %.0f, as a whole within %.0f m, %v\n", g.Name, en[0], en[1], off, err)
	// Output:
	// British National Grid: east 294164, north 90002, as a whole within 5 m, <nil>
}
