package surface_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/terrain/surface"
)

func simulated(t testing.TB, s surface.Surface, nodes []orb.Point, draws int) [][]float64 {
	t.Helper()
	out, err := surface.Simulate(s, nodes, draws, 1)
	require.NoError(t, err)
	require.Len(t, out.Heights, draws)
	return out.Heights
}

// The means and covariances of 4000 draws against those of the fitted ground,
// within four Monte Carlo standard errors: sqrt(c/N) of a mean and
// sqrt((v_a v_b + c^2)/N) of a covariance c.
func TestDrawsHaveTheFittedMeanAndCovariance(t *testing.T) {
	const draws = 4000
	nodes := []orb.Point{{3, 8}, {10, 5}, {10.3, 5}, {25, 5}, {9, 6.4}}
	surfaces := map[surface.Kind]surface.Surface{surface.SmoothKind: smoothEight(t)}
	for _, kind := range []surface.Kind{surface.PlaneKind, surface.CurvedKind} {
		surfaces[kind] = fitOf(t, eightPoints(), surface.Options{Force: kind, Sigma: 0.01}).Surface
	}
	for _, kind := range []surface.Kind{surface.PlaneKind, surface.CurvedKind, surface.SmoothKind} {
		s := surfaces[kind]
		out := simulated(t, s, nodes, draws)
		mean := make([]float64, len(nodes))
		for _, z := range out {
			for i := range z {
				mean[i] += z[i] / draws
			}
		}
		for i, a := range nodes {
			want, _ := s.HeightAt(a)
			va := s.HeightCovariance(a, a)
			assert.InDelta(t, want, mean[i], 4*math.Sqrt(va/draws), "%s %v", kind, a)
			for j, b := range nodes[:i+1] {
				sum := 0.0
				for _, z := range out {
					sum += (z[i] - mean[i]) * (z[j] - mean[j]) / (draws - 1)
				}
				c := s.HeightCovariance(a, b)
				assert.InDelta(t, c, sum, 4*math.Sqrt((va*s.HeightCovariance(b, b)+c*c)/draws), "%s %v %v", kind, a, b)
			}
		}
	}
}

// The drop from (9, 6.4) to (9, 7.6) on the smooth ground of eight heights:
// mean .11261490, standard deviation .00911109 and P(drop > .12) = .208809,
// recomputed independently from the joint covariance.
func TestDropAmongDraws(t *testing.T) {
	const draws = 4000
	over, sum, squares := 0, 0.0, 0.0
	for _, z := range simulated(t, smoothEight(t), []orb.Point{{9, 6.4}, {9, 7.6}}, draws) {
		d := z[0] - z[1]
		if d > .12 {
			over++
		}
		sum, squares = sum+d, squares+(d-.11261490)*(d-.11261490)
	}
	assert.InDelta(t, .11261490, sum/draws, 4*.00911109/math.Sqrt(draws))
	assert.InDelta(t, .00911109, math.Sqrt(squares/draws), 4*.00911109/math.Sqrt(2*draws))
	assert.InDelta(t, .208809, float64(over)/draws, .013, "two Monte Carlo standard errors")
}

// The bearing of a gradient with one error every way is a projected normal (Mardia &
// Jupp 2000, Directional Statistics, from memory). Its density, worked by another
// program for a gradient of four standard errors, puts .512690 of the bearings within 10
// degrees of the mean and .414358 between it and 20 degrees to one side.
func TestBearingsOfDrawnPlanes(t *testing.T) {
	const draws = 20_000
	var spots []geodata.SpotHeight
	for i := range 9 {
		x, y := float64(i%3)*10, float64(i/3)*10
		// 0.05 against sigma / sqrt(600) = 0.0125
		spots = append(spots, geodata.SpotHeight{At: orb.Point{x, y}, Height: 0.05 * y, Sigma: 0.0125 * math.Sqrt(600)})
	}
	plane := fitOf(t, spots, surface.Options{Force: surface.PlaneKind}).Surface
	near, side := 0, 0
	for _, z := range simulated(t, plane, []orb.Point{{10, 10}, {11, 10}, {10, 11}}, draws) {
		off := math.Atan2(z[1]-z[0], z[2]-z[0]) * 180 / math.Pi
		if math.Abs(off) < 10 {
			near++
		}
		if off > 0 && off < 20 {
			side++
		}
	}
	assert.InDelta(t, .512690, float64(near)/draws, 4*.5/math.Sqrt(draws), "four Monte Carlo standard errors")
	assert.InDelta(t, .414358, float64(side)/draws, 4*.5/math.Sqrt(draws))
}

func lattice(n int, cell float64) (out []orb.Point) {
	for i := range n * n {
		out = append(out, orb.Point{cell * float64(i%n), cell * float64(i/n)})
	}
	return out
}

// The same bits whatever the number of processors, and the same first draws
// whatever their number.
func TestDrawsDependOnTheSeedOnly(t *testing.T) {
	spots := rippleHill().survey(rand.New(rand.NewPCG(5, 1)), 30, 0.012)
	fit := fitOf(t, spots, surface.Options{})
	require.Equal(t, surface.SmoothKind, fit.Kind)
	nodes := lattice(16, 1)
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	first := simulated(t, fit, nodes, 130)
	for _, workers := range []int{1, 2, 8} {
		runtime.GOMAXPROCS(workers)
		assert.Equal(t, first, simulated(t, fit, nodes, 130))
	}
	assert.InDeltaSlice(t, first[1], simulated(t, fit, nodes, 2)[1], 1e-12)
	other, err := surface.Simulate(fit, nodes, 1, 2)
	require.NoError(t, err)
	assert.NotEqual(t, first[0], other.Heights[0])
}

// The draws are as much wider than hyperparameters known for certain would give
// as the standard errors are.
func TestDrawsAreWidened(t *testing.T) {
	spots := rippleHill().survey(rand.New(rand.NewPCG(5, 1)), 20, 0.012)
	fit := fitOf(t, spots, surface.Options{})
	require.Equal(t, surface.SmoothKind, fit.Kind)
	certain, err := surface.SmoothWith(spots, fit.Smooth.Hyper, surface.Options{})
	require.NoError(t, err)
	p := []orb.Point{{7, 7}}
	wide, narrow := simulated(t, fit, p, 50), simulated(t, certain, p, 50)
	z, _ := fit.HeightAt(p[0])
	assert.Greater(t, fit.Smooth.Widening, 1.1)
	for r := range wide {
		assert.InEpsilon(t, fit.Smooth.Widening*fit.Quantile/1.959964, (wide[r][0]-z)/(narrow[r][0]-z), 1e-6)
	}
}

func TestSimulatedSurface(t *testing.T) {
	fit := fitOf(t, spotsAt(ninePoints(), evenHeights), surface.Options{Sigma: 0.020})
	require.Equal(t, surface.PlaneKind, fit.Kind)
	over := orb.Bound{Max: orb.Point{20, 16}}
	out, smoothed, err := surface.SimulateSurfaces(fit, over, 2, 3, 7)
	require.NoError(t, err)
	assert.Zero(t, smoothed)
	for _, s := range out {
		// A drawn plane is a plane: one gradient all over, and heights to match.
		height := func(p orb.Point) float64 {
			z, _ := fit.HeightAt(p)
			d, ok := s.Departure.HeightAt(p)
			require.True(t, ok)
			return z + d
		}
		g, ok := s.GradientAt(orb.Point{1, 1})
		require.True(t, ok)
		for _, p := range []orb.Point{{0, 0}, {20, 16}, {7.3, 9.1}} {
			h, ok := s.GradientAt(p)
			require.True(t, ok)
			assert.InDelta(t, g.East, h.East, 1e-9)
			assert.InDelta(t, g.North, h.North, 1e-9)
			assert.InDelta(t, height(orb.Point{1, 1})+g.East*(p[0]-1)+g.North*(p[1]-1), height(p), 1e-9)
		}
		for _, p := range []orb.Point{{21, 3}, {-1, 3}, {3, 17}} {
			_, ok := s.GradientAt(p)
			assert.False(t, ok, "%v is off the lattice", p)
		}
	}
	assert.NotEqual(t, out[0].Departure.Z[0], out[1].Departure.Z[0])

	fine, _, err := surface.SimulateSurfaces(fit, over, 0, 1, 7)
	require.NoError(t, err)
	assert.LessOrEqual(t, len(fine[0].Departure.Z), 1500)
	assert.Greater(t, len(fine[0].Departure.Z), 1350)
}

// Ground of more nodes than are drawn keeps the variances of heights, and of
// differences of heights over a bed's width, less what it says is left out, and
// as far as 2000 draws can show (three standard errors).
func TestManyNodesKeepTheirVariance(t *testing.T) {
	fit := fitOf(t, rippleHill().survey(rand.New(rand.NewPCG(5, 1)), 30, 0.012), surface.Options{})
	require.Equal(t, surface.SmoothKind, fit.Kind)
	nodes := lattice(60, 0.25)
	const draws = 2000
	drawn, err := surface.Simulate(fit.Smooth, nodes, draws, 3)
	require.NoError(t, err)
	assert.Greater(t, drawn.Smoothed, 0.0)
	assert.Less(t, drawn.Smoothed, 0.008, "two thirds of a reading's error")
	variance := func(of func(z []float64) float64) float64 {
		sum, squares := 0.0, 0.0
		for _, z := range drawn.Heights {
			v := of(z)
			sum, squares = sum+v, squares+v*v
		}
		return (squares - sum*sum/draws) / (draws - 1)
	}
	noise, left := 3*math.Sqrt(2.0/draws), drawn.Smoothed*drawn.Smoothed
	for _, i := range []int{0, 61, 777, 1830, 2222, 3541} {
		want := fit.HeightCovariance(nodes[i], nodes[i])
		assert.InDelta(t, want, variance(func(z []float64) float64 { return z[i] }), noise*want+left, "%v", nodes[i])
		j := i + 5 // 1.25 m east
		_, sd := surface.Drop(fit.Smooth, nodes[i], nodes[j])
		assert.InDelta(t, sd*sd, variance(func(z []float64) float64 { return z[i] - z[j] }), noise*sd*sd+4*left, "%v", nodes[i])
	}
}

// The draws of a Fit with few heights lie in its Student intervals as often as
// those say.
func TestDrawsLieInTheIntervals(t *testing.T) {
	fit := fitOf(t, eightPoints(), surface.Options{Sigma: 0.01, Force: surface.SmoothKind})
	p := orb.Point{6, 6}
	z, _ := fit.HeightAt(p)
	half := fit.Quantile * math.Sqrt(fit.HeightCovariance(p, p))
	in := 0
	for _, d := range simulated(t, fit, []orb.Point{p}, 4000) {
		if math.Abs(d[0]-z) <= half {
			in++
		}
	}
	assert.InDelta(t, 0.95, float64(in)/4000, 3*math.Sqrt(0.95*0.05/4000))
}

func TestSimulateRefuses(t *testing.T) {
	m := smoothEight(t)
	for _, draws := range []int{0, -1, math.MaxInt} {
		_, err := surface.Simulate(m, []orb.Point{{1, 1}}, draws, 1)
		assert.Error(t, err)
	}
	_, err := surface.Simulate(m, []orb.Point{{math.NaN(), 1}}, 1, 1)
	assert.Error(t, err)
	_, err = surface.Simulate(nil, nil, 1, 1)
	assert.Error(t, err)
	for _, cell := range []float64{-1, math.NaN(), 1e-9, math.Inf(1)} {
		_, _, err = surface.SimulateSurfaces(m, orb.Bound{Max: orb.Point{20, 10}}, cell, 1, 1)
		assert.Error(t, err, "%v", cell)
	}
	_, _, err = surface.SimulateSurfaces(m, orb.Bound{}, 0, 1, 1)
	assert.Error(t, err)
	out := simulated(t, m, nil, 2)
	assert.Empty(t, out[0])
	// One place asked twice, and places a hair apart, need the trace.
	twice := simulated(t, m, []orb.Point{{1, 1}, {1, 1}, {1, 1.000001}}, 3)
	for _, z := range twice {
		assert.InDelta(t, z[0], z[1], 1e-5)
	}
}

func BenchmarkSimulate(b *testing.B) {
	fit := fitOf(b, rippleHill().survey(rand.New(rand.NewPCG(1, 1)), 60, 0.012), surface.Options{})
	for _, n := range []int{20, 40, 100} {
		b.Run(fmt.Sprintf("nodes=%d", n*n), func(b *testing.B) {
			for b.Loop() {
				simulated(b, fit, lattice(n, 16/float64(n)), surface.DefaultDraws)
			}
		})
	}
}
