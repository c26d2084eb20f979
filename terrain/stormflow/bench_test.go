package stormflow_test

import (
	"context"
	"fmt"
	"testing"

	"crossfall/terrain/stormflow"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// terrace is a plot of 30 by 30 m at 15 % in cells of 0.2 m, with eight boarded
// beds.
func terrace(beds bool) stormflow.Spec {
	s := tilted(30, 30, 0.2, 0.15)
	s.Edges = nil
	for i := range 8 {
		if !beds {
			break
		}
		x, y := 6+float64(i/4)*10, 3+float64(i%4)*6
		top := 0.15*(30-x) + 0.15
		s.Beds = append(s.Beds, stormflow.Bed{
			Name: fmt.Sprint(i), Corners: [4]orb.Point{{x, y}, {x, y + 3.6}, {x + 1.2, y + 3.6}, {x + 1.2, y}},
			Crests: [4]float64{top, top, top, top}, Level: func(orb.Point) float64 { return top - 0.05 }, Material: 1,
		})
	}
	return s
}

var wetGround = []stormflow.Material{
	{Manning: 0.15, Infiltration: stormflow.GreenAmpt{Conductivity: 3.4 * mmPerHour, Suction: 0.0889, Deficit: 0.05}},
	{Manning: 0.2, Infiltration: stormflow.GreenAmpt{Conductivity: 60 * mmPerHour, Suction: 0.05, Deficit: 0.1}},
}

// Cells a second: 22500 cells, 40 mm/h on ground that takes some up.
func BenchmarkStorm(b *testing.B) {
	for _, beds := range []bool{true, false} {
		for _, workers := range []int{1, 2} {
			b.Run(fmt.Sprintf("cells=22500/beds=%v/workers=%d", beds, workers), func(b *testing.B) {
				m := mustModel(b, terrace(beds))
				b.ReportAllocs()
				cells := int64(0)
				for b.Loop() {
					r, _, err := m.Run(context.Background(), stormflow.Storm{
						Rain: steady(40*mmPerHour, 600), Duration: 300, Materials: wetGround,
					}, stormflow.Options{Workers: workers})
					require.NoError(b, err)
					cells += r.CellSteps
				}
				b.ReportMetric(float64(cells)/1e6/b.Elapsed().Seconds(), "Mcells/s")
			})
		}
	}
}
