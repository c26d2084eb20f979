package surface_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/terrain/surface"
)

var (
	evenHeights  = []float64{100.00, 100.62, 101.18, 100.41, 100.98, 101.63, 100.79, 101.42, 102.00}
	levelHeights = []float64{10.00, 10.02, 9.99, 10.01, 10.00, 10.03, 9.98, 10.02, 10.01}
)

// scatterOnly makes every plane and curve fail its test, so that errors come
// from the scatter s^2 N^-1, as a regression program gives them.
var scatterOnly = surface.Options{Sigma: 0.001, Force: surface.PlaneKind}

// Worked by hand from the normal equations of nine heights; the design is
// orthogonal, so N is diagonal: 9, 600, 384.
func TestPlaneOfNineHeights(t *testing.T) {
	fit := fitOf(t, spotsAt(ninePoints(), evenHeights), scatterOnly)
	p := fit.Plane
	near(t, 0.060166667, p.Gradient.East, "east")
	near(t, 0.050208333, p.Gradient.North, "north")
	near(t, 0.078363924, p.Gradient.Fall(), "fall")
	assert.InDelta(t, 230.155423, p.Gradient.Downhill().Degrees(), 1e-6)
	near(t, 7.1296296e-7, p.Covariance[0][0], "variance east")
	near(t, 1.1140046e-6, p.Covariance[1][1], "variance north")
	assert.InDelta(t, 0, p.Covariance[0][1], 1e-15)
	near(t, 2.446912, p.Quantile, "Student's t, 6 degrees of freedom")
	near(t, 0.020682789, fit.SpreadOfResiduals, "s")
	z, ok := fit.HeightAt(orb.Point{10, 8})
	assert.True(t, ok)
	near(t, 101.003333, z, "height in the middle")
	near(t, 4.7530864e-5, fit.HeightCovariance(orb.Point{10, 8}, orb.Point{10, 8}), "its variance")

	residuals := []float64{0, 18.3333, -23.3333, 8.3333, -23.3333, 25, -13.3333, 15, -6.6667}
	leverage := []float64{4. / 9, 5. / 18, 4. / 9, 5. / 18, 1. / 9, 5. / 18, 4. / 9, 5. / 18, 4. / 9}
	internal := []float64{0, 1.043030, -1.513575, .474105, -1.196586, 1.422314, -.864900, .853388, -.432450}
	for i, r := range fit.Residuals {
		assert.InDelta(t, residuals[i]/1000, r.Residual, 1e-7)
		assert.InDelta(t, leverage[i], r.Leverage, 1e-9)
		external := internal[i] * math.Sqrt(5/(6-internal[i]*internal[i]))
		assert.InDelta(t, external, r.Studentised, 5e-6)
	}

	value, low, high := surface.FallInterval(p.Gradient, p.Covariance, p.Quantile)
	near(t, 0.078363924, value, "fall")
	assert.InDelta(t, 2.446912*0.000936799, high-value, 5e-9)
	assert.InDelta(t, high-value, value-low, 1e-12)
	from, to, ok := surface.BearingInterval(p.Gradient, p.Covariance, p.Quantile)
	require.True(t, ok)
	// The set of Fieller 1954, by hand from (n.g)^2 = t^2 n'Cn with t = 2.446912, n = (r, 1):
	// r = (-M12 +- sqrt(M12^2 - M11 M22)) / M11, M = gg' - t^2 C.
	assert.InDelta(t, 228.423015, from.Degrees(), 5e-6, "Fieller set")
	assert.InDelta(t, 231.909871, to.Degrees(), 5e-6, "Fieller set")
}

// Recomputed from the formula: 6.416667 is the sum of squares over 0.020^2, and
// 16.8119 the 99 % point of chi-squared on 6 degrees of freedom in any table.
func TestPlaneIsChosen(t *testing.T) {
	fit := fitOf(t, spotsAt(ninePoints(), evenHeights), surface.Options{Sigma: 0.020})
	assert.Equal(t, surface.PlaneKind, fit.Kind)
	assert.Equal(t, "a plane fits within your reading error", fit.Why)
	require.Len(t, fit.Tests, 1)
	near(t, 6.416667, fit.Tests[0].Statistic, "chi-squared")
	assert.InDelta(t, 16.8119, fit.Tests[0].Limit, 5e-5)
	assert.Equal(t, 6, fit.Tests[0].DegreesOfFreedom)
	assert.InDelta(t, 1.959964, fit.Quantile, 5e-7)
	assert.Empty(t, fit.Suspects)
	assert.False(t, fit.Uneven)
	near(t, 4e-4/600, fit.GradientCovariance(orb.Point{3, 3})[0][0], "sigma^2 over the sum of x^2")
}

// Worked by hand: g'C^-1g = .923077 is under t^2 = 5.987378, so level ground
// lies in the ellipse and every bearing is acceptable.
func TestNearFlatGroundHasNoBearing(t *testing.T) {
	fit := fitOf(t, spotsAt(ninePoints(), levelHeights), scatterOnly)
	p := fit.Plane
	near(t, 0.000666667, p.Gradient.East, "east")
	assert.InDelta(t, 0, p.Gradient.North, 1e-12)
	near(t, 0.000693889, math.Sqrt(p.Covariance[0][0]), "standard error")
	near(t, 0.016996732, fit.SpreadOfResiduals, "s")
	_, _, ok := surface.BearingInterval(p.Gradient, p.Covariance, p.Quantile)
	assert.False(t, ok)
	assert.False(t, surface.Determined(p.Gradient, p.Covariance))
	_, low, _ := surface.FallInterval(p.Gradient, p.Covariance, p.Quantile)
	assert.Zero(t, low)
}

func blunderHeights() []float64 {
	z := append([]float64(nil), evenHeights...)
	z[5] += 1.000
	return z
}

// Recomputed from the formula (Cook & Weisberg 1982): one height of the nine
// raised by a metre; its externally studentised residual is 47.666273.
func TestRaisedHeightStandsOut(t *testing.T) {
	fit := fitOf(t, spotsAt(ninePoints(), blunderHeights()), scatterOnly)
	p := fit.Plane
	near(t, 0.076833333, p.Gradient.East, "east")
	near(t, 0.050208333, p.Gradient.North, "north")
	near(t, 0.359348691, fit.SpreadOfResiduals, "s")
	assert.InDelta(t, 236.836560, p.Gradient.Downhill().Degrees(), 1e-6)
	assert.InDelta(t, 0.7472222, fit.Residuals[5].Residual, 5e-8)
	assert.InDelta(t, 47.666273, fit.Residuals[5].Studentised, 5e-6)
	for i, r := range fit.Residuals {
		if i != 5 {
			assert.Less(t, math.Abs(r.Studentised), 1.16)
		}
	}
}

func TestRaisedHeightIsNamed(t *testing.T) {
	fit := fitOf(t, spotsAt(ninePoints(), blunderHeights()), surface.Options{Sigma: 0.020})
	assert.Equal(t, surface.SmoothKind, fit.Kind, "all heights stay in the fit")
	assert.True(t, fit.Uneven)
	require.NotEmpty(t, fit.Suspects)
	s := fit.Suspects[0]
	assert.Equal(t, "p6", s.Name)
	assert.Equal(t, 5, s.Index)
	assert.Contains(t, s.Reason, "1035 mm above the plane", "r / (1 - h) = .7472222 / (13/18)")
	assert.Contains(t, s.Reason, "mis-booked, or the ground is uneven")
}

func curvedPoints() []orb.Point {
	return append(ninePoints(), orb.Point{5, 4}, orb.Point{15, 4}, orb.Point{10, 12})
}

// Made from z = 100 + .05x + .02y + .001x^2 - .0005xy + .0008y^2 with errors of
// a few millimetres added; figures recomputed from the normal equations.
func TestCurvedGround(t *testing.T) {
	z := []float64{100.0030, 100.5950, 101.4020, 100.2172, 100.7672, 101.5322,
		100.5228, 101.0488, 101.7618, 100.3628, 101.0368, 100.8892}
	fit := fitOf(t, spotsAt(curvedPoints(), z), surface.Options{Sigma: 0.005})
	require.Equal(t, surface.CurvedKind, fit.Kind)
	require.Len(t, fit.Tests, 2)
	near(t, .045214469/25e-6, fit.Tests[0].Statistic, "plane")
	assert.False(t, fit.Tests[0].Passes)
	near(t, .000132861550/25e-6, fit.Tests[1].Statistic, "curve")
	near(t, .004705698, fit.SpreadOfResiduals, "s")
	g, _ := fit.GradientAt(orb.Point{15, 12})
	near(t, .07419055, g.East, "east")
	near(t, .03145561, g.North, "north")

	middle := orb.Point{10, 23. / 3}
	atMiddle, _ := fit.GradientAt(middle)
	near(t, .06601273, atMiddle.East, "b1")
	near(t, .02717015, atMiddle.North, "b2")
	h, _ := fit.HeightAt(middle)
	assert.InDelta(t, 100.7609182, h, 5e-8, "b0")
	cov := fit.GradientCovariance(middle)
	// The standard errors .00018457, .00023045 rest on s; these on 0.005.
	assert.InDelta(t, .00018457*.005/.004705698, math.Sqrt(cov[0][0]), 1e-8)
	assert.InDelta(t, .00023045*.005/.004705698, math.Sqrt(cov[1][1]), 1e-8)
	east, _ := fit.GradientAt(orb.Point{11, 23. / 3})
	assert.InDelta(t, .00103298, (east.East-atMiddle.East)/2, 1e-8, "b3")
	assert.InDelta(t, -.00049661, east.North-atMiddle.North, 1e-8, "b4")
	north, _ := fit.GradientAt(orb.Point{10, 26. / 3})
	assert.InDelta(t, .00078098, (north.North-atMiddle.North)/2, 1e-8, "b5")
}

// The same ground without errors comes out whole: by hand from its formula at the
// middle, 100.7620222 and .0661667, .0272667.
func TestCurvedGroundWithoutErrors(t *testing.T) {
	var z []float64
	for _, p := range curvedPoints() {
		x, y := p[0], p[1]
		z = append(z, 100+.05*x+.02*y+.001*x*x-.0005*x*y+.0008*y*y)
	}
	fit := fitOf(t, spotsAt(curvedPoints(), z), surface.Options{Sigma: 0.005, Force: surface.CurvedKind})
	middle := orb.Point{10, 23. / 3}
	h, _ := fit.HeightAt(middle)
	g, _ := fit.GradientAt(middle)
	assert.InDelta(t, 100.7620222, h, 5e-8)
	assert.InDelta(t, .0661667, g.East, 5e-8)
	assert.InDelta(t, .0272667, g.North, 5e-8)
	g, _ = fit.GradientAt(orb.Point{15, 12})
	assert.InDelta(t, .0740, g.East, 1e-9)
	assert.InDelta(t, .0317, g.North, 1e-9)
}

// Recomputed from the formula; 15.0863 and 9.2103 are the tabled 99 % points on
// 5 and 2 degrees of freedom.
func TestCurveIsChosenOverPlane(t *testing.T) {
	fit := fitOf(t, eightPoints(), surface.Options{Sigma: 0.010})
	assert.Equal(t, surface.CurvedKind, fit.Kind)
	require.Len(t, fit.Tests, 2)
	near(t, 131.8194, fit.Tests[0].Statistic, "plane")
	assert.InDelta(t, 15.0863, fit.Tests[0].Limit, 5e-5)
	assert.InDelta(t, 3.4444, fit.Tests[1].Statistic, 5e-5)
	assert.InDelta(t, 9.2103, fit.Tests[1].Limit, 5e-5)
	near(t, -.00855556, fit.Plane.Gradient.East, "general fall")
	near(t, -.08666667, fit.Plane.Gradient.North, "general fall")
	assert.False(t, fit.Plane.Passes)
}

// Worked by hand: two equal slopes of (.02, .03) with a wall of 0.6 m between;
// one plane through both leans the wrong way, and must say that it fails.
func TestWallDefeatsOnePlane(t *testing.T) {
	at := []orb.Point{{2, 1}, {5, 6}, {8, 2}, {3, 9}, {7, 8}, {12, 1}, {15, 6}, {18, 2}, {13, 9}, {17, 8}}
	z := []float64{10.07, 10.28, 10.22, 10.33, 10.38, 9.67, 9.88, 9.82, 9.93, 9.98}
	fit := fitOf(t, spotsAt(at, z), surface.Options{Force: surface.PlaneKind})
	assert.InDelta(t, -.0296753, fit.Plane.Gradient.East, 6e-8)
	assert.InDelta(t, .0309779, fit.Plane.Gradient.North, 5e-8)
	assert.InDelta(t, .148742, fit.SpreadOfResiduals, 5e-7)
	assert.False(t, fit.Plane.Passes)
	assert.True(t, fit.Uneven)
	for _, side := range [][2]int{{0, 5}, {5, 10}} {
		half := fitOf(t, spotsAt(at[side[0]:side[1]], z[side[0]:side[1]]), surface.Options{})
		assert.InDelta(t, .02, half.Plane.Gradient.East, 1e-12)
		assert.InDelta(t, .03, half.Plane.Gradient.North, 1e-12)
		assert.Equal(t, surface.PlaneKind, half.Kind)
	}
}

// davis reads the data set topo of the R package MASS in its units.
func davis(t testing.TB) []geodata.SpotHeight {
	f, err := os.Open("testdata/topo/topo_davis_52.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []geodata.SpotHeight
	for _, row := range rows[1:] {
		var v [3]float64
		for i, s := range row {
			v[i], err = strconv.ParseFloat(s, 64)
			require.NoError(t, err)
		}
		out = append(out, geodata.SpotHeight{At: orb.Point{v[0], v[1]}, Height: v[2]})
	}
	require.Len(t, out, 52)
	return out
}

// lm(z ~ x + y) of R 4.2.2 on the 52 heights of Davis 1973 (data set topo of the R
// package MASS).
func TestDavisPlaneAgainstR(t *testing.T) {
	fit := fitOf(t, davis(t), surface.Options{Force: surface.PlaneKind, Sigma: 1})
	p := fit.Plane
	near(t, -1.69504155754, p.Gradient.East, "x")
	near(t, -25.2517171542, p.Gradient.North, "y")
	near(t, 25.3085437178, p.Gradient.Fall(), "gradient")
	near(t, 3.84026368015, p.Gradient.Downhill().Degrees(), "azimuth")
	near(t, 2.76151040508, math.Sqrt(p.Covariance[0][0]), "se x")
	near(t, 2.61070335583, math.Sqrt(p.Covariance[1][1]), "se y")
	origin := orb.Point{}
	z, _ := fit.HeightAt(origin)
	near(t, 913.80001803, z, "intercept")
	near(t, 13.4244354866, math.Sqrt(fit.HeightCovariance(origin, origin)), "se intercept")
	near(t, 37.0288690459, fit.SpreadOfResiduals, "residual standard error")
	near(t, 67185.719998, fit.Tests[0].Statistic, "rss")
	assert.InDelta(t, 3.52345714111, math.Abs(fit.Residuals[0].Studentised), 1e-8, "rstudent, row 1")
	most := 0.0
	for _, r := range fit.Residuals {
		most = math.Max(most, r.Leverage)
		assert.LessOrEqual(t, math.Abs(r.Studentised), 3.5234572)
	}
	near(t, 0.111682553786, most, "largest hat value")
}

// lm(z ~ x + y + I(x^2) + I(x*y) + I(y^2)) of R 4.2.2 on the same heights of Davis 1973
// (data set topo of the R package MASS).
func TestDavisCurveAgainstR(t *testing.T) {
	fit := fitOf(t, davis(t), surface.Options{Force: surface.CurvedKind, Sigma: 1})
	origin := orb.Point{}
	z, _ := fit.HeightAt(origin)
	near(t, 976.328175066, z, "const")
	near(t, 20.5667546426, math.Sqrt(fit.HeightCovariance(origin, origin)), "se const")
	g, _ := fit.GradientAt(origin)
	near(t, -52.383226509, g.East, "x")
	near(t, -30.4003950719, g.North, "y")
	cov := fit.GradientCovariance(origin)
	near(t, 10.0717854614, math.Sqrt(cov[0][0]), "se x")
	near(t, 9.1907830096, math.Sqrt(cov[1][1]), "se y")
	e, _ := fit.GradientAt(orb.Point{1, 0})
	n, _ := fit.GradientAt(orb.Point{0, 1})
	near(t, 7.33449585681, (e.East-g.East)/2, "x2")
	near(t, 0.353630149212, e.North-g.North, "xy")
	near(t, 0.868128683516, (n.North-g.North)/2, "y2")
	near(t, 29.4729610364, fit.SpreadOfResiduals, "residual standard error")
	near(t, 39958.1498837, fit.Tests[1].Statistic, "rss")
}
