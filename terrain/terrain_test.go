package terrain_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/terrain"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Units of slope: 1 in 12 is 8.3333 % and 4.7636 degrees; 1 in 20 is 2.8624
// degrees (worked by hand from the tangent).
func TestFallOfAGradient(t *testing.T) {
	for _, c := range []struct{ oneIn, percent, degrees float64 }{
		{10, 10, 5.7106}, {12, 8.3333, 4.7636}, {20, 5, 2.8624}, {40, 2.5, 1.4321}, {80, 1.25, 0.7162},
		{100. / 3, 3, 1.7184}, {1 / .26794919, 26.7949, 15}, {1, 100, 45},
	} {
		g := terrain.Gradient{East: 0.6 / c.oneIn, North: 0.8 / c.oneIn}
		assert.InDelta(t, c.percent, 100*g.Fall(), 1e-4)
		assert.InDelta(t, c.degrees, math.Atan(g.Fall())*180/math.Pi, 1e-4)
	}
}

func TestBearings(t *testing.T) {
	for _, c := range []struct{ east, north, degrees float64 }{
		{0, 1, 0}, {1, 0, 90}, {0, -1, 180}, {-1, 0, 270}, {1, 1, 45}, {-1, 1, 315},
	} {
		assert.InDelta(t, c.degrees, terrain.BearingOf(c.east, c.north).Degrees(), 1e-12)
		g := terrain.Gradient{East: -c.east, North: -c.north}
		assert.InDelta(t, c.degrees, g.Downhill().Degrees(), 1e-12, "ground rising the other way drains to it")
	}
	// Bearing 35.5 degrees, 24.6 m: 14.2853 m east and 20.0272 m north (worked
	// from d sin B, d cos B).
	p := terrain.FromDegrees(35.5).Step(orb.Point{}, 24.6)
	assert.InDelta(t, 14.2853, p[0], 1e-4)
	assert.InDelta(t, 20.0272, p[1], 1e-4)
}

func TestBearingStaysInTheCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(-1e4, 1e4).Draw(t, "degrees")
		b := terrain.FromDegrees(d)
		assert.GreaterOrEqual(t, b.Degrees(), 0.0)
		assert.Less(t, b.Degrees(), 360.0)
		e, n := b.Unit()
		assert.InDelta(t, math.Sin(d*math.Pi/180), e, 1e-9)
		assert.InDelta(t, math.Cos(d*math.Pi/180), n, 1e-9)
	})
}

// plane is ground falling 1 in 10 to the east and 1 in 20 to the north.
type plane struct{}

func (plane) HeightAt(p orb.Point) (float64, bool) { return 10 - p[0]/10 - p[1]/20, p[0] < 9 }

func TestSampleAndReadBack(t *testing.T) {
	b := orb.Bound{Min: orb.Point{1, 2}, Max: orb.Point{11, 7}}
	g := terrain.Sample(plane{}, b, 0.5, func(p orb.Point) bool { return p[1] >= 3 })
	require.NoError(t, g.Check())
	assert.Equal(t, 21, g.Cols)
	assert.Equal(t, 11, g.Rows)
	for _, p := range []orb.Point{{2.3, 3.1}, {8.2, 6.9}, {1, 3}, {5, 5}} {
		z, ok := g.HeightAt(p)
		want, _ := plane{}.HeightAt(p)
		require.True(t, ok, p)
		assert.InDelta(t, want, z, 1e-12, "bilinear interpolation is exact on a plane")
	}
	for _, p := range []orb.Point{{2, 2.9}, {9.1, 5}, {0.9, 5}, {12, 5}, {5, 7.1}, {math.NaN(), 5}} {
		_, ok := g.HeightAt(p)
		assert.False(t, ok, p)
	}
	assert.True(t, math.IsNaN(g.At(-1, 0)))
	assert.True(t, math.IsNaN(g.At(0, 11)))
}

// Heights along the edge of what is known are read whichever side of a line of
// nodes rounding puts the place on, and whatever lies beyond that line.
func TestHeightsAreReadOnTheLastLineOfNodes(t *testing.T) {
	b := orb.Bound{Min: orb.Point{0, 0}, Max: orb.Point{4, 4}}
	g := terrain.Sample(plane{}, b, 0.5, func(p orb.Point) bool { return p[0] <= 2 && p[1] >= 1 })
	for _, off := range []float64{-1e-9, 0, 1e-9} {
		for _, p := range []orb.Point{{2 + off, 2.3}, {1.2, 1 + off}, {2 + off, 1 - off}, {off, 3}, {1, 4 + off}} {
			z, ok := g.HeightAt(p)
			want, _ := plane{}.HeightAt(p)
			require.True(t, ok, p)
			assert.InDelta(t, want, z, 1e-8)
		}
	}
	for _, p := range []orb.Point{{2.001, 2.3}, {1.2, 0.999}, {-0.001, 3}, {1, 4.001}} {
		_, ok := g.HeightAt(p)
		assert.False(t, ok, p)
	}
}

func TestSlopeFieldReadsBackLinearGradients(t *testing.T) {
	// z = 0.005 x² + 0.01 y²: the gradient is linear, so interpolation is exact.
	field := terrain.NewSlopeField(orb.Bound{Max: orb.Point{10, 10}}, 1, func(p orb.Point) (terrain.Gradient, bool) {
		return terrain.Gradient{East: 0.01 * p[0], North: 0.02 * p[1]}, true
	})
	g, ok := field.GradientAt(orb.Point{3.3, 7.8})
	require.True(t, ok)
	assert.InDelta(t, 0.033, g.East, 1e-12)
	assert.InDelta(t, 0.156, g.North, 1e-12)
	_, ok = field.GradientAt(orb.Point{-0.1, 5})
	assert.False(t, ok)
}

func ExampleGradient_Downhill() {
	g := terrain.Gradient{East: 0, North: 1.0 / 12} // rises to the north
	fmt.Printf("falls %.1f %% towards %.0f degrees\n", 100*g.Fall(), g.Downhill().Degrees())
	// Output: falls 8.3 % towards 180 degrees
}
