package access_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/access"
	"crossfall/siting/bed"
	"crossfall/siting/near"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Whatever stands where, a barrow's way keeps half the barrow's width from it, but
// for what straightening takes, and begins and ends where it should; with another
// bed put in nothing gets easier to reach.
func TestWaysKeepClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.SampledFrom([]float64{9, 14, 28}).Draw(t, "side")
		place := func(what string) orb.Point {
			return orb.Point{rapid.Float64Range(0.15, 0.85).Draw(t, what+" x") * side, rapid.Float64Range(0.15, 0.85).Draw(t, what+" y") * side}
		}
		hedge := fence(place("from"), place("to"))
		p := plot(side, side, gate(rapid.Float64Range(1, 8).Draw(t, "gate"), 0), hedge)
		ground := plane{east: rapid.Float64Range(-0.2, 0.2).Draw(t, "east"), north: rapid.Float64Range(-0.2, 0.2).Draw(t, "north")}
		g := access.NewGround(p, ground, nil, access.Limits{})
		var beds []bed.Bed
		for i := range rapid.IntRange(1, 5).Draw(t, "beds") {
			at := place("bed")
			beds = append(beds, turned(fmt.Sprint("bed ", i), at[0], at[1], rapid.Float64Range(0, 180).Draw(t, "bearing")))
		}
		ways := g.Ways(beds)
		for i, w := range ways {
			if w.Means == access.NoWay {
				assert.Empty(t, w.Points)
				continue
			}
			assert.Equal(t, g.Starts()[w.Start].At, w.Points[0])
			end := w.Points[len(w.Points)-1]
			assert.Less(t, near.Of(beds[i].Footprint()).EdgeDistance(end), 0.3+g.Cell()+0.04)
			if w.Means == access.ByBarrow {
				keepsClear(t, p, beds, w, g.Cell())
			}
			assert.InDelta(t, w.Climb-w.Descent, w.Heights[len(w.Heights)-1]-w.Heights[0], 1e-6, "on a plane all that is climbed and not gone down is risen")
		}
		for i, w := range g.Ways(beds[:len(beds)-1]) {
			if ways[i].Means == access.ByBarrow {
				assert.Equal(t, access.ByBarrow, w.Means)
			}
		}
	})
}

func keepsClear(t *rapid.T, p *geodata.Plot, beds []bed.Bed, w access.Way, cell float64) {
	const straightened = 0.06 // m: 0.02 by straightening, the rest between the places looked at
	edge, hedge := near.Of(p.Boundary), near.Of(p.Fixtures[1].Shape)
	for i := 1; i < len(w.Points); i++ {
		a, b := w.Points[i-1], w.Points[i]
		n := math.Ceil(planar.Distance(a, b) / 0.05)
		for k := 0.0; k <= n; k++ {
			at := orb.Point{a[0] + k/n*(b[0]-a[0]), a[1] + k/n*(b[1]-a[1])}
			if planar.Distance(at, w.Points[0]) < 0.6+cell {
				continue // through the gate
			}
			for _, o := range beds {
				s := near.Of(o.Footprint())
				assert.False(t, s.Covers(at))
				assert.Greater(t, s.EdgeDistance(at), 0.3-straightened, "%s at %v", o.Name, at)
			}
			assert.Greater(t, hedge.EdgeDistance(at), 0.3-straightened, "the fence at %v", at)
			assert.Greater(t, edge.EdgeDistance(at), 0.3-straightened, "the boundary at %v", at)
		}
	}
}
