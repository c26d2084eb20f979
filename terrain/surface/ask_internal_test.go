package surface

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func smoothOfEight(t testing.TB) *Smooth {
	m, err := SmoothWith(spotsOf(eight), Hyper{Range: 12, Variance: .04}, Options{Sigma: .01})
	require.NoError(t, err)
	return m
}

// Covariances with gradients are derivatives of those of heights.
func TestAskedAgainstDifferences(t *testing.T) {
	m := smoothOfEight(t)
	s, err := newSurvey(spotsOf(eight), Options{Sigma: .01})
	require.NoError(t, err)
	l, ok := fitLinear(s, quadraticTerms, nil)
	require.True(t, ok)
	const d = 1e-2
	moved := func(p orb.Point, what part, by float64) orb.Point {
		p[what-eastPart] += by
		return p
	}
	p, q := orb.Point{3, 8}, orb.Point{6.5, 5}
	for _, a := range []asker{m, l} {
		for _, i := range []part{eastPart, northPart} {
			slope := (a.HeightCovariance(moved(p, i, d), q) - a.HeightCovariance(moved(p, i, -d), q)) / (2 * d)
			got := a.covariance(a.ask(p, i), a.ask(q, heightPart))
			assert.InDelta(t, slope, got, 1e-8)
			assert.InDelta(t, got, a.covariance(a.ask(q, heightPart), a.ask(p, i)), 1e-15)
			for _, j := range []part{eastPart, northPart} {
				from := func(by float64) float64 {
					return a.covariance(a.ask(p, i), a.ask(moved(q, j, by), heightPart))
				}
				assert.InDelta(t, (from(d)-from(-d))/(2*d), a.covariance(a.ask(p, i), a.ask(q, j)), 2e-8)
			}
		}
		v := a.GradientCovariance(p)
		for i, at := range []part{eastPart, northPart} {
			for j, bt := range []part{eastPart, northPart} {
				assert.InDelta(t, v[i][j], a.covariance(a.ask(p, at), a.ask(p, bt)), 1e-14)
			}
		}
		assert.InDelta(t, a.HeightCovariance(p, q), a.covariance(a.ask(p, heightPart), a.ask(q, heightPart)), 1e-15)
	}
}

// Recomputed independently: the covariance of the gradient at (3, 8) with the
// height at five places.
func TestCovarianceOfGradientAndHeight(t *testing.T) {
	m := smoothOfEight(t)
	for _, c := range []struct {
		at          orb.Point
		east, north float64
	}{
		{orb.Point{25, 5}, 2.941e-5, 6.465e-5}, {orb.Point{0, 5}, -2.2949e-4, -2.5236e-4},
		{orb.Point{10, 5}, 1.791e-5, -1.93e-6}, {orb.Point{10, 7}, 2.273e-5, -5.91e-6}, {orb.Point{20, 5}, 3.296e-5, 3.906e-5},
	} {
		x := m.ask(c.at, heightPart)
		assert.InDelta(t, c.east, m.covariance(m.ask(orb.Point{3, 8}, eastPart), x), 6e-9, "%v", c.at)
		assert.InDelta(t, c.north, m.covariance(m.ask(orb.Point{3, 8}, northPart), x), 6e-9, "%v", c.at)
	}
}
