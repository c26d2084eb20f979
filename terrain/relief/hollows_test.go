package relief_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain"
	"crossfall/terrain/relief"
)

// Two basins that run together under one spill level, worked by hand: every cell under 6 in the
// two is filled to 6, the height of the lowest way out, and 16 m3 stand there.
var twoBasins = [][]float64{
	{9, 9, 9, 9, 9, 9},
	{9, 5, 6, 7, 3, 9},
	{9, 4, 2, 6, 4, 8},
	{9, 5, 4, 7, 5, 7},
	{9, 9, 6, 9, 9, 9},
	{9, 9, 5, 9, 9, 9},
}

func TestFillOfTwoBasins(t *testing.T) {
	filled, err := relief.Fill(gridOf(1, twoBasins...), false)
	require.NoError(t, err)
	assert.Equal(t, gridOf(1,
		[]float64{9, 9, 9, 9, 9, 9},
		[]float64{9, 6, 6, 7, 6, 9},
		[]float64{9, 6, 6, 6, 6, 8},
		[]float64{9, 6, 6, 7, 6, 7},
		[]float64{9, 9, 6, 9, 9, 9},
		[]float64{9, 9, 5, 9, 9, 9},
	), filled)
	_, err = relief.Fill(nil, false)
	assert.Error(t, err)
}

// The two basins touch only across a sill at the spill level itself, so each holds its own
// water: (6-5) + (6-4) + (6-2) + (6-5) + (6-4) = 10 m3 and (6-3) + (6-4) + (6-5) = 6 m3.
func TestHollowsOfTwoBasins(t *testing.T) {
	found := relief.Hollows(gridOf(1, twoBasins...), relief.HollowOptions{MinCells: 1})
	require.Len(t, found, 2)
	west, east := found[0], found[1]
	assert.Equal(t, 10., west.Volume)
	assert.Equal(t, 5., west.Area)
	assert.Equal(t, 4., west.Depth)
	assert.Equal(t, 2., west.Bottom)
	assert.Equal(t, orb.Point{2, 3}, west.Deepest)
	assert.Equal(t, 6., west.SpillLevel)
	assert.Equal(t, orb.Point{2, 1}, west.Spill)
	assert.Equal(t, []int{13, 14, 19, 20, 25}, west.Cells)
	assert.Equal(t, 6., east.Volume)
	assert.Equal(t, 6., east.SpillLevel)
	assert.Equal(t, orb.Point{3, 3}, east.Spill)
	assert.Equal(t, 16., west.Volume+east.Volume)

	require.Len(t, west.Outline, 1)
	assert.Equal(t, orb.Ring{{.5, 1.5}, {2.5, 1.5}, {2.5, 3.5}, {1.5, 3.5}, {1.5, 4.5}, {.5, 4.5}, {.5, 1.5}}, west.Outline[0])

	assert.Len(t, relief.Hollows(gridOf(1, twoBasins...), relief.HollowOptions{}), 1, "the eastern one has 3 cells")
	assert.Empty(t, relief.Hollows(gridOf(1, twoBasins...), relief.HollowOptions{Sigma: 1.4}), "4 m is within three times 1.4 m")
	assert.Len(t, relief.Hollows(gridOf(1, twoBasins...), relief.HollowOptions{Sigma: 1.4, MinDepth: 4}), 1)
}

// A bowl z = .05 r^2 with a rim at r = 4 holds a paraboloid of water: depth .8 m, area 16 pi,
// volume half of depth times area. One notch in the rim lowers it.
func TestHollowOfABowl(t *testing.T) {
	bowl := func(x, y float64) float64 {
		r := math.Hypot(x, y)
		if r <= 4 {
			return 20 + .05*r*r
		}
		return 20.8 - .02*(r-4)
	}
	g := gridFrom(orb.Point{-6, -6}, .1, 121, 121, bowl)
	found := relief.Hollows(g, relief.HollowOptions{})
	require.Len(t, found, 1)
	h := found[0]
	assert.InDelta(t, .8, h.Depth, .005)
	assert.InEpsilon(t, 16*math.Pi, h.Area, .02)
	assert.InEpsilon(t, .5*.8*16*math.Pi, h.Volume, .02)
	assert.InDelta(t, 0, planar.Distance(orb.Point{}, h.Deepest), 1e-9)
	assert.InDelta(t, 4, planar.Distance(orb.Point{}, h.Spill), .15) // a cell across its corners
	assert.InDelta(t, h.Area, planar.Area(h.Outline), 1e-9)

	for row := range 121 {
		for col := 60; col < 121; col++ {
			if p := g.Node(col, row); p[0] > 2.9 && math.Abs(p[1]) < .01 {
				g.Set(col, row, min(g.At(col, row), 20.45))
			}
		}
	}
	h = relief.Hollows(g, relief.HollowOptions{})[0]
	assert.InDelta(t, 20.45, h.SpillLevel, 1e-12)
	assert.InDelta(t, 3, h.Spill[0], .11)
	assert.InDelta(t, 0, h.Spill[1], 1e-9)
}

func TestMissingHeightsAreOutletsOrWalls(t *testing.T) {
	rows := [][]float64{
		{5, 5, 5, 5, 5, 5},
		{5, 1, 1, 1, 1, 5},
		{5, 1, 1, 1, 1, 5},
		{5, 1, 1, 1, 1, 5},
		{5, 1, 1, 1, math.NaN(), 5},
		{5, 5, 5, 5, 5, 5},
	}
	g := gridOf(2, rows...)
	assert.Empty(t, relief.Hollows(g, relief.HollowOptions{}))
	found := relief.Hollows(g, relief.HollowOptions{NodataIsWall: true})
	require.Len(t, found, 1)
	assert.Equal(t, 15*4., found[0].Area)
	assert.Equal(t, 15*4*4., found[0].Volume)
}

// An island in a moat gives an outline with a hole; a shut-in region gives no hollow.
func TestOutlineHasAHole(t *testing.T) {
	g := gridFrom(orb.Point{}, 1, 7, 7, func(x, y float64) float64 {
		switch r := max(math.Abs(x-3), math.Abs(y-3)); r {
		case 1:
			return 0
		case 2:
			return 1
		}
		return 2 - max(math.Abs(x-3), math.Abs(y-3))/3
	})
	found := relief.Hollows(g, relief.HollowOptions{})
	require.Len(t, found, 1)
	require.Len(t, found[0].Outline, 2)
	assert.Equal(t, orb.CCW, found[0].Outline[0].Orientation())
	assert.Equal(t, orb.CW, found[0].Outline[1].Orientation())
	assert.Equal(t, 8., planar.Area(found[0].Outline))
}

func TestHollowsWithoutAnAnswer(t *testing.T) {
	assert.Empty(t, relief.Hollows(nil, relief.HollowOptions{}))
	assert.Empty(t, relief.Hollows(terrain.NewGrid(orb.Point{}, 1, 5, 5), relief.HollowOptions{}))
	assert.Empty(t, relief.Hollows(terrain.NewGrid(orb.Point{}, 1, 0, 0), relief.HollowOptions{}))
	shallow := gridFrom(orb.Point{}, 1, 5, 5, func(x, y float64) float64 { return .002 * math.Hypot(x-2, y-2) })
	assert.Empty(t, relief.Hollows(shallow, relief.HollowOptions{}))
}

// The filled level of a cell is the least, over all ways to an outlet, of the highest ground
// on the way: here by repeated relaxation (Planchon & Darboux 2001, Catena 46), a method of
// another kind. The hollows hold exactly the water between ground and fill.
func TestFillAgreesWithRelaxation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cols, rows := rapid.IntRange(3, 9).Draw(t, "cols"), rapid.IntRange(3, 9).Draw(t, "rows")
		g := terrain.NewGrid(orb.Point{}, 1, cols, rows)
		for i := range g.Z {
			g.Z[i] = float64(rapid.IntRange(0, 6).Draw(t, "z"))
		}
		filled, err := relief.Fill(g, false)
		if err != nil {
			t.Fatal(err)
		}
		var water, held, area float64
		for i, want := range relax(g) {
			if filled.Z[i] != want {
				t.Fatalf("cell %d filled to %v, not %v", i, filled.Z[i], want)
			}
			water += want - g.Z[i]
		}
		for _, h := range relief.Hollows(g, relief.HollowOptions{MinCells: 1}) {
			held += h.Volume
			area += h.Area
			if got := planar.Area(h.Outline); math.Abs(got-h.Area) > 1e-9 {
				t.Fatalf("outline of %v m2 round %v m2", got, h.Area)
			}
			if z, ok := nodeHeight(g, h.Spill); !ok || z != h.SpillLevel {
				t.Fatalf("spill at %v, level %v", z, h.SpillLevel)
			}
		}
		if held != water {
			t.Fatalf("hollows hold %v of %v", held, water)
		}
	})
}

func nodeHeight(g *terrain.Grid, p orb.Point) (float64, bool) {
	z := g.At(int(p[0]), int(p[1]))
	return z, !math.IsNaN(z)
}

func relax(g *terrain.Grid) []float64 {
	level := make([]float64, len(g.Z))
	for i := range level {
		level[i] = math.Inf(1)
		if c, r := i%g.Cols, i/g.Cols; c == 0 || r == 0 || c == g.Cols-1 || r == g.Rows-1 {
			level[i] = g.Z[i]
		}
	}
	for changed := true; changed; {
		changed = false
		for i := range level {
			for _, d := range [][2]int{{-1, -1}, {0, -1}, {1, -1}, {-1, 0}, {1, 0}, {-1, 1}, {0, 1}, {1, 1}} {
				c, r := i%g.Cols+d[0], i/g.Cols+d[1]
				if c < 0 || r < 0 || c >= g.Cols || r >= g.Rows {
					continue
				}
				if w := max(g.Z[i], level[r*g.Cols+c]); w < level[i] {
					level[i], changed = w, true
				}
			}
		}
	}
	return level
}

func BenchmarkHollows(b *testing.B) {
	for _, n := range []int{50, 200, 1000} {
		b.Run(fmt.Sprintf("nodes=%dx%d", n, n), func(b *testing.B) {
			g := gridFrom(orb.Point{}, 20/float64(n), n, n, rolling)
			b.ReportAllocs()
			for b.Loop() {
				relief.Hollows(g, relief.HollowOptions{})
			}
		})
	}
}
