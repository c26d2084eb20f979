package geodata_test

import (
	"math"
	"testing"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Worked with PROJ, transverse Mercator on the origin with a scale of 1
// (+proj=tmerc +lat_0=50.7 +lon_0=-3.5 +ellps=WGS84).
func TestLocalMetresAgainstPROJ(t *testing.T) {
	local := geodata.LocalMetres{Origin: orb.Point{-3.5, 50.7}}
	for _, c := range []struct {
		at   orb.Point
		x, y float64
	}{
		{orb.Point{-3.5, 50.7}, 0, 0},
		{orb.Point{-3.499, 50.701}, 70.6479, 111.2430},
		{orb.Point{-3.493, 50.7045}, 494.4984, 500.6149},
	} {
		got := local.From(c.at)
		assert.InDelta(t, c.x, got[0], 6e-5, "%v", c.at)
		assert.InDelta(t, c.y, got[1], 6e-5, "%v", c.at)
	}
	const d = 1e-4 // degrees, either side
	east := local.From(orb.Point{-3.5 + d, 50.7})[0] / d
	north := (local.From(orb.Point{-3.5, 50.7 + d})[1] - local.From(orb.Point{-3.5, 50.7 - d})[1]) / (2 * d)
	assert.InDelta(t, 70649.388, east, 1e-3, "metres per degree of longitude at 50.7 N")
	assert.InDelta(t, 111242.526, north, 1e-3, "metres per degree of latitude at 50.7 N")
}

// tmerc is the transverse Mercator projection on the origin by a series to the
// fourth order in the third flattening, an independent and far more exact form.
func tmerc(origin, at orb.Point) orb.Point {
	const a, f = 6378137.0, 1 / 298.257223563
	const n = f / (2 - f)
	alpha := []float64{
		n/2 - 2*n*n/3 + 5*n*n*n/16 + 41*n*n*n*n/180,
		13*n*n/48 - 3*n*n*n/5 + 557*n*n*n*n/1440,
		61*n*n*n/240 - 103*n*n*n*n/140,
		49561 * n * n * n * n / 161280,
	}
	e := math.Sqrt(f * (2 - f))
	plane := func(lambda, phi float64) (xi, eta float64) {
		s := math.Sin(phi)
		t := math.Sinh(math.Atanh(s) - e*math.Atanh(e*s))
		xi0, eta0 := math.Atan2(t, math.Cos(lambda)), math.Atanh(math.Sin(lambda)/math.Hypot(1, t))
		xi, eta = xi0, eta0
		for j, c := range alpha {
			k := 2 * float64(j+1)
			xi += c * math.Sin(k*xi0) * math.Cosh(k*eta0)
			eta += c * math.Cos(k*xi0) * math.Sinh(k*eta0)
		}
		return xi, eta
	}
	radius := a / (1 + n) * (1 + n*n/4 + n*n*n*n/64)
	const degree = math.Pi / 180
	xi, eta := plane((at[0]-origin[0])*degree, at[1]*degree)
	xi0, _ := plane(0, origin[1]*degree)
	return orb.Point{radius * eta, radius * (xi - xi0)}
}

// Local metres are a transverse Mercator projection by the series of Krueger 1912.
func TestLocalMetresAreATransverseMercator(t *testing.T) {
	assert.InDelta(t, 494.4984, tmerc(orb.Point{-3.5, 50.7}, orb.Point{-3.493, 50.7045})[0], 6e-5, "the series itself")
	for _, c := range []struct{ latitude, within float64 }{{0, 2e-5}, {35, 2e-5}, {-41, 2e-5}, {55, 2e-5}, {70, 1e-4}} {
		local := geodata.LocalMetres{Origin: orb.Point{11, c.latitude}}
		for bearing := 0.0; bearing < 2*math.Pi; bearing += math.Pi / 8 {
			at := local.Back(orb.Point{1400 * math.Sin(bearing), 1400 * math.Cos(bearing)})
			got, want := local.From(at), tmerc(local.Origin, at)
			assert.InDelta(t, want[0], got[0], c.within, "x at %g, bearing %.2f", c.latitude, bearing)
			assert.InDelta(t, want[1], got[1], c.within, "y at %g, bearing %.2f", c.latitude, bearing)
		}
	}
}

func TestBackUndoesFrom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		origin := orb.Point{rapid.Float64Range(-180, 180).Draw(t, "longitude"), rapid.Float64Range(-75, 75).Draw(t, "latitude")}
		local := geodata.LocalMetres{Origin: origin}
		p := orb.Point{rapid.Float64Range(-2000, 2000).Draw(t, "x"), rapid.Float64Range(-2000, 2000).Draw(t, "y")}
		back := local.From(local.Back(p))
		if math.Hypot(back[0]-p[0], back[1]-p[1]) > 1e-5 {
			t.Fatalf("%v came back as %v", p, back)
		}
	})
}

func TestCentreOf(t *testing.T) {
	assert.Equal(t, orb.Point{}, geodata.CentreOf(nil))
	a, b, c := orb.Point{-3.5, 50.7}, orb.Point{-3.49, 50.704}, orb.Point{-3.496, 50.71}
	assert.InDeltaSlice(t, []float64{-3.495, 50.705}, slice(geodata.CentreOf([]orb.Point{a, b, c})), 1e-12)
	assert.Equal(t, geodata.CentreOf([]orb.Point{a, b, c}), geodata.CentreOf([]orb.Point{c, a, b}), "whatever the order")
	across := geodata.CentreOf([]orb.Point{{179.999, -17}, {-179.997, -17}})
	assert.InDeltaSlice(t, []float64{-179.999, -17}, slice(across), 1e-9, "kept together across the 180th meridian")
	local := geodata.LocalMetres{Origin: across}
	assert.InDelta(t, -213, local.From(orb.Point{179.999, -17})[0], 1, "0.002 degrees west of it")
}

func slice(p orb.Point) []float64 { return p[:] }
