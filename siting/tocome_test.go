package siting_test

import (
	"math"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tallPlot is the sunny plot with something to come.
func tallPlot(latitude, height, width float64, what string) *geodata.Plot {
	p := sunny(latitude)
	p.Site.ToCome = []geodata.TallThing{{What: what, Height: &height, Width: &width}}
	return p
}

// inRings tells whether a place lies inside an odd number of rings.
func inRings(rings [][]orb.Point, q orb.Point) bool {
	odd := false
	for _, r := range rings {
		odd = odd != planar.RingContains(orb.Ring(r), q)
	}
	return odd
}

// A shed to come, put up as a many-sided prism in places all over the plot: where it
// is told to be free the bed loses under 5 % of its sun, by assessing the plot anew
// with the shed drawn; and where the bed loses over 6 % it is not told free.
func TestToComeAgainstTheShedDrawn(t *testing.T) {
	p := tallPlot(51.5, 2.5, 3, "shed")
	a := assess(t, p)
	require.Len(t, a.ToCome, 1)
	got := a.ToCome[0]
	require.NotNil(t, got.Area)
	require.NotEmpty(t, got.Rings)
	hours := func(a *siting.Assessment) (sum float64) {
		for _, d := range a.Beds[0].Light.Days {
			sum += d.Hours.Value
		}
		return sum
	}
	open := hours(a)
	bound := p.Boundary.Bound()
	tried, free := 0, 0
	for i := range 24 { // a low-discrepancy sequence of places: the golden ratios of the plane
		q := orb.Point{
			bound.Min[0] + (bound.Max[0]-bound.Min[0])*math.Mod(0.5+float64(i)*0.7548776662466927, 1),
			bound.Min[1] + (bound.Max[1]-bound.Min[1])*math.Mod(0.5+float64(i)*0.5698402909980532, 1),
		}
		shed := geodata.Fixture{Kind: geodata.ObstacleKind, What: "shed", TopHeight: 2.5, Shape: round(q, 1.5)}
		drawn := sunny(51.5, shed)
		with := assess(t, drawn)
		if with.Beds[0].Light == nil || with.Beds[0].Build == nil {
			continue // it stands on the bed
		}
		tried++
		lost := 1 - hours(with)/open
		if inRings(got.Rings, q) {
			free++
			assert.Less(t, lost, 0.055, "%v", q) // half a square off, and 24 sides for a circle
		} else if inside := planar.PolygonContains(p.Boundary, q); inside && lost == 0 {
			assert.Less(t, distanceToBed(q), 3.0, "%v takes nothing and is not free", q)
		}
	}
	assert.Greater(t, tried, 15)
	assert.Greater(t, free, 3)
}

func round(c orb.Point, r float64) orb.Polygon {
	var ring orb.Ring
	for i := range 25 {
		s, cos := math.Sincos(-2 * math.Pi * float64(i%24) / 24)
		ring = append(ring, orb.Point{c[0] + r*cos, c[1] + r*s})
	}
	return orb.Polygon{ring}
}

// distanceToBed is how far off the bed of the sunny plot lies.
func distanceToBed(q orb.Point) float64 {
	return math.Hypot(math.Max(0, math.Max(4-q[0], q[0]-7.6)), math.Max(0, math.Max(5-q[1], q[1]-6.2)))
}

// Behind a bed, seen from the sun, anything may stand: north of it in the north,
// south of it in the south. The line that is told has only free places past it.
func TestToComeLiesBehindTheBed(t *testing.T) {
	for latitude, wind := range map[float64]string{51.5: "north", -51.5: "south"} {
		a := assess(t, tallPlot(latitude, 6, 2, "tower"))
		got := a.ToCome[0]
		require.NotNil(t, got.Line, got.Said)
		assert.Contains(t, got.Said, "everywhere "+wind+" of a line from")
		y := (got.Line[0][1] + got.Line[1][1]) / 2
		if latitude > 0 {
			assert.Greater(t, y, 6.2)
		} else {
			assert.Less(t, y, 5.0)
		}
		assert.LessOrEqual(t, got.Area.Low, got.Area.Value)
		assert.LessOrEqual(t, got.Area.Value, got.Area.High)
		rings := 0.0
		for _, r := range got.Rings {
			rings += planar.Area(orb.Ring(r)) // holes run with the clock: their area counts against
		}
		assert.InDelta(t, got.Area.Low, rings, 1e-6)
	}
}

// The higher it is the fewer places are free; a bare tree takes less than a tower.
func TestToComeHigherFreesLess(t *testing.T) {
	last := math.Inf(1)
	for _, h := range []float64{1, 2, 4, 8} {
		area := assess(t, tallPlot(51.5, h, 2, "tower")).ToCome[0].Area
		assert.LessOrEqual(t, area.Value, last)
		last = area.Value
	}
	assert.GreaterOrEqual(t, assess(t, tallPlot(51.5, 8, 2, "tree")).ToCome[0].Area.Value, last)
}

// Without a latitude the light is left out and that is said, of the beds and of
// what is to come; a width that was not said is named.
func TestToComeWithoutALatitude(t *testing.T) {
	p := tallPlot(51.5, 6, 2, "tree")
	p.Site.Place.Latitude = nil
	p.Site.ToCome[0].Width = nil
	a := assess(t, p)
	require.Len(t, a.ToCome, 1)
	assert.Nil(t, a.ToCome[0].Area)
	assert.Contains(t, a.ToCome[0].Said, "no latitude is given")
	assert.Nil(t, a.Beds[0].Light)
	assert.Contains(t, a.Light.Reason, "no latitude is given")
	named := false
	for _, s := range a.Assumptions {
		named = named || strings.Contains(s.What, "width of the tree to come")
	}
	assert.True(t, named)
	assert.Empty(t, assess(t, sunny(51.5)).ToCome)
}

// Where the y axis points east, north lies to the left.
func TestToComeInATurnedFrame(t *testing.T) {
	p := tallPlot(51.5, 6, 2, "tower")
	p.Frame.NorthTurn = math.Pi / 2
	got := assess(t, p).ToCome[0]
	require.NotNil(t, got.Line, got.Said)
	assert.Contains(t, got.Said, "everywhere north of a line from")
	assert.InDelta(t, got.Line[0][0], got.Line[1][0], 1e-9)
	assert.Less(t, got.Line[0][0], 4.0)
}
