package relief_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"sync"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/terrain"
	"crossfall/terrain/relief"
)

// plainContours draws one level after another by the same rules, square by square, with the
// segments in a map by the two nodes of the side they start on.
func plainContours(r *terrain.Grid, levels []float64) []relief.Contour {
	var out []relief.Contour
	for _, level := range levels {
		out = append(out, plainLevel(r, level)...)
	}
	return out
}

type nodePair [2]int

func plainLevel(r *terrain.Grid, level float64) []relief.Contour {
	next, led := map[nodePair]nodePair{}, map[nodePair]bool{}
	var starts []nodePair
	for row := range r.Rows - 1 {
		for col := range r.Cols - 1 {
			sw := row*r.Cols + col
			nodes := [4]int{sw, sw + 1, sw + 1 + r.Cols, sw + r.Cols}
			for _, s := range plainSquare(r, nodes, level) {
				next[s[0]], led[s[1]] = s[1], true
				starts = append(starts, s[0])
			}
		}
	}
	var out []relief.Contour
	for _, open := range []bool{true, false} {
		for _, s := range starts {
			if _, left := next[s]; !left || (open && led[s]) {
				continue
			}
			c := relief.Contour{Level: level, Line: orb.LineString{plainPlace(r, s, level)}}
			at := s
			for to, ok := next[at]; ok; to, ok = next[at] {
				delete(next, at)
				at = to
				if p := plainPlace(r, at, level); p != c.Line[len(c.Line)-1] {
					c.Line = append(c.Line, p)
				}
			}
			c.Closed = at == s
			if len(c.Line) > 1 {
				out = append(out, c)
			}
		}
	}
	return out
}

// plainSquare pairs the sides of a square, in a ring from the southern one, that a level
// crosses: each where the corners turn high with one where they turn low.
func plainSquare(r *terrain.Grid, nodes [4]int, level float64) (segments [][2]nodePair) {
	var z [4]float64
	var up, down []int
	for i, n := range nodes {
		z[i] = r.Z[n]
		if math.IsNaN(z[i]) {
			return nil
		}
	}
	for i := range 4 {
		switch a, b := z[i] >= level, z[(i+1)%4] >= level; {
		case !a && b:
			up = append(up, i)
		case a && !b:
			down = append(down, i)
		}
	}
	side := func(i int) nodePair {
		a, b := nodes[i], nodes[(i+1)%4]
		return nodePair{min(a, b), max(a, b)}
	}
	if len(up) == 2 {
		// Parted, a line goes from a side round the high corner that follows; joined, from a
		// side round the low corner before it. The southern side comes first.
		on := 1
		if saddle := (z[3]*z[1] - z[2]*z[0]) / (z[3] + z[1] - z[2] - z[0]); saddle >= level {
			on = 3
		}
		if up[0] != 0 && (up[1]+on)%4 == 0 {
			up[0], up[1] = up[1], up[0]
		}
		down = []int{(up[0] + on) % 4, (up[1] + on) % 4}
	}
	for k := range up {
		segments = append(segments, [2]nodePair{side(up[k]), side(down[k])})
	}
	return segments
}

func plainPlace(r *terrain.Grid, s nodePair, level float64) orb.Point {
	t := (level - r.Z[s[0]]) / (r.Z[s[1]] - r.Z[s[0]])
	col, row := float64(s[0]%r.Cols), float64(s[0]/r.Cols)
	if s[1] == s[0]+1 {
		col += t
	} else {
		row += t
	}
	return orb.Point{r.Origin[0] + col*r.Cell, r.Origin[1] + row*r.Cell}
}

// Many bands, missing heights, levels that nodes lie exactly on, levels out of order and
// twice: the same lines in the same order as level by level, whatever the workers.
func TestContoursAgreeWithPlainOnes(t *testing.T) {
	r := gridOfRaster(hillside(90, 300, 3))
	chance := rand.New(rand.NewPCG(1, 2))
	for range 60 {
		r.Z[chance.IntN(len(r.Z))] = math.NaN()
	}
	for i := range r.Z {
		r.Z[i] = math.Round(r.Z[i]*4) / 4
	}
	levels := []float64{200, 201.25, 195.3, 203.33, 190, 201.25}
	want := plainContours(r, levels)
	require.Greater(t, len(want), 30)
	for _, workers := range []int{0, 1, 2, 4} {
		got, err := relief.ContoursBy(r, levels, workers)
		require.NoError(t, err)
		require.True(t, reflect.DeepEqual(want, got), "%d workers", workers)
	}
	// Saddles by the thousand.
	noise := terrain.NewGrid(orb.Point{}, 1, 70, 140)
	for i := range noise.Z {
		noise.Z[i] = float64(chance.IntN(40)) / 8
	}
	levels = []float64{1.1003, 2.50071, 3.3007} // no saddle lies at one of them
	got, err := relief.ContoursBy(noise, levels, 2)
	require.NoError(t, err)
	require.True(t, reflect.DeepEqual(plainContours(noise, levels), got))
}

// The lines of a cone 300 m high are circles: their length in all is 2 pi times the sum of
// the radii, less the chords' shortness.
func TestContoursOfABigCone(t *testing.T) {
	r := gridFrom(orb.Point{-300, -300}, 1, 601, 601, func(x, y float64) float64 { return 300 - math.Hypot(x, y) })
	lines, err := relief.ContoursBy(r, relief.Levels(10, 295, 5), 2)
	require.NoError(t, err)
	require.Len(t, lines, 57)
	var length, want float64
	for _, c := range lines {
		require.True(t, c.Closed)
		length += planar.Length(c.Line)
		want += 2 * math.Pi * (300 - c.Level)
	}
	assert.InEpsilon(t, want, length, 1e-4)
	assert.Less(t, length, want)
}

func BenchmarkContoursBy(b *testing.B) {
	for _, n := range []int{1000, 4000} {
		ground := sync.OnceValue(func() *terrain.Grid { return gridOfRaster(hillside(n, n, 1)) })
		for _, workers := range []int{1, 2} {
			b.Run(fmt.Sprintf("nodes=%dx%d/interval=5m/workers=%d", n, n, workers), func(b *testing.B) {
				big(b, n)
				r := ground()
				levels := relief.Levels(150, 320, 5)
				b.ReportAllocs()
				for b.Loop() {
					lines, err := relief.ContoursBy(r, levels, workers)
					if err != nil || len(lines) == 0 {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
