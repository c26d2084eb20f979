package access_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/access"
	"crossfall/siting/bed"
	"crossfall/terrain"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bedAt is a bed of 3.6 by 1.2 m with its long side to the east.
func bedAt(name string, x, y float64) bed.Bed {
	return bed.New(name, orb.Point{x, y}, terrain.Bearing(math.Pi/2), 3.6, 1.2)
}

// turned is such a bed with another bearing of its long side, degrees.
func turned(name string, x, y, bearing float64) bed.Bed {
	return bed.New(name, orb.Point{x, y}, terrain.Bearing(bearing*math.Pi/180), 3.6, 1.2)
}

func ExampleGround_Ways() {
	p := plot(10, 12, gate(5, 0))
	g := access.NewGround(p, plane{north: 0.05}, nil, access.Limits{})
	for _, w := range g.Ways([]bed.Bed{bedAt("Bed 1", 5, 4), bedAt("Bed 2", 5, 8)}) {
		fmt.Printf("%s: %s, %.1f m, %.2f m up, steepest 1 in %.0f\n", w.Bed, w.Means, w.Length, w.Climb, 1/w.Up.Gradient)
	}
	// Output:
	// Bed 1: barrow, 2.9 m, 0.14 m up, steepest 1 in 20
	// Bed 2: barrow, 7.8 m, 0.36 m up, steepest 1 in 20
}

// On a plane steeper than the limit, 1 in 12 (ADA Standards for Accessible Design 2010,
// 405.2), a way that keeps to it is as long as its climb over the limit. Headings are
// up to 14 degrees apart, so it may have to go gentler, and is then longer.
func TestZigzagOnASteepPlane(t *testing.T) {
	for _, c := range []struct {
		slope, across float64
	}{
		{1.0 / 12 / math.Sqrt(0.2), 1.001}, // a knight's move climbs at just 1 in 12
		{1.0 / 12 * math.Sqrt2, 1.001},     // and here a diagonal one
		{0.12, 1.30}, {0.15, 1.30}, {0.20, 1.30}, {0.25, 1.30}, {0.30, 1.30},
	} {
		p := plot(16, 16, gate(8, 0))
		g := access.NewGround(p, plane{north: c.slope}, nil, access.Limits{})
		w := g.Ways([]bed.Bed{bedAt("Bed", 8, 13)})[0]
		require.Equal(t, access.ByBarrow, w.Means)
		assert.LessOrEqual(t, w.Up.Gradient, 1.03/12, "%v", c)
		assert.InDelta(t, 12.0*c.slope, w.Climb, 0.9*c.slope, "to beside the bed")
		want := w.Climb * 12
		assert.GreaterOrEqual(t, w.Length, want*0.98, "%v", c)
		assert.LessOrEqual(t, w.Length, want*c.across+0.6, "%v: %v", c, w.Points)
		if want > 20 { // more than the plot is wide there and back
			assert.Positive(t, w.Hairpins)
		}
		assert.Less(t, w.Hairpins, 12)
	}
}

// A strip too narrow to go to and fro leaves nothing but straight up.
func TestSteepWhereThereIsNoRoom(t *testing.T) {
	p := plot(1.4, 16, gate(0.7, 0))
	g := access.NewGround(p, plane{north: 0.3}, nil, access.Limits{})
	w := g.Ways([]bed.Bed{turned("Bed", 0.7, 13, 0)})[0]
	require.Equal(t, access.ByBarrow, w.Means)
	assert.Greater(t, w.OverLimit, 2.0)
	assert.LessOrEqual(t, w.Up.Gradient, 0.3+1e-9)
}

// Beds in rows with paths exactly as wide as the barrow, whatever way the rows
// lie: all are reached; with paths 5 cm narrower those behind are not.
func TestPathsJustWideEnough(t *testing.T) {
	for k := range 17 {
		bearing, side := 11*float64(k), 14.0
		if k%2 == 1 {
			side = 40 // of cells as large as they get under 100 by 100 m
		}
		for _, path := range []float64{0.60, 0.55} {
			p := plot(side, side, gate(side/2, 0))
			g := access.NewGround(p, plane{}, nil, access.Limits{})
			east, north := math.Sincos(bearing * math.Pi / 180)
			var beds []bed.Bed
			for row := -1.0; row <= 1; row++ {
				for col := -1.0; col <= 1; col++ {
					along, across := col*(2+path), row*(1.2+path)
					b := turned(fmt.Sprint("bed ", len(beds)), side/2+along*east-across*north, side/2+along*north+across*east, bearing)
					b.Length = 2
					beds = append(beds, b)
				}
			}
			// A ring of beds about the middle one is closed at its corners only by the path.
			for i, w := range g.Ways(beds) {
				if i == 4 && path < 0.6 {
					assert.Equal(t, access.OnFoot, w.Means, "%v degrees", bearing)
					assert.InDelta(t, path, w.Gap, 0.03)
					assert.Positive(t, w.ByHand)
					continue
				}
				assert.Equal(t, access.ByBarrow, w.Means, "%v degrees, path %v, %v", bearing, path, w)
			}
		}
	}
}

func TestWhatStandsInTheWay(t *testing.T) {
	closed := plot(12, 12, gate(3, 0), fence(orb.Point{0, 6}, orb.Point{12, 6}))
	ground := func(p *geodata.Plot) *access.Ground { return access.NewGround(p, plane{}, nil, access.Limits{}) }
	w := ground(closed).Ways([]bed.Bed{bedAt("Bed", 6, 9)})[0]
	assert.Equal(t, access.NoWay, w.Means)
	assert.Equal(t, []string{`the fence "long"`}, w.InTheWay)
	assert.Zero(t, w.Gap)
	assert.Empty(t, w.Points)

	gap := plot(12, 12, gate(3, 0), fence(orb.Point{0, 6}, orb.Point{11.5, 6}))
	w = ground(gap).Ways([]bed.Bed{bedAt("Bed", 6, 9)})[0]
	assert.Equal(t, access.OnFoot, w.Means)
	assert.ElementsMatch(t, []string{"the boundary", `the fence "long"`}, w.InTheWay)
	assert.InDelta(t, 0.5, w.Gap, 0.02)
	assert.Less(t, w.ByHand, 12.0)
	assert.Greater(t, w.ByHand, 3.0)

	opened := plot(12, 12, gate(3, 0), fence(orb.Point{0, 6}, orb.Point{12, 6}), gate(7, 6))
	opened.Fixtures[2].Name = "inner"
	w = ground(opened).Ways([]bed.Bed{bedAt("Bed", 6, 9)})[0]
	assert.Equal(t, access.ByBarrow, w.Means)

	pond := []access.Keepout{{Said: "standing water in hollow 1", Shape: orb.Polygon{{{0, 5}, {12, 5}, {12, 6}, {0, 6}, {0, 5}}}}}
	w = access.NewGround(plot(12, 12, gate(3, 0)), plane{}, pond, access.Limits{}).Ways([]bed.Bed{bedAt("Bed", 6, 9)})[0]
	assert.Equal(t, access.NoWay, w.Means)
	assert.Equal(t, []string{"standing water in hollow 1"}, w.InTheWay)

	row := []bed.Bed{bedAt("Bed 1", 2.2, 6), bedAt("Bed 2", 6, 6), bedAt("Bed 3", 9.8, 6), bedAt("Bed 4", 6, 9)}
	ways := ground(plot(12, 12, gate(3, 0))).Ways(row) // 0.2 m between them, 0.4 m at the ends
	assert.Equal(t, access.NoWay, ways[3].Means)
	assert.InDelta(t, 0.4, ways[3].Gap, 0.02)
	assert.Contains(t, ways[3].InTheWay, "the boundary")
}

func TestWhereLoadsComeFrom(t *testing.T) {
	rising := plane{east: 0.02, north: 0.1}
	starts := func(p *geodata.Plot) []access.Start {
		return access.NewGround(p, rising, nil, access.Limits{}).Starts()
	}
	heap := geodata.Fixture{Kind: geodata.HeapKind, Name: "tip", Shape: orb.Point{2, 3}}
	path := geodata.Fixture{Kind: geodata.PathKind, Shape: orb.LineString{{9, 11.8}, {6, 6}}}

	s := starts(plot(12, 12, gate(6, 0), heap))
	assert.Equal(t, []access.Start{{At: orb.Point{2, 3}, Said: `the heap "tip"`}}, s, "a heap goes before a gate")
	s = starts(plot(12, 12, path))
	assert.Equal(t, []access.Start{{At: orb.Point{9, 11.8}, Said: "the end of the path by the boundary", Assumed: true}}, s)
	s = starts(plot(12, 12))
	require.Len(t, s, 1)
	assert.True(t, s[0].Assumed)
	assert.Less(t, planar.Distance(s[0].At, orb.Point{0, 0}), 1.0, "the lowest corner")
}

func TestNoRoomAnywhere(t *testing.T) {
	g := access.NewGround(plot(0.5, 0.5), plane{}, nil, access.Limits{})
	assert.Empty(t, g.Starts(), "a barrow stands nowhere")
	w := g.Ways([]bed.Bed{turned("Bed", 0.25, 0.25, 0)})[0]
	assert.Equal(t, access.Way{Bed: "Bed", Means: access.NoWay}, w)
	_, ok := g.Distances().At(orb.Point{0.25, 0.25})
	assert.False(t, ok)

	far := access.NewGround(plot(9, 9, gate(4, -7)), plane{}, nil, access.Limits{})
	w = far.Ways([]bed.Bed{bedAt("Bed", 4, 5)})[0]
	assert.Equal(t, access.NoWay, w.Means)
	assert.Equal(t, []string{"the boundary"}, w.InTheWay)

	unknown := access.NewGround(plot(9, 9, gate(4, 0)), nowhere{}, nil, access.Limits{})
	assert.Equal(t, access.NoWay, unknown.Ways([]bed.Bed{bedAt("Bed", 4, 5)})[0].Means)
}

// nowhere is ground of which no height is known.
type nowhere struct{}

func (nowhere) HeightAt(orb.Point) (float64, bool) { return 0, false }
