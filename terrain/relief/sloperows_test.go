package relief_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/terrain/relief"
)

func ExampleSlopesOf() {
	// Ground that falls 1 in 10 to the south-west, heights each 2 metres.
	r := &relief.Raster{Cell: 2, Cols: 3, Rows: 3}
	for _, z := range []float32{0, 1, 2, 1, 2, 3, 2, 3, 4} {
		r.Z = append(r.Z, z*.1*2*math.Sqrt2/2)
	}
	s, _ := relief.SlopesOf(context.Background(), r, relief.SlopeRowsOptions{})
	fmt.Printf("falls %.3f, facing %.1f degrees\n", s.Fall[4], s.Facing[4]*180/math.Pi)
	// Output: falls 0.100, facing 225.0 degrees
}

// hillside is seeded ground of the given size: a fall, waves and noise.
func hillside(cols, rows int, cell float64) *relief.Raster {
	r := &relief.Raster{Origin: orb.Point{100, 200}, Cell: cell, Cols: cols, Rows: rows, Z: make([]float32, cols*rows)}
	noise := rand.New(rand.NewPCG(3, 5))
	for row := range rows {
		for col := range cols {
			x, y := float64(col), float64(row)
			z := 200 + .02*y + 9*math.Sin(x/71)*math.Cos(y/93) + 4*math.Sin((x+2*y)/29) + .8*math.Sin((3*x-y)/11)
			r.Z[row*cols+col] = float32(z + .06*(noise.Float64()-.5))
		}
	}
	return r
}

// The streamed slopes are those of the plain method, node by node, with missing heights, at
// the edges and for every method.
func TestSlopeRowsAgreeWithSlopes(t *testing.T) {
	r := hillside(70, 45, 2)
	for _, i := range []int{0, 75, 76, 1000, 1600, 1601, 1602, 1671, 3149} {
		r.Z[i] = float32(math.NaN())
	}
	r.Z[2000] = float32(math.Inf(1))
	g := gridOfRaster(r)
	for _, method := range []relief.Method{relief.Evans, relief.Horn, relief.ZevenbergenThorne} {
		for _, edges := range []bool{false, true} {
			want, err := relief.Slopes(g, relief.SlopeOptions{Method: method, Edges: edges})
			require.NoError(t, err)
			got, err := relief.SlopesOf(context.Background(), r, relief.SlopeRowsOptions{Method: method, Edges: edges})
			require.NoError(t, err)
			for i := range g.Z {
				gradient, ok := want.At(i%g.Cols, i/g.Cols)
				if !ok {
					require.True(t, math.IsNaN(float64(got.Fall[i])), "node %d", i)
					require.True(t, math.IsNaN(float64(got.Facing[i])), "node %d", i)
					continue
				}
				require.InDelta(t, gradient.Fall(), got.Fall[i], 1e-6*(1+gradient.Fall()), "node %d", i)
				apart := math.Abs(float64(gradient.Downhill()) - float64(got.Facing[i]))
				require.LessOrEqual(t, min(apart, 2*math.Pi-apart), 5e-7, "node %d", i)
			}
		}
	}
}

// North-first rows and oblong cells: a plane comes out exact.
func TestSlopeRowsOfAPlane(t *testing.T) {
	src := &rowsOf{cols: 6, x: 2, y: 5}
	for row := range 5 {
		for col := range 6 {
			src.z = append(src.z, float32(.25*2*float64(col)-.125*5*float64(row)))
		}
	}
	for _, northFirst := range []bool{false, true} {
		got := &rowsKept{}
		opt := relief.SlopeRowsOptions{Method: relief.Horn, NorthFirst: northFirst, Edges: true}
		require.NoError(t, relief.SlopeRows(context.Background(), src, got, opt))
		facing := math.Atan2(-.25, .125) + 2*math.Pi
		if northFirst {
			facing = math.Atan2(-.25, -.125) + 2*math.Pi
		}
		require.Len(t, got.fall, 30)
		for i := range got.fall {
			assert.InDelta(t, math.Hypot(.25, .125), got.fall[i], 1e-7)
			assert.InDelta(t, facing, got.facing[i], 5e-7)
		}
	}
}

// Bearings all round against the library's arc tangent: the polynomial is good to 2e-8, and
// float32 keeps 2.4e-7 of a whole turn.
func TestFacingAllRound(t *testing.T) {
	for k := range 3600 {
		want := float64(k) * math.Pi / 1800
		s, c := math.Sincos(want)
		r := &relief.Raster{Cell: 1, Cols: 3, Rows: 3, Z: make([]float32, 9)}
		for i := range r.Z {
			r.Z[i] = float32(-s*float64(i%3-1)) + float32(-c*float64(i/3-1))
		}
		got, err := relief.SlopesOf(context.Background(), r, relief.SlopeRowsOptions{Method: relief.ZevenbergenThorne})
		require.NoError(t, err)
		apart := math.Abs(float64(got.Facing[4]) - want)
		require.LessOrEqual(t, min(apart, 2*math.Pi-apart), 4e-7, "%v degrees", float64(k)/10)
		require.Less(t, float64(got.Facing[4]), 2*math.Pi)
		require.InDelta(t, 1, got.Fall[4], 1e-6)
	}
	level := &relief.Raster{Cell: 1, Cols: 3, Rows: 3, Z: make([]float32, 9)}
	got, err := relief.SlopesOf(context.Background(), level, relief.SlopeRowsOptions{})
	require.NoError(t, err)
	assert.Zero(t, got.Fall[4])
	assert.True(t, math.IsNaN(float64(got.Facing[4])), "level ground faces nowhere")
}

func TestSlopeRowsDoNotDependOnWorkers(t *testing.T) {
	r := hillside(1500, 400, 1)
	one, err := relief.SlopesOf(context.Background(), r, relief.SlopeRowsOptions{Workers: 1})
	require.NoError(t, err)
	for _, workers := range []int{2, 4} {
		other, err := relief.SlopesOf(context.Background(), r, relief.SlopeRowsOptions{Workers: workers})
		require.NoError(t, err)
		for i := range one.Fall {
			if math.Float32bits(one.Fall[i]) != math.Float32bits(other.Fall[i]) ||
				math.Float32bits(one.Facing[i]) != math.Float32bits(other.Facing[i]) {
				t.Fatalf("%d workers: node %d", workers, i)
			}
		}
	}
}

// rowsOf is a source that must copy, and that checks how it is asked.
type rowsOf struct {
	cols  int
	x, y  float64
	z     []float32
	fails int // row from which reading fails; 0 never
	end   int // of the rows read so far
}

func (s *rowsOf) Shape() (int, int)           { return s.cols, len(s.z) / s.cols }
func (s *rowsOf) Spacing() (float64, float64) { return s.x, s.y }

func (s *rowsOf) ReadRows(first, n int, buf []float32) ([]float32, error) {
	if first > 0 && first < s.end-2 {
		return nil, fmt.Errorf("asked for row %d again", first)
	}
	if s.fails > 0 && first+n > s.fails {
		return nil, errors.New("disk gone")
	}
	s.end = first + n
	return buf[:copy(buf, s.z[first*s.cols:(first+n)*s.cols])], nil
}

// rowsKept is a sink that checks the order.
type rowsKept struct {
	lock         sync.Mutex
	fall, facing []float32
	full         int // values after which writing fails; 0 never
}

func (s *rowsKept) WriteRows(_ int, fall, facing []float32) error {
	if !s.lock.TryLock() {
		return errors.New("two calls at once")
	}
	defer s.lock.Unlock()
	if s.full > 0 && len(s.fall) > s.full {
		return errors.New("disk full")
	}
	s.fall = append(s.fall, fall...)
	s.facing = append(s.facing, facing...)
	return nil
}

func TestSlopeRowsStream(t *testing.T) {
	r := hillside(1000, 700, 1)
	want, err := relief.SlopesOf(context.Background(), r, relief.SlopeRowsOptions{Want: relief.FallOnly})
	require.NoError(t, err)
	require.Nil(t, want.Facing)
	for _, workers := range []int{1, 2, 5} {
		var told []int64
		src, dst := &rowsOf{cols: 1000, x: 1, y: 1, z: r.Z}, &rowsKept{}
		require.NoError(t, relief.SlopeRows(context.Background(), src, dst, relief.SlopeRowsOptions{
			Want: relief.FallOnly, Workers: workers, Progress: func(done, _ int64) { told = append(told, done) },
		}))
		require.Equal(t, len(want.Fall), len(dst.fall))
		require.Empty(t, dst.facing)
		for i := range want.Fall {
			if math.Float32bits(want.Fall[i]) != math.Float32bits(dst.fall[i]) {
				t.Fatalf("%d workers: node %d", workers, i)
			}
		}
		require.IsIncreasing(t, told)
		require.Equal(t, int64(700), told[len(told)-1])
	}
}

func TestSlopeRowsStop(t *testing.T) {
	r := hillside(1000, 700, 1)
	for _, workers := range []int{1, 3} {
		opt := relief.SlopeRowsOptions{Workers: workers}
		err := relief.SlopeRows(context.Background(), &rowsOf{cols: 1000, x: 1, y: 1, z: r.Z, fails: 300}, &rowsKept{}, opt)
		assert.ErrorContains(t, err, "disk gone")
		err = relief.SlopeRows(context.Background(), r, &rowsKept{full: 200_000}, opt)
		assert.ErrorContains(t, err, "disk full")
		ctx, cancel := context.WithCancel(context.Background())
		opt.Progress = func(int64, int64) { cancel() }
		err = relief.SlopeRows(ctx, r, &rowsKept{}, opt)
		assert.ErrorIs(t, err, context.Canceled)
	}
	short := &rowsOf{cols: 3, x: 0, y: 1, z: make([]float32, 9)}
	assert.ErrorContains(t, relief.SlopeRows(context.Background(), short, &rowsKept{}, relief.SlopeRowsOptions{}), "spaced 0 by 1")
	assert.NoError(t, relief.SlopeRows(context.Background(), &relief.Raster{Cell: 1}, &rowsKept{}, relief.SlopeRowsOptions{}))
	_, err := relief.SlopesOf(context.Background(), &relief.Raster{Cell: 1, Cols: 2, Rows: 2}, relief.SlopeRowsOptions{})
	assert.ErrorContains(t, err, "holds 0 heights")
	_, err = relief.SlopesOf(context.Background(), nil, relief.SlopeRowsOptions{})
	assert.ErrorContains(t, err, "no raster")
}

// big skips the sizes of a hillside in a short run.
func big(b *testing.B, n int) {
	b.Helper()
	if n > 1000 && testing.Short() {
		b.Skip("a big grid")
	}
}

func BenchmarkSlopeRows(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		ground := sync.OnceValue(func() *relief.Raster { return hillside(n, n, 1) })
		for _, want := range []struct {
			name string
			is   relief.Wanted
		}{{"fall", relief.FallOnly}, {"facing", relief.FacingOnly}} {
			for _, workers := range []int{1, 2} {
				b.Run(fmt.Sprintf("nodes=%dx%d/%s/workers=%d", n, n, want.name, workers), func(b *testing.B) {
					big(b, n)
					r := ground()
					dst, err := relief.SlopesOf(context.Background(), r, relief.SlopeRowsOptions{Want: want.is})
					require.NoError(b, err)
					b.SetBytes(8 * int64(n) * int64(n))
					for b.Loop() {
						opt := relief.SlopeRowsOptions{Method: relief.Horn, Want: want.is, Workers: workers}
						if err := relief.SlopeRows(context.Background(), r, dst, opt); err != nil {
							b.Fatal(err)
						}
					}
				})
			}
		}
	}
}

// BenchmarkCopy reads and writes the memory of a grid once: the least that any work on it
// can take.
func BenchmarkCopy(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		ground := sync.OnceValue(func() *relief.Raster { return hillside(n, n, 1) })
		for _, workers := range []int{1, 2} {
			b.Run(fmt.Sprintf("nodes=%dx%d/workers=%d", n, n, workers), func(b *testing.B) {
				big(b, n)
				from := ground().Z
				to := make([]float32, len(from))
				b.SetBytes(8 * int64(n) * int64(n))
				for b.Loop() {
					var all sync.WaitGroup
					for k := range workers {
						i, j := k*len(from)/workers, (k+1)*len(from)/workers
						all.Go(func() {
							to := to[i:j]
							copy(to, from[i:j])
						})
					}
					all.Wait()
				}
			})
		}
	}
}
