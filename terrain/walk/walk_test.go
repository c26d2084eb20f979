package walk_test

import (
	"fmt"
	"testing"

	"crossfall/geodata"
	"crossfall/terrain/surface"
	"crossfall/terrain/walk"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// nine is the nine-point survey of a plane worked by hand from the normal equations:
// gradient 0.060166667 east, 0.050208333 north, fall 7.836392 %, downslope
// azimuth 230.155423 degrees; precision 20 mm, chi-squared 6.42 on 6 degrees of
// freedom.
func nine() *geodata.Plot {
	z := []float64{100.00, 100.62, 101.18, 100.41, 100.98, 101.63, 100.79, 101.42, 102.00}
	p := &geodata.Plot{Name: "nine", Frame: geodata.Frame{North: "the +y axis"}}
	for i, h := range z {
		p.Spots = append(p.Spots, geodata.SpotHeight{
			Name: fmt.Sprintf("h%d", i+1), At: orb.Point{float64(i%3) * 10, float64(i/3) * 8}, Height: h, Sigma: 0.020, Readings: 1,
		})
	}
	p.Boundary = orb.Polygon{{{0, 0}, {20, 0}, {20, 16}, {0, 16}, {0, 0}}}
	return p
}

func TestLook(t *testing.T) {
	s, err := walk.Look(nine())
	require.NoError(t, err)
	assert.Equal(t, "plane", s.Surface)
	assert.InDelta(t, 7.836392, s.Fall.Value, 1e-5)
	require.NotNil(t, s.Bearing)
	assert.InDelta(t, 230.155423, s.Bearing.Value, 1e-5)
	assert.Less(t, s.Bearing.Low, s.Bearing.Value)
	assert.InDelta(t, 20, s.Precision, 1e-9)
	assert.InDelta(t, 8, s.Spacing, 1e-9)
	assert.Empty(t, s.Suspects)
	require.Len(t, s.Readings, 9)
	assert.InDelta(t, 25, s.Readings[5].Residual, 1e-3, "25 mm at (20, 8)")
	require.NotNil(t, s.Gap)
	corner := s.Gap.At
	assert.True(t, (corner[0] < 4 || corner[0] > 16) && (corner[1] < 4 || corner[1] > 12), "a plane is least sure at a corner: %v", corner)
}

func TestLookNamesAMisbookedHeight(t *testing.T) {
	p := nine()
	p.Spots[5].Height += 1
	s, err := walk.Look(p)
	require.NoError(t, err)
	require.NotEmpty(t, s.Suspects)
	assert.Equal(t, "h6", s.Suspects[0].Name)
}

func TestLookNeedsThreeHeights(t *testing.T) {
	p := nine()
	p.Spots = p.Spots[:2]
	_, err := walk.Look(p)
	assert.ErrorIs(t, err, surface.ErrTooFewHeights)
}

// At (15, 12) the plane of the nine heights is 101.505 m: worked from
// 101.003333 + 5 gx + 4 gy.
func TestChallenge(t *testing.T) {
	p, at := nine(), orb.Point{15, 12}
	assert.Nil(t, walk.Challenge(p, at, 101.51), "it agrees")
	for _, c := range []struct {
		height float64
		slip   float64
		said   string
	}{
		{102.505, 101.505, "1 m misread"},
		{101.405, 101.505, "0.1 m misread"},
		{102.005, 101.505, "0.5 m misread"},
		{110.505, 101.505, "two digits changed places"},
		{-101.505, 101.505, "the sign"},
		{333.02, 101.5045, "feet booked as metres"},
	} {
		d := walk.Challenge(p, at, c.height)
		require.NotNil(t, d, c.said)
		assert.InDelta(t, 101.505, d.Expected, 1e-3)
		var said []string
		for _, s := range d.Slips {
			said = append(said, s.Said)
			if s.Said == c.said {
				assert.InDelta(t, c.slip, s.Height, 1e-3)
			}
		}
		assert.Contains(t, said, c.said, "%v", c.height)
	}
	d := walk.Challenge(p, at, 101.9)
	require.NotNil(t, d)
	assert.Contains(t, d.Said, "0.40 m above what its neighbours say (101.50 m)")
}

func TestChallengeKeepsQuietWithoutGrounds(t *testing.T) {
	p := nine()
	assert.Nil(t, walk.Challenge(p, orb.Point{200, 200}, 50), "too far off to say")
	p.Spots = p.Spots[:3]
	assert.Nil(t, walk.Challenge(p, orb.Point{15, 12}, 50), "too few to say")
}

func ExampleChallenge() {
	p := nine()
	fmt.Println(walk.Challenge(p, orb.Point{15, 12}, 102.505).Said)
	// Output: 1.00 m above what its neighbours say (101.50 m): 102.505, or 101.505 (1 m misread)?
}

// Two planes of gradient 0.02 east and 0.03 north with a wall of 0.600 m between
// them at x = 10: one plane through all ten heights gives gx -0.0297 and faces
// 136 degrees, wrong by 77; each side alone faces 213.690 (worked by hand).
func TestFitPlotKeepsToItsSideOfAWall(t *testing.T) {
	at := [][3]float64{
		{2, 1, 10.07}, {5, 6, 10.28}, {8, 2, 10.22}, {3, 9, 10.33}, {7, 8, 10.38},
		{12, 1, 9.67}, {15, 6, 9.88}, {18, 2, 9.82}, {13, 9, 9.93}, {17, 8, 9.98},
	}
	p := &geodata.Plot{Boundary: orb.Polygon{{{0, 0}, {20, 0}, {20, 10}, {0, 10}, {0, 0}}}}
	for _, h := range at {
		p.Spots = append(p.Spots, geodata.SpotHeight{At: orb.Point{h[0], h[1]}, Height: h[2], Sigma: 0.01, Readings: 1})
	}
	p.Fixtures = []geodata.Fixture{{Kind: geodata.BreakLineKind, Name: "wall", Shape: orb.LineString{{10, 0}, {10, 10}}}}
	fit, err := walk.FitPlot(p)
	require.NoError(t, err)
	for _, q := range []orb.Point{{5, 5}, {15, 5}} {
		g, ok := fit.GradientAt(q)
		require.True(t, ok)
		assert.InDelta(t, 0.02, g.East, 1e-9)
		assert.InDelta(t, 0.03, g.North, 1e-9)
		assert.InDelta(t, 213.690, g.Downhill().Degrees(), 1e-3)
	}
	left, _ := fit.HeightAt(orb.Point{9.999, 5})
	right, _ := fit.HeightAt(orb.Point{10.001, 5})
	assert.InDelta(t, 0.600, left-right, 1e-3)
}
