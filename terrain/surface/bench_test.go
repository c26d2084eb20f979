package surface_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"crossfall/terrain/surface"
)

func BenchmarkQuadratic(b *testing.B) {
	for _, n := range []int{52, 2000} {
		spots := bowlHill().survey(rand.New(rand.NewPCG(1, 1)), n, 0.012)
		if n == 52 {
			spots = davis(b)
		}
		b.Run(fmt.Sprintf("heights=%d", n), func(b *testing.B) {
			for b.Loop() {
				fitOf(b, spots, surface.Options{Force: surface.CurvedKind})
			}
		})
	}
}

// BenchmarkSmooth is the whole choice on rippled ground, which ends smooth.
func BenchmarkSmooth(b *testing.B) {
	for _, n := range []int{36, 60, 500, 1000} {
		spots := rippleHill().survey(rand.New(rand.NewPCG(1, 1)), n, 0.012)
		b.Run(fmt.Sprintf("heights=%d", n), func(b *testing.B) {
			for b.Loop() {
				fitOf(b, spots, surface.Options{})
			}
		})
	}
}

// BenchmarkAsk is one question to a smooth surface of 36 heights.
func BenchmarkAsk(b *testing.B) {
	fit := fitOf(b, rippleHill().survey(rand.New(rand.NewPCG(1, 1)), 36, 0.012), surface.Options{})
	p := orb.Point{7, 6}
	b.Run("gradient", func(b *testing.B) {
		for b.Loop() {
			fit.GradientAt(p)
		}
	})
	b.Run("covariance", func(b *testing.B) {
		for b.Loop() {
			fit.GradientCovariance(p)
		}
	})
}
