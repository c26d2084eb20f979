package surface_test

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/terrain/surface"
)

// smoothEight is the smooth surface of eight heights at fixed hyperparameters.
func smoothEight(t testing.TB) *surface.Smooth {
	m, err := surface.SmoothWith(eightPoints(), surface.Hyper{Range: 12, Variance: 0.04}, surface.Options{Sigma: 0.01})
	require.NoError(t, err)
	return m
}

// Trend and restricted likelihood, recomputed independently from the forms of
// Rasmussen & Williams 2006 (equations 2.41, 2.42 and 4.17).
func TestSmoothTrendAndLikelihood(t *testing.T) {
	m := smoothEight(t)
	assert.Equal(t, orb.Point{10, 5}, m.Centre)
	for i, want := range [3]float64{1.45192288, -.00956514, -.08725343} {
		assert.InDelta(t, want, m.Trend[i], 5e-9)
	}
	for i, want := range [3]float64{.13546893, .01014539, .01311730} {
		assert.InDelta(t, want, math.Sqrt(m.TrendCovariance[i][i]), 5e-9)
	}
	assert.InDelta(t, .103778076, m.LogLikelihood, 5e-10)
}

// Heights, gradients and their errors, recomputed independently from the same forms
// (Rasmussen & Williams 2006, equations 2.41, 2.42 and 4.17).
func TestSmoothPosterior(t *testing.T) {
	m := smoothEight(t)
	cases := []struct {
		at                              orb.Point
		mean, sd, gx, gy, vxx, vxy, vyy float64
		fall, facing, fallError         float64
		extrapolated                    bool
	}{
		{at: orb.Point{10, 5}, mean: 1.58107936, sd: .03046238, gx: -.00628472, gy: -.08454528,
			vxx: 4.585598e-5, vxy: 0, vyy: 5.607915e-5, fall: .08477854, facing: 4.2513, fallError: .007485},
		{at: orb.Point{3, 8}, mean: 1.37080214, sd: .02678890, gx: -.00535788, gy: -.09129864,
			vxx: 7.901335e-5, vxy: 5.604631e-5, vyy: 9.618152e-5, fall: .09145571, facing: 3.3586, fallError: .010133},
		{at: orb.Point{25, 5}, mean: 1.35866728, sd: .09695641, gx: -.01872145, gy: -.09583578,
			vxx: 5.168261e-4, vxy: 0, vyy: 1.795925e-4, fall: .09764727, facing: 11.0535, fallError: .013856, extrapolated: true},
	}
	for _, c := range cases {
		z, _ := m.HeightAt(c.at)
		assert.InDelta(t, c.mean, z, 5e-9)
		assert.InDelta(t, c.sd, math.Sqrt(m.HeightCovariance(c.at, c.at)), 5e-9)
		g, _ := m.GradientAt(c.at)
		assert.InDelta(t, c.gx, g.East, 5e-9)
		assert.InDelta(t, c.gy, g.North, 5e-9)
		assert.InDelta(t, c.fall, g.Fall(), 5e-9)
		assert.InDelta(t, c.facing, g.Downhill().Degrees(), 5e-5)
		v := m.GradientCovariance(c.at)
		assert.InDelta(t, c.vxx, v[0][0], 1e-10)
		assert.InDelta(t, c.vxy, v[0][1], 1e-10)
		assert.InDelta(t, c.vyy, v[1][1], 1e-10)
		assert.Equal(t, v[0][1], v[1][0])
		_, _, high := surface.FallInterval(g, v, 1)
		assert.InDelta(t, c.fallError, high-g.Fall(), 5e-7)
		assert.Equal(t, c.extrapolated, m.Extrapolated(c.at), "at %v", c.at)
	}
	assert.InDelta(t, -1.91531232e-4, m.HeightCovariance(orb.Point{10, 5}, orb.Point{3, 8}), 5e-13)
}

// Leave-one-out figures, recomputed independently (Rasmussen & Williams 2006, section
// 5.4.2).
func TestSmoothLeaveOneOut(t *testing.T) {
	m := smoothEight(t)
	residual := []float64{-.08487973, -.08151067, .01214434, -.00007370, -.06015263, -.13462791, .05943947, .07586076}
	sd := []float64{.14129891, .08295490, .14129891, .14129891, .08295490, .14129891, .06609024, .06609024}
	for i, o := range m.LeftOut {
		assert.InDelta(t, residual[i], o.Residual, 5e-9)
		assert.InDelta(t, sd[i], o.Sigma, 5e-9)
	}
}

// The same leave-one-out figures by brute force: fit the others and ask them.
func TestLeaveOneOutIsRefitting(t *testing.T) {
	all := eightPoints()
	m := smoothEight(t)
	for i, s := range all {
		rest := append(append([]geodata.SpotHeight(nil), all[:i]...), all[i+1:]...)
		r, err := surface.SmoothWith(rest, m.Hyper, surface.Options{Sigma: 0.01})
		require.NoError(t, err)
		z, _ := r.HeightAt(s.At)
		assert.InDelta(t, s.Height-z, m.LeftOut[i].Residual, 1e-9)
		assert.InDelta(t, math.Sqrt(r.HeightCovariance(s.At, s.At)+1e-4), m.LeftOut[i].Sigma, 1e-9)
	}
}

// The drop across a bed and its error, recomputed independently from the joint
// covariance (Rasmussen & Williams 2006, equations 2.41 and 2.42).
func TestDropOnSmoothGround(t *testing.T) {
	m := smoothEight(t)
	a, b := orb.Point{9, 6.4}, orb.Point{9, 7.6}
	za, _ := m.HeightAt(a)
	zb, _ := m.HeightAt(b)
	assert.InDelta(t, 1.46570561, za, 5e-9)
	assert.InDelta(t, 1.35309071, zb, 5e-9)
	fall, sigma := surface.Drop(m, a, b)
	assert.InDelta(t, .11261490, fall, 6e-9)
	assert.InDelta(t, .00911109, sigma, 5e-9)
	assert.InDelta(t, 6.35793775e-4, m.HeightCovariance(a, b), 5e-13)
}

// The gradient and its covariance are the limits of a drop over its distance.
func TestGradientIsLimitOfDrop(t *testing.T) {
	m := smoothEight(t)
	p := orb.Point{6, 3}
	const d = 1e-3
	fall, sigma := surface.Drop(m, orb.Point{p[0] - d, p[1]}, orb.Point{p[0] + d, p[1]})
	g, _ := m.GradientAt(p)
	assert.InDelta(t, g.East, -fall/(2*d), 1e-8)
	assert.InEpsilon(t, math.Sqrt(m.GradientCovariance(p)[0][0]), sigma/(2*d), 1e-4)
}

func TestSmoothWithRefuses(t *testing.T) {
	for _, h := range []surface.Hyper{{}, {Range: 1}, {Range: math.NaN(), Variance: 1}, {Range: 1, Variance: math.Inf(1)}} {
		_, err := surface.SmoothWith(eightPoints(), h, surface.Options{})
		assert.Error(t, err)
	}
	_, err := surface.SmoothWith(eightPoints()[:3], surface.Hyper{Range: 12, Variance: .04}, surface.Options{})
	assert.Error(t, err)
}
