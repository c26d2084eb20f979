package layout_test

import (
	"context"
	"testing"

	"crossfall/siting/bed"
	"crossfall/siting/layout"
	"crossfall/terrain"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// shifted is ground moved by a whole number of metres.
type shifted struct {
	hill
	by orb.Point
}

func (s shifted) GradientAt(p orb.Point) (terrain.Gradient, bool) {
	return s.hill.GradientAt(orb.Point{p[0] - s.by[0], p[1] - s.by[1]})
}

func (s shifted) Extrapolated(orb.Point) bool { return false }

// A plot with other coordinates gets the same beds: no choice hangs on rounding.
func TestAMovedPlotGetsTheSameBeds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		boundary := corners(t)
		slope := rapid.Float64Range(-0.2, 0.2)
		ground := hill{g: terrain.Gradient{East: slope.Draw(t, "east"), North: slope.Draw(t, "north")},
			turn: rapid.SampledFrom([]float64{0, 0.01}).Draw(t, "turn"), from: -100}
		count := rapid.IntRange(1, 6).Draw(t, "count")
		far := rapid.OneOf(rapid.IntRange(-500, 500), rapid.IntRange(-500_000, 500_000)) // a corner of a field, and a map grid
		by := orb.Point{float64(far.Draw(t, "by east")), float64(far.Draw(t, "by north"))}
		place := func(by orb.Point) layout.Result {
			ring := orb.Ring{}
			for _, c := range boundary[0] {
				ring = append(ring, orb.Point{c[0] + by[0], c[1] + by[1]})
			}
			g := shifted{ground, by}
			weigh := func(b bed.Bed) (float64, bool) {
				slope, _ := g.GradientAt(b.Centre)
				return layout.FullMarks - 50*slope.Fall() - 100*slope.Along(b.LongSide)*slope.Along(b.LongSide), true
			}
			places, err := layout.Survey(context.Background(), plotOf(orb.Polygon{ring}), g, ordinary, nil, weigh, layout.Options{})
			require.NoError(t, err)
			r, err := places.Arrange(context.Background(), count, nil, nil)
			require.NoError(t, err)
			return r
		}
		here, there := place(orb.Point{}), place(by)
		require.Equal(t, here.Fits, there.Fits)
		assert.InDelta(t, here.Score, there.Score, 1e-6)
		for i, b := range here.Beds {
			o := there.Beds[i]
			assert.InDelta(t, b.Centre[0], o.Centre[0]-by[0], 1e-6)
			assert.InDelta(t, b.Centre[1], o.Centre[1]-by[1], 1e-6)
			assert.InDelta(t, float64(b.LongSide), float64(o.LongSide), 1e-9)
		}
	})
}
