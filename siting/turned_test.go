package siting_test

import (
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The ground falls 8 % to the south and the bed's long side falls a tenth of
// its length to the east. With along = (cos, -sin) and up = (sin, cos) of
// atan 0.1, the uphill side's lower corner is the middle + 1.8 along + 0.6 up;
// water passes it 0.15 m along and 0.15 m up clear, and then runs due south.
func TestAFrameTurnsWaterToTheLowEndOfItsUphillSide(t *testing.T) {
	sin, cos := math.Sincos(math.Atan(0.1))
	along, up, middle := orb.Point{cos, -sin}, orb.Point{sin, cos}, orb.Point{5.8, 5.5}
	place := func(right, back float64) orb.Point {
		return orb.Point{middle[0] + right*along[0] + back*up[0], middle[1] + right*along[1] + back*up[1]}
	}
	p := plane(0.08, 0.005)
	p.Fixtures = []geodata.Fixture{{
		Kind: geodata.BedKind, Name: "bed", Pinned: true,
		Shape: orb.Polygon{{place(-1.8, -.6), place(1.8, -.6), place(1.8, .6), place(-1.8, .6), place(-1.8, -.6)}},
	}}
	a := assess(t, p)
	passes := place(1.8+.15, .6+.15)[0]
	turned := 0
	for i, path := range a.Water.PathsWithBeds {
		bare := a.Water.Paths[i]
		last := path.Points[len(path.Points)-1]
		if len(bare.Crosses) == 0 {
			assert.Empty(t, path.TurnedBy)
			assert.InDelta(t, bare.Points[0][0], last[0], .02, "water that misses the bed runs due south")
			continue
		}
		turned++
		assert.Equal(t, []string{"bed"}, path.TurnedBy)
		assert.Empty(t, path.Crosses)
		assert.InDelta(t, passes, last[0], .02)
		assert.Contains(t, path.Said, "turned aside by the boards of bed")
	}
	require.Positive(t, turned, "some path meets the bed")
}

func TestNoPathCrossesAFrame(t *testing.T) {
	for _, name := range []string{"hillside", "hillside-pinned"} {
		a := assess(t, read(t, name))
		require.NotEmpty(t, a.Water.PathsWithBeds)
		for _, b := range a.Beds {
			if b.Build == nil || b.Build.BoardDownhill == 0 {
				continue
			}
			inner := shrunk(b, .01)
			for _, path := range a.Water.PathsWithBeds {
				assert.NotContains(t, path.Crosses, b.Name)
				for i := 1; i < len(path.Points)-1; i++ { // thinned points: the straight line between may cut a corner
					assert.False(t, planar.RingContains(inner, path.Points[i]), "%s inside %s", path.Name, b.Name)
				}
			}
		}
	}
}

// shrunk is a bed's outline drawn in towards its middle by a share.
func shrunk(b siting.Bed, share float64) orb.Ring {
	var ring orb.Ring
	for _, c := range b.Corners {
		ring = append(ring, orb.Point{
			c[0] + share*(b.Centre[0]-c[0]), c[1] + share*(b.Centre[1]-c[1]),
		})
	}
	return append(ring, ring[0])
}
