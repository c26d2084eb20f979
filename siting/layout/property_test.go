package layout_test

import (
	"context"
	"math"
	"testing"

	"crossfall/siting/bed"
	"crossfall/siting/layout"
	"crossfall/terrain"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// All measuring here is by simplefeatures, apart from the code under test.

func area(t require.TestingT, p orb.Polygon) geom.Geometry {
	rings := make([][]float64, len(p))
	for i, r := range p {
		for _, c := range r {
			rings[i] = append(rings[i], c[0], c[1])
		}
	}
	g := geom.NewPolygonXY(rings...)
	require.NoError(t, g.Validate())
	return g.AsGeometry()
}

func apart(t require.TestingT, a, b geom.Geometry) float64 {
	d, ok := geom.Distance(a, b)
	require.True(t, ok)
	return d
}

func noOverlap(t require.TestingT, beds []bed.Bed, path float64) {
	for i := range beds {
		for j := range i {
			d := apart(t, area(t, beds[i].Footprint()), area(t, beds[j].Footprint()))
			assert.GreaterOrEqual(t, d, path-1e-6, "%s and %s", beds[i].Name, beds[j].Name)
		}
	}
}

// corners draws a star-shaped plot about the origin.
func corners(t *rapid.T) orb.Polygon {
	n := rapid.IntRange(3, 8).Draw(t, "corners")
	ring := make(orb.Ring, 0, n+1)
	for i := range n {
		r := rapid.Float64Range(3, 11).Draw(t, "radius")
		a := 2 * math.Pi * float64(i) / float64(n)
		ring = append(ring, orb.Point{r * math.Cos(a), r * math.Sin(a)})
	}
	return orb.Polygon{append(ring, ring[0])}
}

func keepouts(t *rapid.T) []layout.Keepout {
	at := rapid.Float64Range(-9, 9)
	var out []layout.Keepout
	for range rapid.IntRange(0, 3).Draw(t, "keepouts") {
		x, y := at.Draw(t, "x"), at.Draw(t, "y")
		clear := rapid.SampledFrom([]float64{0, 0.3, 1}).Draw(t, "clear")
		shapes := []orb.Geometry{box(x, y, x+2, y+1), orb.LineString{{x, y}, {x + 3, y - 2}}, orb.Point{x, y}}
		out = append(out, layout.Keepout{Why: "a thing", Shape: rapid.SampledFrom(shapes).Draw(t, "shape"), Clear: clear})
	}
	return out
}

func asGeom(t require.TestingT, g orb.Geometry) geom.Geometry {
	switch g := g.(type) {
	case orb.Polygon:
		return area(t, g)
	case orb.LineString:
		return geom.NewLineStringXY(g[0][0], g[0][1], g[1][0], g[1][1]).AsGeometry()
	}
	p := g.(orb.Point)
	return geom.NewPointXY(p[0], p[1]).AsGeometry()
}

func TestNoBedOverlapsAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plot := plotOf(corners(t))
		keep := keepouts(t)
		slope := rapid.Float64Range(-0.2, 0.2)
		ground := hill{g: terrain.Gradient{East: slope.Draw(t, "east"), North: slope.Draw(t, "north")},
			turn: rapid.SampledFrom([]float64{0, 0.01}).Draw(t, "turn"), from: -100}
		wish := layout.Wish{
			Length: rapid.Float64Range(1.2, 4).Draw(t, "length"),
			Width:  rapid.Float64Range(0.6, 1.2).Draw(t, "width"), Path: rapid.SampledFrom([]float64{0.3, 0.6}).Draw(t, "path"),
		}
		count := rapid.IntRange(1, 8).Draw(t, "count")
		pinned := []bed.Bed{bed.New("bed 1", orb.Point{}, terrain.FromDegrees(slope.Draw(t, "turned")*900), 2, 1)}
		score := func(b bed.Bed) (float64, bool) { return math.Sin(3 * b.Centre[0]), true }

		places, err := layout.Survey(context.Background(), plot, ground, wish, keep, score, layout.Options{})
		require.NoError(t, err)
		r, err := places.Arrange(context.Background(), count, pinned, nil)
		require.NoError(t, err)

		assert.Len(t, r.Beds, r.Fits)
		assert.LessOrEqual(t, r.Fits, count)
		assert.Equal(t, r.Fits == count, r.Short == "")
		noOverlap(t, append(r.Beds, pinned...), wish.Path)
		assert.GreaterOrEqual(t, r.Bound, r.Score-1e-9)
		assert.GreaterOrEqual(t, r.MostBeds, r.Fits)
		inside := area(t, plot.Boundary)
		seen := map[string]bool{"bed 1": true}
		for _, b := range r.Beds {
			assert.False(t, seen[b.Name], "%s is named twice", b.Name)
			seen[b.Name] = true
			foot := area(t, b.Footprint())
			within, err := geom.Contains(inside, foot)
			require.NoError(t, err)
			assert.True(t, within)
			assert.GreaterOrEqual(t, apart(t, inside.Boundary(), foot), wish.Path-1e-6)
			for _, k := range keep {
				if k.Clear > 0 {
					assert.GreaterOrEqual(t, apart(t, asGeom(t, k.Shape), foot), k.Clear-1e-6)
					continue
				}
				shared, err := geom.Intersection(asGeom(t, k.Shape), foot)
				require.NoError(t, err)
				assert.Less(t, shared.Area(), 0.001*2*(wish.Length+wish.Width), "overlap of more than a hair's breadth")
			}
		}
	})
}
