package siting

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// toComeOn gives the judge of the hillside with its sun, its beds and what was
// decided about them.
func toComeOn(t testing.TB) (judge, sunlight, []Bed, []decision) {
	p, err := plotfolder.Read("../testdata/hillside", plotfolder.Options{})
	require.NoError(t, err)
	brief, _ := settle(p)
	k, err := learn(context.Background(), p, brief, func(int) {})
	require.NoError(t, err)
	j := k.judge
	j.plot = p
	decided, _, err := j.place(context.Background())
	require.NoError(t, err)
	beds := make([]Bed, len(decided))
	for i, d := range decided {
		beds[i].Light = k.light.light(d)
	}
	return j, k.light, beds, decided
}

// Whatever is to come: what is sure is part of what may be, the rings bound it, no
// place of it lies past the boundary or on a bed, and past the line all is sure.
func TestToComeHolds(t *testing.T) {
	j, l, beds, decided := toComeOn(t)
	plot := *j.plot
	j.plot = &plot
	random := rand.New(rand.NewPCG(12, 21))
	for range 12 {
		height, width := 0.3+15*random.Float64(), 0.1+8*random.Float64()
		plot.Site.ToCome = []geodata.TallThing{{
			What: []string{"tree", "shed", "polytunnel"}[random.IntN(3)], Height: &height, Width: &width, Evergreen: random.IntN(2) == 0,
		}}
		got, err := j.toCome(context.Background(), l, beds, decided)
		require.NoError(t, err)
		require.Len(t, got, 1)
		a := got[0]
		assert.True(t, 0 <= a.Area.Low && a.Area.Low <= a.Area.Value && a.Area.Value <= a.Area.High, "%v", a.Area)
		assert.True(t, a.Share.High <= 100)
		rings := 0.0
		for _, r := range a.Rings {
			rings += planar.Area(orb.Ring(r))
		}
		assert.InDelta(t, a.Area.Low, rings, 1e-6)
		at := j.placesFor(width/2, decided)
		for n, z := range at.grid.Z {
			q := at.grid.Node(n%at.grid.Cols, n/at.grid.Cols)
			sure := within(a.Rings, q)
			if !sure {
				assert.False(t, a.Line != nil && !math.IsNaN(z) && past(*a.Line, q), "%v is past the line", q)
				continue
			}
			assert.True(t, planar.PolygonContains(j.plot.Boundary, q))
			for _, d := range decided {
				assert.GreaterOrEqual(t, distanceTo(d.bed.Footprint(), q), width/2)
			}
		}
	}
}

// within tells whether a place lies inside an odd number of rings.
func within(rings [][]orb.Point, q orb.Point) (odd bool) {
	for _, r := range rings {
		odd = odd != planar.RingContains(orb.Ring(r), q)
	}
	return odd
}

// past tells whether a place lies on the left hand of a line.
func past(line [2]orb.Point, q orb.Point) bool {
	return (line[1][0]-line[0][0])*(q[1]-line[0][1])-(line[1][1]-line[0][1])*(q[0]-line[0][0]) > 1e-9
}

// BenchmarkToCome is a tree of 6 m still to come on the hillside, four beds and what
// is drawn there, 1,800 places half a metre apart, with the beds and the three ends
// of the bands shared by all cores.
func BenchmarkToCome(b *testing.B) {
	j, l, beds, decided := toComeOn(b)
	height := 6.0
	plot := *j.plot
	plot.Site.ToCome = []geodata.TallThing{{What: "tree", Height: &height}}
	j.plot = &plot
	for b.Loop() {
		if _, err := j.toCome(context.Background(), l, beds, decided); err != nil {
			b.Fatal(err)
		}
	}
}
