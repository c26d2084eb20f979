package mapgrid_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/mapgrid"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func dms(d, m, s float64) float64 { return d + m/60 + s/3600 }
func rad(deg float64) float64     { return deg * math.Pi / 180 }

func byCode(t require.TestingT, code int) mapgrid.Grid {
	g, err := mapgrid.ByCode(code)
	require.NoError(t, err)
	return g
}

// Ordnance Survey, A guide to coordinate systems in Great Britain, annexe C: the worked
// example of the projection, on Airy's ellipsoid.
func TestOrdnanceSurveyExample(t *testing.T) {
	g := byCode(t, 27700)
	lonLat := orb.Point{dms(1, 43, 4.5177), dms(52, 39, 27.2531)}
	en, err := g.From(lonLat)
	require.NoError(t, err)
	assert.InDelta(t, 651409.903, en[0], 0.0006)
	assert.InDelta(t, 313177.270, en[1], 0.0006)

	back, err := g.Back(orb.Point{651409.903, 313177.270})
	require.NoError(t, err)
	assert.InDelta(t, lonLat[0], back[0], 1e-8) // the printed figures are to 1e-4 seconds
	assert.InDelta(t, lonLat[1], back[1], 1e-8)
}

// Snyder 1987, p. 269 (from memory): UTM zone 18 on Clarke's ellipsoid of 1866.
// PROJ 9.1 gives 627106.4674, 4484124.4344, convergence 0.97430230 degrees.
func TestSnyderExample(t *testing.T) {
	g := mapgrid.Grid{
		Name: "UTM zone 18 north", Datum: mapgrid.Datum{Ellipsoid: mapgrid.Clarke1866},
		Longitude: -75, Scale: 0.9996, FalseEast: 500_000,
	}
	lonLat := orb.Point{-73.5, 40.5}
	en, err := g.From(lonLat)
	require.NoError(t, err)
	assert.InDelta(t, 627106.5, en[0], 0.05)
	assert.InDelta(t, 4484124.4, en[1], 0.05)
	assert.InDelta(t, 627106.4674, en[0], 1e-4)
	assert.InDelta(t, 4484124.4344, en[1], 1e-4)

	k, err := g.ScaleAt(lonLat)
	require.NoError(t, err)
	assert.InDelta(t, 0.9997989, k, 6e-8)
	c, err := g.Convergence(lonLat)
	require.NoError(t, err)
	assert.InDelta(t, 0.97430230, c*180/math.Pi, 1e-7)
}

// PROJ 9.1.1 (Debian), program proj, with the parameters of its own copy of the
// EPSG register.
func TestAgainstPROJ(t *testing.T) {
	for _, c := range []struct {
		code                           int
		lon, lat, east, north, turnDeg float64
		scale                          float64
	}{
		{32630, -3.5, 50.7, 464689.52419, 5616583.84463, -0.38692408, 0.99961531},
		{32632, 8.3, 60.5, 461546.77730, 6707301.61615, -0.60925637, 0.99961812},
		{32755, 143.92649553, -37.65282114, 228854.05145, 5828259.03813, 1.87867181, 1.00050567},
		{25832, 13.4, 52.5, 798609.52091, 5825756.24202, 3.49331712, 1.00069467},
		{3006, 22.3, 65.1, 842356.12333, 7239418.09807, 6.62778555, 1.00103523},
		{3067, 20.8, 69.5, 258034.75356, 7722393.46956, -5.81015030, 1.00031632},
		{2157, -6.26, 53.35, 715845.93604, 734720.33097, 1.39615057, 0.99998466},
		{2193, 174.76, -36.85, 1756911.94485, 5920321.81819, -1.05572635, 0.99990333},
		{2180, 19.94, 50.06, 567262.45293, 244060.61453, 0.72074099, 0.99935558},
		{28356, 151.21, -33.87, 334435.70614, 6250816.39791, 0.99781261, 0.99993793},
		{7855, 143.93, -37.65, 229153.03495, 5828582.28354, 1.87640744, 1.00050367},
		{26918, -73.5, 40.5, 627103.08731, 4484335.40155, 0.97430228, 0.99979886},
		{29903, -6.26, 53.35, 315855.47903, 234718.92966, 1.39615057, math.NaN()},
		{27700, 1.7179215833333, 52.657570305556, 651409.90291, 313177.27032, 2.95737669, 1.00037732},
	} {
		t.Run(fmt.Sprint(c.code), func(t *testing.T) {
			g := byCode(t, c.code)
			at := orb.Point{c.lon, c.lat}
			en, err := g.From(at)
			require.NoError(t, err)
			assert.InDelta(t, c.east, en[0], 2e-5)
			assert.InDelta(t, c.north, en[1], 2e-5)
			turn, err := g.Convergence(at)
			require.NoError(t, err)
			assert.InDelta(t, c.turnDeg, turn*180/math.Pi, 2e-5)
			if !math.IsNaN(c.scale) {
				k, err := g.ScaleAt(at)
				require.NoError(t, err)
				assert.InDelta(t, c.scale, k, 1e-8)
			}
			back, err := g.Back(en)
			require.NoError(t, err)
			assert.InDelta(t, c.lon, back[0], 1e-11)
			assert.InDelta(t, c.lat, back[1], 1e-11)
		})
	}
}

// At the ends of the range, 12 degrees from the central meridian: PROJ 9.1.1,
// projection etmerc, whose series goes to the sixth power.
func TestEndsOfRangeAgainstPROJ(t *testing.T) {
	g := byCode(t, 32630)
	for _, c := range []struct{ lonLat, want orb.Point }{
		{orb.Point{9, 0.5}, orb.Point{1845185.577131, 56508.230362}},
		{orb.Point{9, 45}, orb.Point{1445748.663064, 5053500.026358}},
		{orb.Point{9, 83.9}, orb.Point{641350.764538, 9331703.815051}},
		{orb.Point{-15, 20}, orb.Point{-762382.853402, 2257164.673540}},
	} {
		en, err := g.From(c.lonLat)
		require.NoError(t, err)
		assert.InDelta(t, c.want[0], en[0], 1e-5)
		assert.InDelta(t, c.want[1], en[1], 1e-5)
	}
}

// A transverse Mercator on the origin itself, computed with PROJ, which
// geodata.LocalMetres must meet too.
func TestLocalOrigin(t *testing.T) {
	g := mapgrid.Grid{Name: "plot", Datum: mapgrid.Datum{Ellipsoid: mapgrid.WGS84}, Longitude: -3.5, Latitude: 50.7, Scale: 1}
	local := geodata.LocalMetres{Origin: orb.Point{-3.5, 50.7}}
	for _, c := range []struct{ lonLat, want orb.Point }{
		{orb.Point{-3.499, 50.701}, orb.Point{70.6479, 111.2430}},
		{orb.Point{-3.493, 50.7045}, orb.Point{494.4984, 500.6149}},
	} {
		en, err := g.From(c.lonLat)
		require.NoError(t, err)
		for i := range 2 {
			assert.InDelta(t, c.want[i], en[i], 1e-4)
			assert.InDelta(t, en[i], local.From(c.lonLat)[i], 1e-5)
		}
	}
}

// A plot in UTM, turned by the convergence and freed of the scale, is the plot
// in local metres: to 1 mm in 100 m.
func TestGridAgreesWithLocalMetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-65, 70).Draw(t, "latitude")
		zone := rapid.IntRange(1, 60).Draw(t, "zone")
		lon := float64(6*zone-183) + rapid.Float64Range(-3, 3).Draw(t, "from the central meridian")
		origin := orb.Point{lon, lat}
		code := 32600 + zone
		if lat < 0 {
			code = 32700 + zone
		}
		g, err := mapgrid.ByCode(code)
		require.NoError(t, err)
		local := geodata.LocalMetres{Origin: origin}
		at := orb.Point{rapid.Float64Range(-100, 100).Draw(t, "x"), rapid.Float64Range(-100, 100).Draw(t, "y")}
		zero, err := g.From(origin)
		require.NoError(t, err)
		en, err := g.From(local.Back(at))
		require.NoError(t, err)
		k, err := g.ScaleAt(origin)
		require.NoError(t, err)
		turn, err := g.Convergence(origin)
		require.NoError(t, err)
		dx, dy := (en[0]-zero[0])/k, (en[1]-zero[1])/k
		sin, cos := math.Sincos(turn)
		assert.InDelta(t, at[0], dx*cos+dy*sin, 0.001)
		assert.InDelta(t, at[1], dy*cos-dx*sin, 0.001)
	})
}

// There and back again, over the whole range of every grid.
func TestBackUndoesFrom(t *testing.T) {
	grids := grids()
	rapid.Check(t, func(t *rapid.T) {
		g := grids[rapid.IntRange(0, len(grids)-1).Draw(t, "grid")]
		at := orb.Point{
			g.Longitude + rapid.Float64Range(-12, 12).Draw(t, "longitude"),
			rapid.Float64Range(-84, 84).Draw(t, "latitude"),
		}
		en, err := g.From(at)
		require.NoError(t, err)
		back, err := g.Back(en)
		require.NoError(t, err)
		assert.InDelta(t, 0, math.Remainder(back[0]-at[0], 360), 2e-10)
		assert.InDelta(t, at[1], back[1], 2e-10)
	})
}

func TestRangeIsRefused(t *testing.T) {
	g := byCode(t, 32630)
	for _, p := range []orb.Point{{-3.5, 91}, {math.NaN(), 50}, {-3.5, math.NaN()}, {5000, 50}} {
		_, err := g.From(p)
		assert.ErrorIs(t, err, mapgrid.ErrNotDegrees, "%v", p)
	}
	for _, p := range []orb.Point{{10, 50}, {-3.5, 85}, {177, 0}} {
		_, err := g.From(p)
		assert.ErrorIs(t, err, mapgrid.ErrOutside, "%v", p)
		_, err = g.Convergence(p)
		assert.ErrorIs(t, err, mapgrid.ErrOutside)
		_, err = g.ScaleAt(p)
		assert.ErrorIs(t, err, mapgrid.ErrOutside)
		_, err = g.NorthAt(p)
		assert.ErrorIs(t, err, mapgrid.ErrOutside)
	}
	for _, p := range []orb.Point{{9e6, 5e6}, {5e5, 3e7}, {math.NaN(), 0}, {math.Inf(1), 0}, {2e6, 5.5e6}} {
		_, err := g.Back(p)
		assert.ErrorIs(t, err, mapgrid.ErrOutside, "%v", p)
		_, _, err = g.BackWGS84(p)
		assert.ErrorIs(t, err, mapgrid.ErrOutside, "%v", p)
	}
}

// Zone 60 reaches over the 180th meridian.
func TestAcrossThe180thMeridian(t *testing.T) {
	g, err := mapgrid.ByCode(32760)
	require.NoError(t, err)
	west, err := g.From(orb.Point{179.9999, -17})
	require.NoError(t, err)
	east, err := g.From(orb.Point{-179.9999, -17})
	require.NoError(t, err)
	assert.InDelta(t, 21.3, east[0]-west[0], 0.1) // 0.0002 degrees at 17 south
	back, err := g.Back(east)
	require.NoError(t, err)
	assert.InDelta(t, -179.9999, back[0], 1e-9)
}

func ExampleGrid_From() {
	lonLat := orb.Point{-3.5, 50.7}
	g, err := mapgrid.ByCode(32630)
	if err != nil {
		fmt.Println(err)
		return
	}
	en, err := g.From(lonLat)
	fmt.Printf("%s: east %.3f, north %.3f, %v\n", g.Name, en[0], en[1], err)
	north, _ := g.NorthAt(lonLat)
	fmt.Println(north)
	// Output:
	// UTM zone 30 north on WGS84: east 464689.524, north 5616583.845, <nil>
	// grid north of the UTM zone 30 north on WGS84, which lies 0.4 degrees west of true north here
}

var sink orb.Point

func BenchmarkFrom(b *testing.B) {
	g := byCode(b, 27700)
	for b.Loop() {
		p, err := g.From(orb.Point{1.7, 52.6})
		if err != nil {
			b.Fatal(err)
		}
		sink = p
	}
}
