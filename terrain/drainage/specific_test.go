package drainage_test

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/terrain/drainage"
)

// valley is z = -.08 y + c x^2: water runs north, towards the line x = 0 if c > 0.
func valley(c float64) ground {
	return func(x, _ float64) (float64, float64) { return 2 * c * x, -.08 }
}

// Analytic specific areas of flow lines (form of Gallant & Hutchinson 2011). Along x = 0 the
// divergence is 2c/-.08, so a = (exp(2.5) - 1)/.25 in the valley and (1 - exp(-2.5))/.25 on the
// ridge; the line from (3, 0) ends at x = 3 exp(-2.5).
func TestSpecificCatchment(t *testing.T) {
	for name, tc := range map[string]struct {
		field  drainage.Field
		from   orb.Point
		x      float64
		length float64
		area   float64
	}{
		"valley floor": {valley(.01), orb.Point{0, 0}, 0, 10, (math.Exp(2.5) - 1) / .25},
		"ridge":        {valley(-.01), orb.Point{0, 0}, 0, 10, (1 - math.Exp(-2.5)) / .25},
		"valley side":  {valley(.01), orb.Point{3, 0}, 3 * math.Exp(-2.5), 10.525080, 44.814661},
		"plane":        {plane(0, .08), orb.Point{3, 0}, 3, 10, 10},
	} {
		t.Run(name, func(t *testing.T) {
			path, areas := drainage.SpecificCatchment(tc.field, tc.from, drainage.Options{Plot: rectangle(-5, 0, 5, 10), Step: .02})
			require.Equal(t, drainage.LeavesPlot, path.End)
			require.Len(t, areas, len(path.Points))
			assert.InEpsilon(t, tc.area, areas[len(areas)-1], 1e-6)
			assert.InDelta(t, tc.length, path.Length, 1e-6)
			assert.InDelta(t, tc.x, path.Points[len(path.Points)-1][0], 1e-6)
		})
	}
}

// ln(a / tan b) (Beven & Kirkby 1979), worked by hand: ln(44.729976 / .08) = 6.326373 at
// the foot of the valley floor above.
func TestWetnessIndexByHand(t *testing.T) {
	assert.InDelta(t, 6.326373, drainage.WetnessIndex((math.Exp(2.5)-1)/.25, .08), 5e-7)
	assert.InDelta(t, math.Log(10/.001), drainage.WetnessIndex(10, .0005), 1e-12, "falls under 1 in 1000 count as that, a default of ours")
}

// From the apex of an outward cone a = r/2; inward from radius R, a = (R^2 - r^2)/(2r).
func TestSpecificCatchmentOfCones(t *testing.T) {
	cone := func(sense float64) ground {
		return func(x, y float64) (float64, float64) {
			r := math.Hypot(x, y)
			return sense * .1 * x / r, sense * .1 * y / r
		}
	}
	path, areas := drainage.SpecificCatchment(cone(+1), orb.Point{8, 6}, drainage.Options{
		Enters: func(p orb.Point) bool { return math.Hypot(p[0], p[1]) < 2 },
	})
	require.Len(t, areas, len(path.Points))
	for i, p := range path.Points {
		r := math.Hypot(p[0], p[1])
		assert.InDelta(t, (100-r*r)/(2*r), areas[i], 1e-4)
	}
	// Outward from radius 1, where a is taken as 0: a = (r^2 - 1)/(2r).
	path, areas = drainage.SpecificCatchment(cone(-1), orb.Point{1, 0}, drainage.Options{Plot: rectangle(-1, -1, 9, 1)})
	require.Len(t, areas, len(path.Points))
	assert.InDelta(t, (81-1)/18., areas[len(areas)-1], 1e-4)
}

func TestSpecificCatchmentStopsWhereGroundIsUnknown(t *testing.T) {
	level := ground(func(_, _ float64) (float64, float64) { return 0, 0 })
	path, areas := drainage.SpecificCatchment(level, orb.Point{0, 0}, drainage.Options{})
	assert.Len(t, path.Points, 1)
	assert.Equal(t, []float64{0}, areas)

	// One-sided differences at the rim of the known ground give the same.
	box := orb.Bound{Min: orb.Point{0, 0}, Max: orb.Point{5, 10}}
	path, areas = drainage.SpecificCatchment(within{valley(.01), box}, orb.Point{0, 0}, drainage.Options{Plot: rectangle(0, 0, 5, 10)})
	require.Len(t, areas, len(path.Points))
	assert.InEpsilon(t, (math.Exp(2.5)-1)/.25, areas[len(areas)-1], 1e-2)
}
