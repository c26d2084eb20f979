package surface_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/surface"
)

func TestDegenerateHeightsAreRefused(t *testing.T) {
	line := func(n int, off float64) (out []geodata.SpotHeight) {
		for i := range n {
			side := off * float64(i%2)
			out = append(out, geodata.SpotHeight{At: orb.Point{400000 + 3*float64(i), 100000 + 2*float64(i) + side}, Height: float64(i)})
		}
		return out
	}
	onePlace := []geodata.SpotHeight{{Height: 1}, {Height: 2}, {Height: 3}, {Height: 2}}
	cases := []struct {
		name  string
		spots []geodata.SpotHeight
		want  error
	}{
		{"none", nil, surface.ErrTooFewHeights},
		{"two", line(2, 0), surface.ErrTooFewHeights},
		{"three in line", line(3, 0), surface.ErrHeightsInLine},
		{"nine in line", line(9, 0), surface.ErrHeightsInLine},
		{"in line to a millimetre", line(9, 0.001), surface.ErrHeightsInLine},
		{"one place", onePlace, surface.ErrHeightsInLine},
		{"absurd coordinates", []geodata.SpotHeight{{At: orb.Point{1e300, 0}}, {At: orb.Point{0, 1e300}}, {}}, surface.ErrHeightsInLine},
	}
	for _, c := range cases {
		_, err := surface.FitSpots(c.spots, surface.Options{})
		assert.ErrorIs(t, err, c.want, c.name)
	}
	fit := fitOf(t, line(9, 2), surface.Options{})
	assert.NotNil(t, fit.Surface, "a strip two metres wide is enough")
}

func TestWhatIsNotFiniteIsRefused(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for field := range 4 {
			spots := eightPoints()
			switch field {
			case 0:
				spots[2].At[0] = bad
			case 1:
				spots[2].At[1] = bad
			case 2:
				spots[2].Height = bad
			case 3:
				spots[2].Sigma = bad
			}
			_, err := surface.FitSpots(spots, surface.Options{})
			assert.ErrorContains(t, err, "height p3", "%v in field %d", bad, field)
		}
		_, err := surface.FitSpots(eightPoints(), surface.Options{Sigma: bad})
		assert.Error(t, err)
	}
	_, err := surface.FitSpots(eightPoints(), surface.Options{Force: "bumpy"})
	assert.ErrorContains(t, err, "bumpy")
}

func TestThreeHeights(t *testing.T) {
	spots := spotsAt([]orb.Point{{0, 0}, {10, 0}, {0, 10}}, []float64{1, 2, 1.5})
	fit := fitOf(t, spots, surface.Options{Sigma: 0.01})
	assert.Equal(t, surface.PlaneKind, fit.Kind)
	assert.Empty(t, fit.Tests)
	assert.InDelta(t, 0.1, fit.Plane.Gradient.East, 1e-12)
	// (z2 - z1)/10 with 10 mm each: by hand 2 * 1e-4 / 100.
	assert.InDelta(t, 2e-6, fit.Plane.Covariance[0][0], 1e-15)
	assert.False(t, fit.Uneven)
	assert.Zero(t, fit.SpreadOfResiduals)
	for _, r := range fit.Residuals {
		assert.InDelta(t, 0, r.Residual, 1e-12)
		assert.Zero(t, r.Studentised)
	}
	for _, k := range []surface.Kind{surface.CurvedKind, surface.SmoothKind} {
		_, err := surface.FitSpots(spots, surface.Options{Force: k})
		assert.ErrorIs(t, err, surface.ErrTooFewHeights)
	}
}

func TestFourHeightsOffAPlane(t *testing.T) {
	spots := spotsAt([]orb.Point{{0, 0}, {10, 0}, {0, 10}, {10, 10}}, []float64{0, 0, 0, 0.4})
	fit := fitOf(t, spots, surface.Options{Sigma: 0.01})
	assert.Equal(t, surface.PlaneKind, fit.Kind)
	assert.True(t, fit.Uneven)
	// By hand: residuals +-0.1, s = 0.2 on 1 degree of freedom, sum of x^2 100.
	assert.InDelta(t, 0.2*0.2/100, fit.GradientCovariance(orb.Point{})[0][0], 1e-12)
	assert.InDelta(t, 12.7062, fit.Quantile, 5e-5)
}

// Heights on one circle do not tell how the ground curves, so the curved
// surface is refused and the choice goes past it.
func TestHeightsOnACircle(t *testing.T) {
	var spots []geodata.SpotHeight
	for i := range 14 {
		a := 2 * math.Pi * float64(i) / 14
		spots = append(spots, geodata.SpotHeight{At: orb.Point{8 * math.Cos(a), 8 * math.Sin(a)}, Height: 0.3 * math.Cos(3*a)})
	}
	_, err := surface.FitSpots(spots, surface.Options{Force: surface.CurvedKind})
	assert.ErrorIs(t, err, surface.ErrHeightsInLine)
	fit := fitOf(t, spots, surface.Options{})
	assert.Equal(t, surface.SmoothKind, fit.Kind)
	require.Len(t, fit.Tests, 1)
}

func TestRepeatedAndClusteredPositions(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for _, n := range []int{6, 7, 12, 40} {
		for _, cluster := range []float64{0, 1e-9, 0.01} {
			spots := rippleHill().survey(rng, n, 0.012)
			for i := range n / 2 {
				spots[i].At = orb.Point{3 + cluster*rng.Float64(), 4 + cluster*rng.Float64()}
			}
			for _, k := range []surface.Kind{"", surface.SmoothKind} {
				fit := fitOf(t, spots, surface.Options{Force: k})
				assertSound(t, fit, fmt.Sprintf("%d heights, cluster of %v m", n, cluster))
			}
		}
	}
	twice := append(rippleHill().survey(rng, 10, 0.012), rippleHill().survey(rand.New(rand.NewPCG(1, 1)), 10, 0.012)...)
	assertSound(t, fitOf(t, twice, surface.Options{}), "each twice")
}

// One height absurdly far off, as when millimetres are taken for metres or a
// decimal point is lost: an answer that says it cannot be trusted, or an error.
func TestAbsurdHeights(t *testing.T) {
	for _, n := range []int{4, 6, 13, 61} {
		for _, factor := range []float64{1000, 1e9, 1e100, 1e200, 1e306} {
			spots := rippleHill().survey(rand.New(rand.NewPCG(1, 1)), n, 0.012)
			spots[2].Height = 50 * factor
			for _, k := range []surface.Kind{"", surface.PlaneKind, surface.CurvedKind, surface.SmoothKind} {
				fit, err := surface.FitSpots(spots, surface.Options{Force: k})
				if err == nil && factor < 1e10 {
					named := slices.ContainsFunc(fit.Suspects, func(s surface.Suspect) bool { return s.Index == 2 })
					assert.True(t, fit.Uneven || named, "%d heights, factor %g, %q", n, factor, k)
				}
			}
		}
	}
}

// assertSound checks what every fit must give.
func assertSound(t *testing.T, fit *surface.Fit, what string) {
	t.Helper()
	require.NotNil(t, fit.Plane, what)
	for _, p := range []orb.Point{{3, 4}, {10, 7}, {-200, 900}} {
		z, ok := fit.HeightAt(p)
		assert.True(t, ok && !math.IsNaN(z), what)
		cov := fit.GradientCovariance(p)
		for _, v := range []float64{cov[0][0], cov[1][1], fit.HeightCovariance(p, p)} {
			assert.True(t, v >= 0 && !math.IsInf(v, 0), what)
		}
	}
	for _, r := range fit.Residuals {
		assert.False(t, math.IsNaN(r.Residual+r.Leverage+r.Studentised), what)
		assert.True(t, r.Leverage >= 0 && r.Leverage <= 1, what)
	}
	assert.Positive(t, fit.Quantile, what)
	assert.True(t, fit.Extrapolated(orb.Point{-200, 900}), what)
	assert.True(t, fit.Extrapolated(orb.Point{math.NaN(), 0}), what)
	_, ok := fit.HeightAt(orb.Point{math.NaN(), 0})
	assert.False(t, ok, what)
	_, ok = fit.GradientAt(orb.Point{0, math.Inf(1)})
	assert.False(t, ok, what)
}

func TestLevelGroundForcedSmooth(t *testing.T) {
	z := make([]float64, 9)
	fit := fitOf(t, spotsAt(ninePoints(), z), surface.Options{Force: surface.SmoothKind})
	assertSound(t, fit, "level")
	g, _ := fit.GradientAt(orb.Point{4, 4})
	assert.InDelta(t, 0, g.Fall(), 1e-9)
	_, _, ok := surface.BearingInterval(g, fit.GradientCovariance(orb.Point{4, 4}), fit.Quantile)
	assert.False(t, ok)
}

// Twenty thousand heights of a height grid: merged, searched on a part, and
// still true to the ground.
func TestManyHeights(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	rng := rand.New(rand.NewPCG(2, 2))
	h := rippleHill()
	fit := fitOf(t, h.survey(rng, 20000, 0.012), surface.Options{})
	assert.Equal(t, surface.SmoothKind, fit.Kind)
	assert.Len(t, fit.Residuals, 20000)
	assert.NotEmpty(t, fit.Notes)
	assertSound(t, fit, "many")
	p := orb.Point{7, 6}
	g, _ := fit.GradientAt(p)
	east, north := h.gradient(p)
	assert.InDelta(t, east, g.East, 0.01)
	assert.InDelta(t, north, g.North, 0.01)
	assert.False(t, fit.Extrapolated(p))
	assert.InDelta(t, 0.012, fit.SpreadOfResiduals, 0.001)
}

// With many heights a stated precision that is too good is found out.
func TestNoiseIsEstimatedFromManyHeights(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	fit := fitOf(t, rippleHill().survey(rng, 150, 0.03), surface.Options{Sigma: 0.01})
	require.Equal(t, surface.SmoothKind, fit.Kind)
	assert.InDelta(t, 0.03, 0.01*math.Sqrt(fit.Smooth.NoiseFactor), 0.006)
	honest := fitOf(t, rippleHill().survey(rng, 150, 0.01), surface.Options{Sigma: 0.03, Force: surface.SmoothKind})
	assert.InDelta(t, 1, honest.Smooth.NoiseFactor, 0.05, "never under what is stated")
}

func TestFewHeightsWidenTheSmoothSurface(t *testing.T) {
	spots := eightPoints()
	fit := fitOf(t, spots, surface.Options{Sigma: 0.01, Force: surface.SmoothKind})
	bare, err := surface.SmoothWith(spots, fit.Smooth.Hyper, surface.Options{Sigma: 0.01})
	require.NoError(t, err)
	p := orb.Point{6, 6}
	assert.InEpsilon(t, 2.6*2.6, fit.HeightCovariance(p, p)/bare.HeightCovariance(p, p), 1e-12)
	assert.InEpsilon(t, 2.6*2.6, fit.GradientCovariance(p)[0][0]/bare.GradientCovariance(p)[0][0], 1e-12)
	// Student's t on max(8-6, 3) = 3 degrees of freedom, from any table.
	assert.InDelta(t, 3.182446, fit.Quantile, 5e-7)
	assert.True(t, fit.Uneven)
}

// Large national coordinates and heights cost no digits.
func TestFarOriginChangesNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	near := rippleHill().survey(rng, 20, 0.012)
	far := append([]geodata.SpotHeight(nil), near...)
	for i := range far {
		far[i].At[0] += 5e5
		far[i].At[1] += 5e6
		far[i].Height += 4000
	}
	a, b := fitOf(t, near, surface.Options{}), fitOf(t, far, surface.Options{})
	ga, _ := a.GradientAt(orb.Point{8, 8})
	gb, _ := b.GradientAt(orb.Point{500008, 5000008})
	assert.InDelta(t, ga.East, gb.East, 1e-5)
	assert.InDelta(t, ga.North, gb.North, 1e-5)
}

func TestSurfaceMayBeAskedAtOnce(t *testing.T) {
	fit := fitOf(t, eightPoints(), surface.Options{Force: surface.SmoothKind})
	want := fit.GradientCovariance(orb.Point{4, 4})
	var wg sync.WaitGroup
	got := make([][2][2]float64, 8)
	for i := range got {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for range 200 {
				got[i] = fit.GradientCovariance(orb.Point{4, 4})
			}
		}()
	}
	wg.Wait()
	for _, g := range got {
		assert.Equal(t, want, g)
	}
}

func TestSameHeightsSameFit(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	spots := rippleHill().survey(rng, 70, 0.012)
	a, b := fitOf(t, spots, surface.Options{}), fitOf(t, spots, surface.Options{})
	assert.Equal(t, a.Smooth.Hyper, b.Smooth.Hyper)
	assert.Equal(t, a.Residuals, b.Residuals)
}

// The bearings at both ends of the interval touch the ellipse: (n.g)^2 =
// q^2 n'Cn for the normal n of each, and all between lie inside.
func TestBearingIntervalTouchesTheEllipse(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	met := 0
	for range 500 {
		g := terrain.Gradient{East: rng.NormFloat64(), North: rng.NormFloat64()}
		a, b, c := rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()
		cov := [2][2]float64{{a*a + b*b, b * c}, {b * c, c * c}}
		low, high, ok := surface.BearingInterval(g, cov, 0.5)
		if !ok {
			continue
		}
		met++
		off := func(bearing terrain.Bearing) float64 {
			e, n := bearing.Unit()
			side := g.East*n - g.North*e
			return side*side - 0.25*(n*n*cov[0][0]-2*e*n*cov[0][1]+e*e*cov[1][1])
		}
		assert.InDelta(t, 0, off(low), 1e-9)
		assert.InDelta(t, 0, off(high), 1e-9)
		width := terrain.Bearing(high - low).Normal()
		assert.Less(t, float64(width), math.Pi)
		down := float64((g.Downhill() - low).Normal())
		assert.LessOrEqual(t, down, float64(width))
		assert.Less(t, off(low+width/2), 1e-12)
	}
	assert.Greater(t, met, 200)
}

func TestBearingWithoutError(t *testing.T) {
	low, high, ok := surface.BearingInterval(terrain.Gradient{North: 0.1}, [2][2]float64{}, 2)
	assert.True(t, ok)
	assert.InDelta(t, 180, low.Degrees(), 1e-12)
	assert.Equal(t, low, high)
	_, _, ok = surface.BearingInterval(terrain.Gradient{}, [2][2]float64{}, 2)
	assert.False(t, ok)
	// Isotropic error: half-width asin(q s / |g|), by hand asin(.5) = 30 degrees.
	low, high, ok = surface.BearingInterval(terrain.Gradient{North: 0.1}, [2][2]float64{{6.25e-4, 0}, {0, 6.25e-4}}, 2)
	assert.True(t, ok)
	assert.InDelta(t, 150, low.Degrees(), 1e-9)
	assert.InDelta(t, 210, high.Degrees(), 1e-9)
}

// Where a plane is extrapolated, by hand: the nine heights stand 8 m from their
// nearest neighbours, so 4 m outside their hull is the limit.
func TestWhereAPlaneIsExtrapolated(t *testing.T) {
	spots := spotsAt(ninePoints(), evenHeights)
	fit := fitOf(t, spots, surface.Options{Sigma: 0.020})
	cases := []struct {
		at   orb.Point
		want bool
	}{
		{orb.Point{10, 8}, false}, {orb.Point{20, 16}, false},
		{orb.Point{23.9, 8}, false}, {orb.Point{24.1, 8}, true},
		{orb.Point{10, -3.9}, false}, {orb.Point{10, -4.1}, true},
		{orb.Point{23, 19}, true}, // 4.2 m from the corner
		{orb.Point{math.NaN(), 8}, true},
	}
	for _, c := range cases {
		assert.Equal(t, c.want, fit.Extrapolated(c.at), "%v", c.at)
	}
	// On the scatter of a wall the height is known to over 50 mm only, so even
	// the middle is not told: s / sqrt(9) with s over 0.15 m.
	for i := range spots {
		spots[i].Height += 0.6 * float64(i%2)
	}
	wall := fitOf(t, spots, surface.Options{Force: surface.PlaneKind})
	z, ok := wall.HeightAt(orb.Point{math.Inf(1), 0})
	assert.True(t, math.IsNaN(z) && !ok)
	_, ok = wall.GradientAt(orb.Point{math.NaN(), 0})
	assert.False(t, ok)
	assert.Greater(t, wall.SpreadOfResiduals, 0.15)
	assert.True(t, wall.Extrapolated(orb.Point{10, 8}))
}
