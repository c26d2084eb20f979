package surface_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"crossfall/geodata"
	"crossfall/terrain/surface"
)

// drawSurvey is an invented survey of one of three kinds of ground.
func drawSurvey(t *rapid.T) []geodata.SpotHeight {
	n := rapid.IntRange(6, 24).Draw(t, "heights")
	seed := rapid.Uint64().Draw(t, "seed")
	h := rapid.SampledFrom([]func() hill{planeHill, bowlHill, rippleHill}).Draw(t, "hill")
	return h().survey(rand.New(rand.NewPCG(seed, 1)), n, 0.012)
}

func mustFit(t *rapid.T, spots []geodata.SpotHeight) *surface.Fit {
	fit, err := surface.FitSpots(spots, surface.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

func near6(t *rapid.T, a, b, scale float64, what string) {
	if math.Abs(a-b) > 1e-5*(scale+math.Abs(a)) {
		t.Fatalf("%s: %v and %v", what, a, b)
	}
}

func TestAddingAConstantLeavesGradients(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spots := drawSurvey(t)
		up := rapid.Float64Range(-500, 500).Draw(t, "up")
		raised := append([]geodata.SpotHeight(nil), spots...)
		for i := range raised {
			raised[i].Height += up
		}
		a, b := mustFit(t, spots), mustFit(t, raised)
		p := orb.Point{8, 6}
		ga, _ := a.GradientAt(p)
		gb, _ := b.GradientAt(p)
		near6(t, ga.East, gb.East, 0.1, "east")
		near6(t, ga.North, gb.North, 0.1, "north")
		za, _ := a.HeightAt(p)
		zb, _ := b.HeightAt(p)
		near6(t, za+up, zb, 0.1, "height")
	})
}

func TestTurningThePlotTurnsTheBearing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spots := drawSurvey(t)
		angle := rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle") // clockwise
		s, c := math.Sincos(angle)
		turn := func(p orb.Point) orb.Point { return orb.Point{c*p[0] + s*p[1], c*p[1] - s*p[0]} }
		turned := append([]geodata.SpotHeight(nil), spots...)
		for i := range turned {
			turned[i].At = turn(turned[i].At)
		}
		a, b := mustFit(t, spots), mustFit(t, turned)
		if a.Kind != b.Kind {
			t.Fatalf("%s became %s", a.Kind, b.Kind)
		}
		p := orb.Point{8, 6}
		ga, _ := a.GradientAt(p)
		gb, _ := b.GradientAt(turn(p))
		near6(t, ga.Fall(), gb.Fall(), 0.1, "fall")
		e, n := ga.Downhill().Unit()
		d := turn(orb.Point{e, n})
		near6(t, ga.Fall()*d[0], -gb.East, 0.1, "east")
		near6(t, ga.Fall()*d[1], -gb.North, 0.1, "north")
		va, vb := a.GradientCovariance(p), b.GradientCovariance(turn(p))
		near6(t, va[0][0]+va[1][1], vb[0][0]+vb[1][1], 1e-6, "variance")
		fa, sa := surface.Drop(a, p, orb.Point{9, 9})
		fb, sb := surface.Drop(b, turn(p), turn(orb.Point{9, 9}))
		near6(t, fa, fb, 0.1, "drop")
		near6(t, sa, sb, 0.01, "its error")
	})
}

// A covariance is one: no combination of heights has a variance under 0.
func TestHeightCovarianceIsPositive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fit := mustFit(t, drawSurvey(t))
		var at [4]orb.Point
		var w [4]float64
		for i := range at {
			at[i] = orb.Point{rapid.Float64Range(-5, 25).Draw(t, "x"), rapid.Float64Range(-5, 20).Draw(t, "y")}
			w[i] = rapid.Float64Range(-1, 1).Draw(t, "w")
		}
		v, size := 0.0, 0.0
		for i := range at {
			for j := range at {
				c := fit.HeightCovariance(at[i], at[j])
				v += w[i] * w[j] * c
				size += math.Abs(c)
			}
		}
		if v < -1e-9*(size+1e-3) {
			t.Fatalf("variance %v", v)
		}
	})
}
