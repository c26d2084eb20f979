package layout_test

import (
	"context"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/layout"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

func BenchmarkPlaces(b *testing.B) {
	fixtures := []geodata.Fixture{
		{Kind: geodata.ObstacleKind, What: "hedge", Shape: orb.LineString{{0, 24}, {9, 24}, {18, 24}}},
		{Kind: geodata.ObstacleKind, What: "shed", Shape: box(14, 1, 17, 3)},
		{Kind: geodata.ServiceKind, Carries: geodata.Electricity, Shape: orb.LineString{{0, 2}, {9, 3}, {14, 2}}},
		{Kind: geodata.TreeKind, StemDiameter: 0.25, Shape: orb.Point{3, 20}},
		{Kind: geodata.GateKind, Shape: orb.Point{0, 5}},
		{Kind: geodata.PathKind, Shape: orb.LineString{{0, 5}, {18, 6}}},
	}
	marks := func(x bed.Bed) (float64, bool) { return 100 - x.Centre[1]/10, true }
	for _, bb := range []struct {
		name   string
		plot   *geodata.Plot
		ground hill
		count  int
	}{
		{"18x24m-plane-4-beds", plotOf(box(0, 0, 18, 24), fixtures...), southward, 4},
		{"18x24m-turning-8-beds", plotOf(box(0, 0, 18, 24), fixtures...), hill{g: terrain.Gradient{North: 0.1}, turn: 0.005}, 8},
		{"18x24m-turning-50-beds", plotOf(box(0, 0, 18, 24), fixtures...), hill{g: terrain.Gradient{North: 0.1}, turn: 0.005}, 50},
		{"60x60m-turning-20-beds", plotOf(box(0, 0, 60, 60), fixtures...), hill{g: terrain.Gradient{North: 0.1}, turn: 0.002}, 20},
	} {
		wish := layout.Wish{Length: 3.6, Width: 1.2, Path: 0.6}
		keep := layout.Keepouts(bb.plot, nil)
		b.Run("survey="+bb.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := layout.Survey(context.Background(), bb.plot, bb.ground, wish, keep, marks, layout.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
		places, err := layout.Survey(context.Background(), bb.plot, bb.ground, wish, keep, marks, layout.Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.Run("arrange="+bb.name, func(b *testing.B) {
			var r layout.Result
			for b.Loop() {
				if r, err = places.Arrange(context.Background(), bb.count, nil, nil); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(places.Count()), "places")
			b.ReportMetric(100*r.Gap(), "gap-percent")
		})
	}
}
