package surface_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/terrain/surface"
)

// spotsAt pairs positions with heights.
func spotsAt(at []orb.Point, z []float64) []geodata.SpotHeight {
	out := make([]geodata.SpotHeight, len(at))
	for i := range at {
		out[i] = geodata.SpotHeight{Name: fmt.Sprintf("p%d", i+1), At: at[i], Height: z[i]}
	}
	return out
}

// ninePoints are x 0, 10, 20 by y 0, 8, 16, x fastest.
func ninePoints() []orb.Point {
	var out []orb.Point
	for _, y := range []float64{0, 8, 16} {
		for _, x := range []float64{0, 10, 20} {
			out = append(out, orb.Point{x, y})
		}
	}
	return out
}

// eightPoints is a small made-up plot for smooth surfaces.
func eightPoints() []geodata.SpotHeight {
	return spotsAt(
		[]orb.Point{{0, 0}, {10, 0}, {20, 0}, {0, 10}, {10, 10}, {20, 10}, {5, 5}, {15, 5}},
		[]float64{2.00, 1.95, 1.90, 1.20, 1.10, 0.95, 1.62, 1.55},
	)
}

func fitOf(t testing.TB, spots []geodata.SpotHeight, opt surface.Options) *surface.Fit {
	t.Helper()
	fit, err := surface.FitSpots(spots, opt)
	require.NoError(t, err)
	return fit
}

// near asserts a relative difference of at most 1e-6, with 5e-9 for figures
// printed to so many places.
func near(t testing.TB, want, got float64, what string) {
	t.Helper()
	assert.InDelta(t, want, got, 1e-6*math.Abs(want)+5e-9, what)
}

// jittered is n points of a plot 20 by 15 m, each somewhere in its own cell of
// a lattice.
func jittered(rng *rand.Rand, n int) []orb.Point {
	cols := int(math.Sqrt(float64(n) * 20 / 15))
	rows := (n + cols - 1) / cols
	var out []orb.Point
	for i := range n {
		c, r := i%cols, i/cols
		out = append(out, orb.Point{
			(float64(c) + 0.1 + 0.8*rng.Float64()) * 20 / float64(cols),
			(float64(r) + 0.1 + 0.8*rng.Float64()) * 15 / float64(rows),
		})
	}
	return out
}

// hill is ground known by formula.
type hill struct {
	name   string
	height func(x, y float64) float64
}

// gradient is by central differences, good to about 1e-9.
func (h hill) gradient(p orb.Point) (east, north float64) {
	const d = 1e-4
	return (h.height(p[0]+d, p[1]) - h.height(p[0]-d, p[1])) / (2 * d),
		(h.height(p[0], p[1]+d) - h.height(p[0], p[1]-d)) / (2 * d)
}

func planeHill() hill {
	return hill{"plane", func(x, y float64) float64 { return 50 + 0.03*x - 0.06*y }}
}

func bowlHill() hill {
	return hill{"bowl", func(x, y float64) float64 {
		return 50 + 0.03*x - 0.06*y + 0.0015*(x-10)*(x-10) + 0.002*(y-7)*(y-7)
	}}
}

func rippleHill() hill {
	return hill{"ripple", func(x, y float64) float64 {
		return 50 + 0.03*x - 0.06*y + 0.15*math.Sin(2*math.Pi*x/11)*math.Cos(2*math.Pi*y/11)
	}}
}

// survey reads the hill at n points with normal errors, to the millimetre.
func (h hill) survey(rng *rand.Rand, n int, sigma float64) []geodata.SpotHeight {
	at := jittered(rng, n)
	z := make([]float64, n)
	for i, p := range at {
		z[i] = math.Round(1000*(h.height(p[0], p[1])+sigma*rng.NormFloat64())) / 1000
	}
	return spotsAt(at, z)
}
