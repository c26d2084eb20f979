package surface_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"crossfall/terrain"
	"crossfall/terrain/surface"
)

// Recomputed independently by integrating over the angle, where the radius has
// a closed form, for three gradients of the smooth surface of eight heights; a
// Rice distribution of the mean variance is off by .005 to .015.
func TestFallExceedsOnSmoothGround(t *testing.T) {
	m := smoothEight(t)
	for _, c := range []struct {
		at   orb.Point
		want float64
	}{
		{orb.Point{10, 5}, .022707}, {orb.Point{3, 8}, .208261}, {orb.Point{25, 5}, .502285},
	} {
		g, _ := m.GradientAt(c.at)
		assert.InDelta(t, c.want, surface.FallExceeds(g, m.GradientCovariance(c.at), 0.1), 6e-7, "%v", c.at)
	}
}

// rice is the probability of a fall over t when both parts have standard
// deviation s: the series of the noncentral chi-squared on 2 degrees of freedom, a
// Poisson mixture of central ones.
func rice(mu, s, t float64) float64 {
	half, x := mu*mu/(2*s*s), t*t/(2*s*s)
	weight, term, tail, sum := math.Exp(-half), math.Exp(-x), math.Exp(-x), 0.0
	for j := 0; j < 2000; j++ {
		sum += weight * tail
		weight *= half / float64(j+1)
		term *= x / float64(j+1)
		tail += term
	}
	return sum
}

// With one error every way the probability is that of a noncentral chi-squared on 2
// degrees of freedom (Johnson, Kotz & Balakrishnan 1995, chapter 29, from memory).
func TestFallExceedsIsRiceWhenRound(t *testing.T) {
	round := func(s float64) [2][2]float64 { return [2][2]float64{{s * s, 0}, {0, s * s}} }
	assert.InDelta(t, .187404717, rice(.08, .02, .10), 5e-10)
	assert.InDelta(t, .187404717, surface.FallExceeds(terrain.Gradient{East: .08}, round(.02), .10), 5e-10)
	for _, mu := range []float64{0, .01, .05, .1, .12} {
		for _, s := range []float64{.004, .01, .05, .3, 2} {
			for _, limit := range []float64{.02, .1, .3} {
				g := terrain.Gradient{East: .6 * mu, North: -.8 * mu}
				assert.InDelta(t, rice(mu, s, limit), surface.FallExceeds(g, round(s), limit), 1e-9, "%v %v %v", mu, s, limit)
			}
		}
	}
}

// By hand: with all the error along the gradient the fall is |N|.
func TestFallExceedsOnALine(t *testing.T) {
	phi := func(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
	for _, c := range []struct{ mean, sd, limit float64 }{{.1, .02, .11}, {.1, .2, .11}, {0, .05, .02}, {.1, .03, .01}} {
		want := 1 - phi((c.limit-c.mean)/c.sd) + phi((-c.limit-c.mean)/c.sd)
		for _, turn := range []float64{0, 37, 90, 200} {
			e, n := terrain.FromDegrees(turn).Unit()
			v := c.sd * c.sd
			got := surface.FallExceeds(terrain.Gradient{East: c.mean * e, North: c.mean * n},
				[2][2]float64{{v * e * e, v * e * n}, {v * e * n, v * n * n}}, c.limit)
			assert.InDelta(t, want, got, 1e-7, "%+v turned %v", c, turn)
		}
	}
}

// The narrow form must meet the integral where it takes over.
func TestFallExceedsIsContinuous(t *testing.T) {
	for _, z := range []float64{-2, -0.5, 0, 1} {
		g := terrain.Gradient{East: .06, North: .08}
		at := func(s float64) float64 {
			return surface.FallExceeds(g, [2][2]float64{{s * s, .3 * s * s}, {.3 * s * s, .5 * s * s}}, 0.1*(1+z*s/0.1))
		}
		s := 0.999e-4 // under a thousandth of the limit
		assert.InDelta(t, at(1.05e-4), at(s), 3e-5, "z %v", z)
	}
	assert.Equal(t, 1.0, surface.FallExceeds(terrain.Gradient{East: .2}, [2][2]float64{}, .1))
	assert.Equal(t, 0.0, surface.FallExceeds(terrain.Gradient{East: .1}, [2][2]float64{}, .1))
	assert.Equal(t, 1.0, surface.FallExceeds(terrain.Gradient{}, [2][2]float64{{1e-4, 0}, {0, 0}}, 0))
	assert.Equal(t, 1.0, surface.FallExceeds(terrain.Gradient{}, [2][2]float64{}, -0.1))
	assert.True(t, math.IsNaN(surface.FallExceeds(terrain.Gradient{East: math.NaN()}, [2][2]float64{}, 0.1)))
	assert.True(t, math.IsNaN(surface.FallExceeds(terrain.Gradient{}, [2][2]float64{}, math.NaN())))
}

// Any covariance against counting among seeded draws.
func TestFallExceedsAgainstCounting(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 1))
	const draws = 40000
	for _, c := range []struct{ east, north, s1, s2, r, limit float64 }{
		{.05, .02, .03, .01, .6, .06}, {.0, .0, .02, .002, -.9, .02}, {.2, -.1, .1, .1, .5, .25}, {.1, 0, .0005, .05, 0, .1},
	} {
		cov := [2][2]float64{{c.s1 * c.s1, c.r * c.s1 * c.s2}, {c.r * c.s1 * c.s2, c.s2 * c.s2}}
		over := 0
		for range draws {
			a, b := rng.NormFloat64(), rng.NormFloat64()
			e, n := c.east+c.s1*a, c.north+c.s2*(c.r*a+math.Sqrt(1-c.r*c.r)*b)
			if math.Hypot(e, n) > c.limit {
				over++
			}
		}
		p := surface.FallExceeds(terrain.Gradient{East: c.east, North: c.north}, cov, c.limit)
		assert.InDelta(t, p, float64(over)/draws, 4*math.Sqrt(p*(1-p)/draws), "%+v", c)
	}
}

func TestFallExceedsIsAProbability(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := func(label string) float64 { return math.Pow(10, rapid.Float64Range(-9, 2).Draw(t, label)) }
		e, n := terrain.FromDegrees(rapid.Float64Range(0, 360).Draw(t, "axis")).Unit()
		a, b := s("a"), s("b")
		cov := [2][2]float64{{a*a*e*e + b*b*n*n, (a*a - b*b) * e * n}, {(a*a - b*b) * e * n, a*a*n*n + b*b*e*e}}
		g := terrain.Gradient{East: rapid.Float64Range(-1, 1).Draw(t, "east"), North: rapid.Float64Range(-1, 1).Draw(t, "north")}
		last := 1.0
		for _, limit := range []float64{0, 1e-6, .01, .1, .5, 1, 10, 1e4} {
			p := surface.FallExceeds(g, cov, limit)
			if !(p >= 0 && p <= last+1e-5) {
				t.Fatalf("probability %v over %v, %v over less", p, limit, last)
			}
			last = p
		}
	})
}
