package bed_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/terrain"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const rad = math.Pi / 180

// plane fits exact heights of ground that falls by slope towards a bearing.
func plane(t require.TestingT, slope, downhillDegrees float64) *surface.Fit {
	e, n := terrain.FromDegrees(downhillDegrees).Unit()
	var spots []geodata.SpotHeight
	for x := -10.0; x <= 10; x += 5 {
		for y := -10.0; y <= 10; y += 5 {
			spots = append(spots, geodata.SpotHeight{At: orb.Point{x, y}, Height: 50 - slope*(x*e+y*n), Sigma: 0.01})
		}
	}
	fit, err := surface.FitSpots(spots, surface.Options{})
	require.NoError(t, err)
	return fit
}

// Falls of a rectangle on a plane slope, worked from F = s |cos| L and
// s |sin| W of the angle between long side and fall.
func TestFallsUnderABed(t *testing.T) {
	for _, c := range []struct {
		slope, downhill, longSide, across, along float64
	}{
		{0.10, 180, 90, 0.1200, 0},
		{0.10, 180, 180, 0, 0.3600},
		{0.15, 135, 90, 0.1273, 0.3818},
		{0.08, 200, 230, 0.0480, 0.2494},
	} {
		t.Run(fmt.Sprintf("%g at %g, long side %g", c.slope, c.downhill, c.longSide), func(t *testing.T) {
			fit := plane(t, c.slope, c.downhill)
			b := bed.New("b", orb.Point{1, 2}, terrain.FromDegrees(c.longSide), 3.6, 1.2)
			g := bed.Under(fit, fit.Quantile, b)
			assert.InDelta(t, c.across, g.FallAcross.Value, 1e-4)
			assert.InDelta(t, c.along, g.FallAlong.Value, 1e-4)
			assert.InDelta(t, c.slope, g.Slope.Value, 1e-9)
			assert.True(t, g.Determined)
			assert.False(t, g.Extrapolated)
			assert.InDelta(t, g.Gradient.Fall(), math.Hypot(g.Across.Value, g.Along.Value), 1e-9)
		})
	}
}

// The corners go clockwise from the uphill left, whatever way the ground falls.
func TestCornersStartUphillLeft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		downhill := rapid.Float64Range(0, 359).Draw(t, "downhill")
		turn := rapid.Float64Range(-80, 80).Draw(t, "turn off the contour")
		fit := plane(t, 0.1, downhill)
		b := bed.New("b", orb.Point{0, 0}, terrain.FromDegrees(downhill+90+turn), 4, 1)
		g := bed.Under(fit, fit.Quantile, b)
		ring := b.Outline(g.Axes)[0]
		assert.Equal(t, orb.CW, ring.Orientation())
		assert.Greater(t, g.Heights[0]+g.Heights[1], g.Heights[2]+g.Heights[3], "the first two corners are the uphill side")
		assert.InDelta(t, 4, planar.Distance(g.Corners[0], g.Corners[1]), 1e-9, "the uphill side is a long side")
		right := g.Heights[1] < g.Heights[0]
		if math.Abs(g.Heights[1]-g.Heights[0]) > 1e-6 {
			assert.Equal(t, right, g.LowEndRight)
		}
		assert.InDelta(t, math.Abs(turn)*rad, b.OffContour(g.Gradient), 1e-6)
	})
}

// Wedges worked by hand from V = W L (d + (W (gW - tW) + L (gL - tL)) / 2).
func TestFillOnPlaneGround(t *testing.T) {
	const w, l = 1.2, 3.6
	for _, c := range []struct {
		name          string
		across, along float64
		top           bed.Top
		volume, deep  float64
	}{
		{"level top across a fall of 10 %", 0.10, 0, bed.Top{MinDepth: 0.15}, 0.9072, 0.27},
		{"level top down a fall of 10 %", 0, 0.10, bed.Top{MinDepth: 0.15}, 1.4256, 0.51},
		{"5 % left on the top", 0.12, 0, bed.Top{MinDepth: 0.10, Across: 0.05}, 0.6134, 0.184},
		{"three bays down a fall of 10 %", 0, 0.10, bed.Top{MinDepth: 0.10, BaysAlong: 3}, 0.6912, 0.22},
	} {
		t.Run(c.name, func(t *testing.T) {
			slope := math.Hypot(c.across, c.along)
			fit := plane(t, slope, 180)
			b := bed.New("b", orb.Point{0, 0}, terrain.Bearing(math.Pi-math.Atan2(c.across, c.along)), l, w)
			g := bed.Under(fit, fit.Quantile, b)
			f := b.FillOn(fit, g, c.top)
			assert.InDelta(t, c.volume, f.Volume, 1e-4)
			assert.InDelta(t, c.deep, f.Deepest, 1e-4)
		})
	}
}

// Fill is never shallower than asked, and turning the plot leaves it alone.
func TestFillTurnsWithThePlot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slope := rapid.Float64Range(0.01, 0.3).Draw(t, "slope")
		turn := rapid.Float64Range(0, 359).Draw(t, "turn")
		skew := rapid.Float64Range(-40, 40).Draw(t, "skew")
		top := bed.Top{MinDepth: 0.12, BaysAcross: 2}
		volume := func(downhill float64) float64 {
			fit := plane(t, slope, downhill)
			b := bed.New("b", orb.Point{0.5, -0.5}, terrain.FromDegrees(downhill+90+skew), 3, 1.2)
			return b.FillOn(fit, bed.Under(fit, fit.Quantile, b), top).Volume
		}
		assert.InDelta(t, volume(0), volume(turn), 1e-9)
		assert.GreaterOrEqual(t, volume(turn), 3*1.2*0.12-1e-9)
	})
}

// The interval of a fall follows from the heights' errors: with 25 heights of
// 10 mm at 5 m spacing, sum of squares 25*50 = 1250 m2 each way, so a gradient
// has a standard error of 0.010 / sqrt(1250).
func TestFallHasTheErrorOfTheHeights(t *testing.T) {
	fit := plane(t, 0.1, 180)
	b := bed.New("b", orb.Point{0, 0}, terrain.FromDegrees(90), 3.6, 1.2)
	g := bed.Under(fit, fit.Quantile, b)
	se := 0.010 / math.Sqrt(1250)
	assert.InDelta(t, fit.Quantile*se, g.Across.High-g.Across.Value, 1e-9)
	assert.InDelta(t, fit.Quantile*se, g.Along.High, 1e-9)
	assert.InDelta(t, 1.96, fit.Quantile, 0.01)
}

func ExampleUnder() {
	var spots []geodata.SpotHeight
	for x := 0.0; x <= 10; x += 5 {
		for y := 0.0; y <= 6; y += 3 {
			spots = append(spots, geodata.SpotHeight{At: orb.Point{x, y}, Height: 20 + y/12, Sigma: 0.01})
		}
	}
	fit, _ := surface.FitSpots(spots, surface.Options{})
	b := bed.New("bed 1", orb.Point{5, 3}, terrain.FromDegrees(90), 3.6, 1.2)
	g := bed.Under(fit, fit.Quantile, b)
	fmt.Printf("falls %.0f mm across, %.0f mm along\n", g.FallAcross.Value*1000, g.FallAlong.Value*1000)
	// Output: falls 100 mm across, 0 mm along
}

// On a plane the general fall equals the slope's upper limit but for the last
// digit, which must not decide what is raised.
func TestAtLeastHasNoJump(t *testing.T) {
	g := bed.Ground{
		Slope:  geodata.Estimate{Value: .024, Low: .022, High: .0266},
		Across: geodata.Estimate{Value: .0187, Low: .017, High: .0200}, Along: geodata.Estimate{Value: .015, Low: .012, High: .018},
	}
	under, over := g.AtLeast(.0266*(1-1e-12)), g.AtLeast(.0266*(1+1e-12))
	assert.InDelta(t, under.Across.High, over.Across.High, 1e-9)
	assert.InDelta(t, .0266*.0187/.024, under.Across.High, 1e-9)
	assert.InDelta(t, .018, under.Along.High, 1e-9, "one over it stays")
}
