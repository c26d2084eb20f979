package access_test

import (
	"fmt"
	"testing"

	"crossfall/siting/access"
	"crossfall/siting/bed"

	"github.com/paulmach/orb"
)

// BenchmarkDistances makes the field of a plot of 30 by 30 m with a fence, and
// asks it once.
func BenchmarkDistances(b *testing.B) {
	p := plot(30, 30, gate(15, 0), fence(orb.Point{4, 15}, orb.Point{26, 15}))
	b.Run("ground=30x30", func(b *testing.B) {
		for b.Loop() {
			access.NewGround(p, plane{north: 0.1}, nil, access.Limits{})
		}
	})
	g := access.NewGround(p, plane{north: 0.1}, nil, access.Limits{})
	b.Run("field=30x30", func(b *testing.B) {
		for b.Loop() {
			g.Distances()
		}
	})
	f := g.Distances()
	b.Run("ask", func(b *testing.B) {
		for b.Loop() {
			f.At(orb.Point{12.3, 21.7})
		}
	})
}

// BenchmarkWays finds the ways to twelve beds of 3.6 by 1.2 m on a plot of 30 by
// 30 m, at a fall within the limit and at one over it.
func BenchmarkWays(b *testing.B) {
	p := plot(30, 30, gate(15, 0), fence(orb.Point{4, 14.7}, orb.Point{26, 14.7}))
	var beds []bed.Bed
	for i := range 12 {
		beds = append(beds, bedAt(fmt.Sprint("bed ", i+1), 5+6.6*float64(i%4), 6+9*float64(i/4)))
	}
	for _, c := range []struct {
		name  string
		slope float64
	}{{"gentle", 0.05}, {"steep", 0.15}} {
		g := access.NewGround(p, plane{north: c.slope}, nil, access.Limits{})
		b.Run(fmt.Sprintf("beds=12/plot=30x30/%s", c.name), func(b *testing.B) {
			for b.Loop() {
				g.Ways(beds)
			}
		})
	}
}
