package siting

import (
	"context"
	"fmt"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/paulmach/orb"
)

// BenchmarkSunHours is the sun of four dates on 12 beds among 10 hedges and
// sheds on smooth ground: what is remembered of a plot, and the beds on all cores.
func BenchmarkSunHours(b *testing.B) {
	p, err := plotfolder.Read("../testdata/hillside", plotfolder.Options{})
	if err != nil {
		b.Fatal(err)
	}
	p.Fixtures = nil
	for i := range 10 {
		x, y := float64(3*(i%5)+1), float64(20*(i/5)+1)
		p.Fixtures = append(p.Fixtures, geodata.Fixture{
			Kind: geodata.ObstacleKind, What: "shed", Name: fmt.Sprint("shed ", i), TopHeight: 2,
			Shape: orb.Polygon{{{x, y}, {x + 2, y}, {x + 2, y + 2}, {x, y + 2}, {x, y}}},
		})
	}
	brief, _ := settle(p)
	k, err := learn(context.Background(), p, brief, func(int) {})
	if err != nil {
		b.Fatal(err)
	}
	var beds []decision
	for i := range 12 {
		var d decision
		x, y := float64(4*(i%4)+1), float64(5*(i/4)+5)
		d.ground.Corners = [4]orb.Point{{x, y + 1.2}, {x + 3.6, y + 1.2}, {x + 3.6, y}, {x, y}}
		beds = append(beds, d)
	}
	b.Run("remembered", func(b *testing.B) {
		for b.Loop() {
			newSunlight(p, k.fit, k.relief)
		}
	})
	b.Run("beds=12", func(b *testing.B) {
		for b.Loop() {
			inParallel(len(beds), func(i int) {
				if k.light.light(beds[i]) == nil {
					b.Error("no sun hours")
				}
			})
		}
	})
}
