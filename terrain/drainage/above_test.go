package drainage_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain/drainage"
	"crossfall/terrain/relief"
)

func ExampleNetwork_Above() {
	// A plot 20 m by 15 m that falls 1 in 10 to the south, and a bed across it.
	r := &relief.Raster{Origin: orb.Point{.25, .25}, Cell: .5, Cols: 40, Rows: 30}
	for i := range 40 * 30 {
		r.Z = append(r.Z, float32(i/40)*.05)
	}
	n, _ := drainage.Route(r, drainage.GridOptions{})
	above := n.Above(rectangle(8, 5.5, 12, 6.5))
	fmt.Printf("%.1f square metres drain on to the bed\n", above.Area)
	// Output: 34.0 square metres drain on to the bed
}

// A bed 3.6 m by 1.2 m in the middle of a plot 20 m by 15 m, .1 m apart. Water that comes
// straight down: 3.6 x 8.4 = 30.24 m2. From 20 degrees east of that: the strip that the bed's
// outline sweeps out up the slope, 34.1709 m2 by plane geometry; Tarboton's triangles spread it
// a little, and one way in eight misses it.
func TestAboveABedOnAPlane(t *testing.T) {
	bed := rectangle(8.2, 5.4, 11.8, 6.6)
	for _, tc := range []struct {
		facing, want float64
		routing      drainage.Routing
		tolerance    float64
	}{
		{180, 30.24, drainage.DInfinity, 1e-6}, {180, 30.24, drainage.D8, 1e-6},
		{200, 34.1709, drainage.DInfinity, .02}, {200, 34.1709, drainage.Freeman, .06},
	} {
		s, c := math.Sincos(tc.facing * math.Pi / 180)
		r := rasterFrom(orb.Point{.05, .05}, .1, 200, 150, func(x, y float64) float64 { return -.1 * (s*x + c*y) })
		n, err := drainage.Route(r, drainage.GridOptions{Routing: tc.routing})
		require.NoError(t, err)
		above := n.Above(bed)
		assert.Len(t, above.Bed, 36*12)
		assert.InEpsilon(t, tc.want, above.Area, tc.tolerance, "facing %v, routing %d", tc.facing, tc.routing)
		assert.True(t, above.AtEdge)
		for k, i := range above.Nodes {
			assert.True(t, above.Share[k] > 0 && above.Share[k] <= 1)
			assert.False(t, slices.Contains(above.Bed, i))
		}
	}
}

// A bed in a closed basin gets the water of the whole basin, and no more is known beyond.
func TestAboveABedInABowl(t *testing.T) {
	r := rasterFrom(orb.Point{-10, -10}, .25, 81, 81, func(x, y float64) float64 {
		d := math.Hypot(x, y)
		if d > 8 {
			return 3.2 - .8*(d-8)
		}
		return .05 * d * d
	})
	n, err := drainage.Route(r, drainage.GridOptions{Hollows: drainage.KeepHollows})
	require.NoError(t, err)
	above := n.Above(rectangle(-1.5, -1.5, 1.5, 1.5))
	assert.False(t, above.AtEdge)
	assert.InEpsilon(t, math.Pi*64-9, above.Area, .03)
}

func TestAboveNothing(t *testing.T) {
	r := rasterFrom(orb.Point{}, 1, 9, 9, func(_, y float64) float64 { return .1 * y })
	n, err := drainage.Route(r, drainage.GridOptions{})
	require.NoError(t, err)
	for _, bed := range []orb.Polygon{nil, {{}}, rectangle(50, 50, 60, 60), rectangle(-1e300, -9, -1e299, -8),
		{{{math.NaN(), 0}, {1, 0}, {1, 1}, {math.NaN(), 0}}}} {
		assert.Zero(t, n.Above(bed).Area)
	}
	narrow := n.Above(rectangle(3.1, 4.2, 4.4, 4.4)) // between the rows: the nearest nodes count
	assert.Equal(t, []int{39, 40}, narrow.Bed)
	assert.Equal(t, 8., narrow.Area)
}

// By D8 the nodes above a bed are those whose way leads to it; by any routing, the water above
// that enters is what the accumulation brings to a bed of one node.
func TestAboveAgreesWithAccumulation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cols, rows := rapid.IntRange(3, 9).Draw(t, "cols"), rapid.IntRange(3, 9).Draw(t, "rows")
		r := &relief.Raster{Cell: 1, Cols: cols, Rows: rows, Z: make([]float32, cols*rows)}
		for i := range r.Z {
			r.Z[i] = float32(rapid.IntRange(0, 20).Draw(t, "z"))
		}
		n, err := drainage.Route(r, drainage.GridOptions{Routing: rapid.SampledFrom(routings).Draw(t, "routing")})
		require.NoError(t, err)
		at := rapid.IntRange(0, cols*rows-1).Draw(t, "bed")
		p := r.Node(at%cols, at/cols)
		above := n.Above(rectangle(p[0]-.2, p[1]-.2, p[0]+.2, p[1]+.2))
		require.Equal(t, []int{at}, above.Bed)
		require.InDelta(t, n.Accumulate().Area[at]-1, above.Area, 1e-9)
	})
}

// ln(44.729976 / .08) = 6.326373: the index after Beven & Kirkby 1979 at the end of a flow line
// 10 m down the gully z = -.08 y + .01 x^2, whose specific area is (e^2.5 - 1)/.25.
func TestWetnessIndex(t *testing.T) {
	require.InDelta(t, 44.729976, (math.Exp(2.5)-1)/.25, 1e-6)
	assert.InDelta(t, 6.326373, drainage.WetnessIndex((math.Exp(2.5)-1)/.25, .08), 1e-6)
	assert.InDelta(t, math.Log(1000), drainage.WetnessIndex(1, 0), 1e-12, "no flatter than 1 in 1000")
	r := rasterFrom(orb.Point{}, .5, 9, 12, func(_, y float64) float64 { return .1 * y })
	n, err := drainage.Route(r, drainage.GridOptions{})
	require.NoError(t, err)
	wet, err := n.Wetness(context.Background(), n.Accumulate())
	require.NoError(t, err)
	for i, w := range wet { // on a plane the specific area is the length of slope
		assert.InDelta(t, math.Log(.5*float64(12-i/9)/.1), w, 1e-4)
	}
	_, err = n.Wetness(context.Background(), &drainage.Gathered{})
	assert.Error(t, err)
}

func TestDampPlaces(t *testing.T) {
	ctx := context.Background()
	even := rasterFrom(orb.Point{}, 1, 30, 30, func(x, y float64) float64 { return .1*y + .02*x })
	none, err := drainage.DampPlaces(ctx, even, drainage.DampOptions{})
	require.NoError(t, err)
	assert.Empty(t, none, "ground that falls evenly gathers nothing")

	// A gully down the middle with a pan sunk .4 m into the slope beside it.
	gully := rasterFrom(orb.Point{-20, 0}, 1, 41, 41, func(x, y float64) float64 {
		z := .05*y + .04*math.Abs(x)
		if d := math.Hypot(x-12, y-20); d < 3 {
			z = min(z, 1.48-.4+.02*d)
		}
		return z
	})
	found, err := drainage.DampPlaces(ctx, gully, drainage.DampOptions{})
	require.NoError(t, err)
	require.Len(t, found, 2)
	assert.InDelta(t, 12, found[0].At[0], 1e-9)
	assert.InDelta(t, 20, found[0].At[1], 1e-9)
	assert.Equal(t, drainage.HoldsWater, found[0].Why)
	assert.Equal(t, drainage.GathersWater, found[1].Why)
	assert.InDelta(t, 0, found[1].At[0], 1)
	for _, i := range found[1].Nodes {
		x, y := i%41-20, i/41
		along, below := x >= -3 && x <= 3, x >= 0 && x <= 14 && y <= 20
		assert.True(t, along || below, "%d, %d lies along the gully or where the pan runs over", x, y)
	}
	_, err = drainage.DampPlaces(ctx, nil, drainage.DampOptions{})
	assert.Error(t, err)
	stop, cancel := context.WithCancel(ctx)
	cancel()
	_, err = drainage.DampPlaces(stop, gully, drainage.DampOptions{})
	assert.ErrorIs(t, err, context.Canceled)
}
