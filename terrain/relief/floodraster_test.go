package relief_test

import (
	"fmt"
	"math"
	"runtime"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain"
	"crossfall/terrain/relief"
)

func rasterOf(t require.TestingT, g *terrain.Grid) *relief.Raster {
	r, err := relief.RasterOf(g, 0)
	require.NoError(t, err)
	return r
}

// drawGround is a small grid with many ties, missing heights and heights either side of 0.
func drawGround(t *rapid.T) *terrain.Grid {
	cols, rows := rapid.IntRange(1, 12).Draw(t, "cols"), rapid.IntRange(1, 12).Draw(t, "rows")
	g := terrain.NewGrid(orb.Point{3, 4}, 2, cols, rows)
	steps := rapid.SampledFrom([]int{3, 9, 1000}).Draw(t, "steps")
	for i := range g.Z {
		g.Z[i] = float64(rapid.IntRange(-steps, steps).Draw(t, "z")) / 4
		if rapid.IntRange(0, 11).Draw(t, "hole") == 0 {
			g.Z[i] = math.NaN()
		}
	}
	return g
}

// The big flood fills to the same levels as the plain one, and its ways lead out without
// rising.
func TestFloodAgreesWithFill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGround(t)
		wall := rapid.Bool().Draw(t, "wall")
		want, err := relief.Fill(g, wall)
		require.NoError(t, err)
		got, err := relief.Flood(rasterOf(t, g), wall)
		require.NoError(t, err)
		for i, z := range want.Z {
			if math.IsNaN(z) {
				require.Equal(t, relief.Nowhere, got.To[i])
				continue
			}
			require.Equal(t, z, float64(got.Level.Z[i]), "node %d", i)
			at, steps := i, 0
			for got.To[at] < relief.Out {
				cols, rows := got.To[at].Step()
				next := at + rows*g.Cols + cols
				require.LessOrEqual(t, got.Level.Z[next], got.Level.Z[at])
				at = next
				steps++
				require.Less(t, steps, len(g.Z), "goes round in a ring")
			}
			if got.To[at] == relief.Nowhere {
				require.True(t, wall, "only walls shut water in")
				require.Equal(t, i, at)
			}
		}
	})
}

// The hollows are those of the plain method; where sills tie the spill may be another.
func TestHollowsOfAgreeWithHollows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGround(t)
		opt := relief.HollowOptions{MinCells: 1, NodataIsWall: rapid.Bool().Draw(t, "wall")}
		want := relief.Hollows(g, opt)
		got, err := relief.HollowsOf(rasterOf(t, g), opt)
		require.NoError(t, err)
		require.Len(t, got, len(want))
		for i := range want {
			col, row := (got[i].Spill[0]-3)/2, (got[i].Spill[1]-4)/2
			require.Equal(t, want[i].SpillLevel, g.At(int(col), int(row)))
			got[i].Spill = want[i].Spill
			require.Equal(t, want[i], got[i])
		}
	})
}

// Without ties all is the same, the spill included.
func TestHollowsOfAHillside(t *testing.T) {
	r := hillside(150, 130, 1)
	g := terrain.NewGrid(r.Origin, r.Cell, r.Cols, r.Rows)
	for i, z := range r.Z {
		g.Z[i] = float64(z)
	}
	opt := relief.HollowOptions{MinCells: 1, MinDepth: .001}
	want := relief.Hollows(g, opt)
	require.Greater(t, len(want), 10)
	got, err := relief.HollowsOf(r, opt)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	_, err = relief.HollowsOf(nil, opt)
	assert.Error(t, err)
}

func TestWays(t *testing.T) {
	var col, row int
	for w := relief.North; w <= relief.Nowhere; w++ {
		c, r := w.Step()
		col, row = col+c, row+r
		bc, br := w.Back().Step()
		assert.Equal(t, [2]int{-c, -r}, [2]int{bc, br})
	}
	assert.Zero(t, col)
	assert.Zero(t, row)
	c, r := relief.SouthWest.Step()
	assert.Equal(t, [2]int{-1, -1}, [2]int{c, r})
}

// All that a flood asks for, garbage included, and the raster given: 31 bytes a node at this
// size, 22 at 4000 by 4000, where the edge counts for less.
func TestFloodIsSparing(t *testing.T) {
	r := hillside(1000, 1000, 1)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := relief.Flood(r, false)
	runtime.ReadMemStats(&after)
	require.NoError(t, err)
	assert.LessOrEqual(t, float64(after.TotalAlloc-before.TotalAlloc)/float64(len(r.Z))+4, 34.)
}

func BenchmarkFlood(b *testing.B) {
	for _, n := range []int{500, 1000, 4000} {
		b.Run(fmt.Sprintf("nodes=%dx%d", n, n), func(b *testing.B) {
			big(b, n)
			r := hillside(n, n, 1)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := relief.Flood(r, false); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
