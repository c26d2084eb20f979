package near_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/siting/near"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func box(w, s, e, n float64) orb.Polygon {
	return orb.Polygon{orb.Ring{{w, s}, {e, s}, {e, n}, {w, n}, {w, s}}}
}

func ExampleShape_Distance() {
	bed := near.Of(box(2, 5, 5.6, 6.2))
	cable := near.Of(orb.LineString{{0, 0}, {0, 12}})
	metres, at := bed.Distance(cable)
	fmt.Printf("%.2f m, at %v\n", metres, at)
	// Output: 2.00 m, at [2 5]
}

func TestDistance(t *testing.T) {
	withHole := orb.Polygon{box(0, 0, 10, 10)[0], box(3, 3, 7, 7)[0]}
	tests := []struct {
		name string
		a, b orb.Geometry
		want float64
	}{
		{"two points, 3-4-5", orb.Point{0, 0}, orb.Point{3, 4}, 5},
		{"point beside a line", orb.Point{1, 2}, orb.LineString{{0, 0}, {5, 0}}, 2},
		{"point past the end of a line", orb.Point{8, 4}, orb.LineString{{0, 0}, {5, 0}}, 5},
		{"crossing lines", orb.LineString{{0, 0}, {2, 2}}, orb.LineString{{0, 2}, {2, 0}}, 0},
		{"touching lines", orb.LineString{{0, 0}, {2, 0}}, orb.LineString{{1, 0}, {1, 5}}, 0},
		{"parallel lines", orb.LineString{{0, 0}, {2, 0}}, orb.LineString{{0, 0.6}, {2, 0.6}}, 0.6},
		{"area inside an area", box(0, 0, 10, 10), box(4, 4, 5, 5), 0},
		{"area in a hole", withHole, box(4, 4, 5, 5), 1},
		{"line across a corner", box(0, 0, 1, 1), orb.LineString{{0, 4}, {4, 0}}, math.Sqrt2},
		{"areas corner to corner", box(0, 0, 1, 1), box(4, 5, 6, 7), 5},
		{"second part of a collection", orb.Collection{orb.Point{100, 0}, orb.Point{3, 0}}, orb.Point{0, 0}, 3},
		{"second area of several", orb.MultiPolygon{box(50, 50, 51, 51), box(0, 0, 2, 2)}, orb.Point{1, 1}, 0},
		{"bound", orb.Bound{Min: orb.Point{0, 0}, Max: orb.Point{1, 1}}, orb.Point{3, 1}, 2},
		{"open ring", orb.Ring{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, orb.Point{-1, 2}, 1},
		{"several lines", orb.MultiLineString{{{9, 9}, {9, 8}}, {{0, 0}, {1, 0}}}, orb.MultiPoint{{0, 2}, {30, 3}}, 2},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a, b := near.Of(tt.a), near.Of(tt.b)
			there, _ := a.Distance(b)
			back, _ := b.Distance(a)
			assert.InDelta(t, tt.want, there, 1e-12)
			assert.InDelta(t, tt.want, back, 1e-12)
			assert.False(t, a.Closer(b, tt.want-1e-9))
			assert.True(t, a.Closer(b, tt.want+1e-9))
		})
	}
}

func TestWhatCannotBeMeasuredIsOnTheCarefulSide(t *testing.T) {
	good := near.Of(box(0, 0, 1, 1))
	for _, g := range []orb.Geometry{
		nil, orb.LineString{}, orb.Polygon{}, orb.Polygon{orb.Ring{}},
		orb.Point{math.NaN(), 0}, orb.LineString{{0, 0}, {math.Inf(1), 3}},
	} {
		bad := near.Of(g)
		assert.False(t, bad.Measurable())
		d, _ := good.Distance(bad)
		assert.True(t, math.IsNaN(d))
		assert.True(t, good.Closer(bad, 0.1))
		assert.True(t, bad.Closer(good, 0.1))
	}
	assert.True(t, good.Closer(near.Of(orb.Point{50, 50}), math.NaN()))
}

// star is a simple polygon: points at growing angles round a centre.
func star(t *rapid.T, label string) []orb.Point {
	n := rapid.IntRange(3, 9).Draw(t, label+" corners")
	cx := rapid.Float64Range(-8, 8).Draw(t, label+" x")
	cy := rapid.Float64Range(-8, 8).Draw(t, label+" y")
	var ring []orb.Point
	for i := range n {
		r := rapid.Float64Range(0.5, 5).Draw(t, label+" radius")
		a := 2 * math.Pi * float64(i) / float64(n)
		ring = append(ring, orb.Point{cx + r*math.Cos(a), cy + r*math.Sin(a)})
	}
	return ring
}

func flat(points []orb.Point) []float64 {
	var out []float64
	for _, p := range points {
		out = append(out, p[0], p[1])
	}
	return out
}

// The outside check is simplefeatures, whose distances are written and tested
// apart from ours.
func TestDistanceAgreesWithSimplefeatures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := star(t, "a"), star(t, "b")
		ringA, ringB := append(a, a[0]), append(b, b[0])
		areaA := geom.NewSingleRingPolygonXY(flat(ringA)...)
		areaB := geom.NewSingleRingPolygonXY(flat(ringB)...)
		require.NoError(t, areaA.Validate())
		require.NoError(t, areaB.Validate())
		lineB := geom.NewLineStringXY(flat(b)...)

		want, ok := geom.Distance(areaA.AsGeometry(), areaB.AsGeometry())
		require.True(t, ok)
		got, at := near.Of(orb.Polygon{ringA}).Distance(near.Of(orb.Polygon{ringB}))
		assert.InDelta(t, want, got, 1e-9)
		here, _ := near.Of(at).Distance(near.Of(orb.Polygon{ringA}))
		assert.InDelta(t, 0, here, 1e-9, "the place lies on the first shape")
		there, _ := near.Of(at).Distance(near.Of(orb.Polygon{ringB}))
		assert.InDelta(t, got, there, 1e-9, "and at that distance from the second")

		for _, limit := range []float64{got - 1e-9, got + 1e-9} {
			closer := near.Of(orb.Polygon{ringA}).Closer(near.Of(orb.Polygon{ringB}), limit)
			assert.Equal(t, got < limit, closer, "the quick test agrees with the distance")
		}

		want, ok = geom.Distance(areaA.AsGeometry(), lineB.AsGeometry())
		require.True(t, ok)
		got, _ = near.Of(orb.Polygon{ringA}).Distance(near.Of(orb.LineString(b)))
		assert.InDelta(t, want, got, 1e-9)
	})
}

func BenchmarkDistance(b *testing.B) {
	bed := near.Of(box(2, 5, 5.6, 6.2))
	for _, n := range []int{2, 20, 200} {
		var l orb.LineString
		for i := range n {
			l = append(l, orb.Point{float64(i) * 20 / float64(n), 10 + math.Sin(float64(i))})
		}
		s := near.Of(l)
		b.Run(fmt.Sprintf("bed-to-line-of-%d", n), func(b *testing.B) {
			for b.Loop() {
				bed.Distance(s)
			}
		})
	}
}
