package access_test

import (
	"testing"

	"crossfall/siting/access"

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
