package sun_test

import (
	"math"
	"testing"
	"time"

	"crossfall/terrain"
	"crossfall/terrain/sun"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The same lengths of shade, the plane turned so that the sun stands over -y: a
// thin thing takes the one hour from the origin as far as the shade of its top
// reaches, and no farther.
func TestTakenAsFarAsTheShade(t *testing.T) {
	at := func(altitude, azimuth float64) sun.Position {
		return sun.Position{Altitude: altitude / degrees, Azimuth: terrain.FromDegrees(azimuth)}
	}
	december := at(15.0620, 180.3349) // 21 December, noon UTC, 51.5 N 0.13 W
	for name, c := range map[string]struct {
		sun          sun.Position
		fall, to     float64
		height, ends float64
	}{
		// H / (tan of altitude + rise of the ground away from the sun), worked by hand
		"level, 21 December at noon":         {december, 0, 0, 1.8, 6.689},
		"15 % down to the north":             {december, .15, 0, 1.8, 15.112},
		"15 % down to the south":             {december, .15, 180, 1.8, 4.295},
		"10 % down to the north-east, March": {at(26.2177, 227.7296), .10, 45, 2.0, 5.095},
		"12 % down to the east, 1 September": {at(27.0716, 248.0097), .12, 90, 5.0, 12.505},
	} {
		t.Run(name, func(t *testing.T) {
			turn := c.sun.Azimuth.Degrees() - 180
			ground := falling(c.fall, c.to-turn)
			s, err := sun.NewScene(ground, around(ground, 0), terrain.FromDegrees(turn), nil)
			require.NoError(t, err)
			places := terrain.Sample(ground, orb.Bound{Min: orb.Point{0, -16}, Max: orb.Point{0, 16}}, 0.005, nil)
			taken := make([]float64, len(places.Z))
			const radius = 0.0001
			thin := sun.Obstacle{Centre: orb.Point{}, Radius: radius, Height: c.height}
			s.Taken(sun.Day{Length: 1, Sun: []sun.Position{c.sun}}, []orb.Point{{0, 0}}, thin, places, taken)
			farthest := 0.0
			for row := range places.Rows {
				y := places.Node(0, row)[1]
				if taken[row*places.Cols] > 0 {
					assert.InDelta(t, 1, taken[row*places.Cols], 1e-12)
					farthest = math.Max(farthest, -y)
					assert.LessOrEqual(t, y, radius, "behind the place")
				}
			}
			assert.InDelta(t, c.ends, farthest, 0.006)
		})
	}
}

// What is told for a node is what Hours loses when the thing is put there, whatever
// else stands about: places picked at random.
func TestTakenIsTheHoursLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		ground := falling(number(0, 0.3, "fall"), number(0, 360, "down to"))
		hedge := sun.Obstacle{Line: orb.LineString{{-4, 6}, {5, 7}}, Height: 2, Passes: number(0, 1, "hedge passes")}
		ash := sun.Obstacle{Centre: orb.Point{3, -6}, Radius: 1.5, Height: 5, Passes: 0.5}
		north := terrain.FromDegrees(number(0, 360, "north"))
		day := sun.Over(time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, rapid.IntRange(0, 364).Draw(t, "day")), number(-66, 66, "latitude"), 0, 24)
		points := []orb.Point{{0, 0}, {1.2, 0.4}, {-0.3, 1}}
		things := []sun.Obstacle{hedge, ash}
		s, err := sun.NewScene(ground, around(ground, 0), north, things)
		require.NoError(t, err)

		thing := sun.Obstacle{Radius: number(0.05, 4, "radius"), Height: number(0.3, 12, "height"), Passes: number(0, 0.9, "passes")}
		places := terrain.Sample(ground, orb.Bound{Min: orb.Point{-9, -8}, Max: orb.Point{9, 8}}, 0.75, func(p orb.Point) bool { return p[0] < 7 })
		taken := make([]float64, len(places.Z))
		s.Taken(day, points, thing, places, taken)
		before := s.Hours(day, points)
		for range 12 {
			col, row := rapid.IntRange(0, places.Cols-1).Draw(t, "col"), rapid.IntRange(0, places.Rows-1).Draw(t, "row")
			got := taken[row*places.Cols+col]
			if math.IsNaN(places.At(col, row)) {
				assert.Zero(t, got)
				continue
			}
			put := thing
			put.Centre = places.Node(col, row)
			with, err := sun.NewScene(ground, around(ground, 0), north, append([]sun.Obstacle{put}, things...))
			require.NoError(t, err)
			assert.InDelta(t, before-with.Hours(day, points), got, 1e-9)
		}
	})
}

// 12 beds of 6 points among 10 obstacles, four dates in 64 parts, a tree of 6 m and
// 10,201 places half a metre apart.
func BenchmarkTaken12Beds10201Places(b *testing.B) {
	var things []sun.Obstacle
	for i := range 10 {
		x := float64(4 * i)
		things = append(things, sun.Obstacle{Line: orb.LineString{{x, -3}, {x + 3, -3}, {x + 3, -6}, {x, -6}, {x, -3}}, Height: 2})
	}
	ground := slope{North: .1}
	s, err := sun.NewScene(ground, around(ground, 0), 0, things)
	require.NoError(b, err)
	places := terrain.Sample(ground, orb.Bound{Min: orb.Point{-5, -20}, Max: orb.Point{45, 30}}, 0.5, nil)
	require.Len(b, places.Z, 10201)
	taken := make([]float64, len(places.Z))
	for b.Loop() {
		for bed := range 12 {
			var points []orb.Point
			for i := range 6 {
				points = append(points, orb.Point{float64(3*bed + i), float64(i % 2)})
			}
			for _, month := range []time.Month{3, 6, 9, 12} {
				day := sun.Over(time.Date(2026, month, 21, 0, 0, 0, 0, time.UTC), 51.5, 0, 64)
				s.Taken(day, points, sun.Obstacle{Radius: 2, Height: 6}, places, taken)
			}
		}
	}
}
