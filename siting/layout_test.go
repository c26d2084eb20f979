package siting_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/frame"
	"crossfall/siting/layout"
)

func basisOf(t *testing.T, a *siting.Assessment, id string) siting.Basis {
	t.Helper()
	i := slices.IndexFunc(a.Working, func(b siting.Basis) bool { return b.ID == id })
	require.GreaterOrEqual(t, i, 0, "no working of %s", id)
	return a.Working[i]
}

// The score is the sum of the marks of the beds less the cost of their rows, the
// marks what their working takes off, and the bound no less than the score.
func TestLayoutOfTheHillside(t *testing.T) {
	a := assess(t, read(t, "hillside"))
	l := a.Layout
	require.NotNil(t, l)
	assert.Equal(t, 4, l.Wished)
	assert.Equal(t, 4, l.Placed)
	assert.Empty(t, l.InTheWay)
	sum := -layout.DefaultRowCost * float64(l.Rows)
	for _, b := range a.Beds {
		require.NotNil(t, b.Marks)
		sum += *b.Marks
		w := basisOf(t, a, bedWorking(b.Name)+".marks")
		left := layout.FullMarks
		for _, in := range w.Inputs {
			left -= in.Value
		}
		assert.InDelta(t, *b.Marks, left, 1e-9)
	}
	assert.InDelta(t, sum, l.Score, 1e-6)
	assert.GreaterOrEqual(t, l.Bound, l.Score)
	assert.InDelta(t, 100*(l.Bound-l.Score)/l.Score, l.GapPercent, 1e-9)
	assert.InDelta(t, l.Score, basisOf(t, a, "layout.score").Value, 0)
	assert.InDelta(t, l.Bound, basisOf(t, a, "layout.bound").Value, 0)
	assert.Contains(t, l.Said[0], "best of its kind, proved")
	assert.Nil(t, l.Drawn)
	assert.True(t, slices.ContainsFunc(a.Assumptions, func(x siting.Assumption) bool { return x.What == "marks of a place for a bed" }))
}

func bedWorking(name string) string {
	return map[string]string{"bed 1": "bed-1", "bed 2": "bed-2", "bed 3": "bed-3", "bed 4": "bed-4"}[name]
}

func TestMoreBedsThanFit(t *testing.T) {
	p := read(t, "hillside")
	count := 120
	p.Site.Beds.Count = &count
	a := assess(t, p)
	l := a.Layout
	assert.Less(t, l.Placed, 120)
	assert.GreaterOrEqual(t, l.MostBeds, l.Placed)
	require.NotEmpty(t, l.InTheWay)
	for i, h := range l.InTheWay {
		assert.NotEmpty(t, h.Why)
		assert.Greater(t, h.Share, 0.0)
		assert.LessOrEqual(t, h.Share, 1.0)
		assert.True(t, i == 0 || h.Share <= l.InTheWay[i-1].Share)
	}
	assert.True(t, slices.ContainsFunc(a.Findings, func(f geodata.Fault) bool { return f.Code == "beds-do-not-fit" }))

	most := read(t, "hillside")
	most.Site.Beds.Count, most.Site.Beds.Most = nil, true
	b := assess(t, most)
	assert.True(t, b.Layout.Most)
	assert.Greater(t, b.Layout.Placed, 4)
	assert.LessOrEqual(t, b.Layout.Placed, l.Placed)
	// cbc 2.10.8 proved that 37 are the most in the direction of the plot's sides;
	// ground alone would do for 46.
	assert.GreaterOrEqual(t, b.Layout.MostBeds, 37)
	assert.Less(t, b.Layout.MostBeds, 46)
	assert.Equal(t, 37, b.Layout.OutOfLine)
	assert.InDelta(t, float64(b.Layout.MostBeds), basisOf(t, b, "layout.most-beds").Value, 0)
	for _, bed := range b.Beds {
		noneTooNear(t, bed, b.Beds)
	}
	assert.False(t, slices.ContainsFunc(b.Findings, func(f geodata.Fault) bool { return f.Code == "beds-do-not-fit" }))
}

func noneTooNear(t *testing.T, b siting.Bed, all []siting.Bed) {
	for _, o := range all {
		if o.Name != b.Name {
			assert.GreaterOrEqual(t, math.Hypot(b.Centre[0]-o.Centre[0], b.Centre[1]-o.Centre[1]), b.Width+0.6-1e-6)
		}
	}
}

// Beds drawn across the fall on even, well-known ground are worse than as many on
// the contour in every surface; those that the search itself would place are not.
func TestBedsDrawnAgainstBedsPlaced(t *testing.T) {
	p := evenSlope()
	p.Fixtures = append(p.Fixtures, bedDownTheFall("down the fall", 8, 8))
	a := assess(t, p)
	d := a.Layout.Drawn
	require.NotNil(t, d)
	assert.Equal(t, 1, d.Beds)
	assert.Greater(t, d.Free, d.Drawn)
	assert.Equal(t, 1.0, d.Share)
	assert.Contains(t, d.Said, "those placed freely are better in 100 of 100 simulated surfaces")
	assert.InDelta(t, 100, basisOf(t, a, "layout.free-better").Value, 0)

	q := evenSlope()
	one := 1
	q.Site.Beds.Count = &one
	placed := assess(t, q).Beds[0]
	q.Site.Beds.Count = nil
	ring := orb.Ring{}
	for _, c := range placed.Corners {
		ring = append(ring, orb.Point{c[0], c[1]})
	}
	q.Fixtures = append(q.Fixtures, geodata.Fixture{Kind: geodata.BedKind, Name: "same", Shape: orb.Polygon{append(ring, ring[0])}, Pinned: true})
	same := assess(t, q)
	require.NotEqual(t, frame.DoNotBuild, same.Beds[0].Edge)
	require.NotNil(t, same.Layout.Drawn)
	assert.NotContains(t, same.Layout.Drawn.Said, "freely are better")
}

func bedDownTheFall(name string, x, y float64) geodata.Fixture {
	ring := orb.Ring{{x - 0.6, y - 1.8}, {x + 0.6, y - 1.8}, {x + 0.6, y + 1.8}, {x - 0.6, y + 1.8}, {x - 0.6, y - 1.8}}
	return geodata.Fixture{Kind: geodata.BedKind, Name: name, Shape: orb.Polygon{ring}, Pinned: true}
}

// evenSlope is 16 by 16 m that falls 8 % to the south.
func evenSlope() *geodata.Plot {
	p := &geodata.Plot{Name: "even", Frame: geodata.Frame{North: "the +y axis"}, BoundaryDrawn: true}
	p.Boundary = orb.Polygon{{{0, 0}, {16, 0}, {16, 16}, {0, 16}, {0, 0}}}
	for i := range 25 {
		x, y := 4*float64(i%5), 4*float64(i/5)
		p.Spots = append(p.Spots, geodata.SpotHeight{Name: string(rune('a' + i)), At: orb.Point{x, y}, Height: 20 + 0.08*y + 0.002*float64(i%3-1), Readings: 1})
	}
	return p
}

func TestRowWishesAreKept(t *testing.T) {
	p := read(t, "hillside")
	count, two := 6, 2
	p.Site.Beds.Count, p.Site.Beds.RowMin, p.Site.Beds.Columns = &count, &two, true
	a, err := siting.Assess(context.Background(), p, siting.Options{})
	require.NoError(t, err)
	require.Equal(t, 6, a.Layout.Placed)
	assert.LessOrEqual(t, a.Layout.Rows, 3)
	e, n := math.Sincos(*a.Layout.RowBearing * math.Pi / 180)
	along := func(b siting.Bed) float64 { return b.Centre[0]*e + b.Centre[1]*n }
	for _, b := range a.Beds {
		columns := (along(b) - along(a.Beds[0])) / (3.6 + 0.6)
		assert.InDelta(t, math.Round(columns), columns, 1e-4)
	}
}

// An L of which each arm holds beds along it only: two zones hold more beds than
// rows of one direction, and that is said.
func TestTwoZonesAreSaid(t *testing.T) {
	p := evenSlope()
	for i := range p.Spots {
		p.Spots[i].Height = 20 + 0.002*float64(i%3-1)
	}
	p.Boundary = orb.Polygon{{{0, 0}, {14, 0}, {14, 2.5}, {2.5, 2.5}, {2.5, 14}, {0, 14}, {0, 0}}}
	five := 5
	p.Site.Beds.Count = &five
	a := assess(t, p)
	assert.Equal(t, 5, a.Layout.Placed)
	assert.Equal(t, "two zones, each with rows of its own direction", a.Layout.Method)
	assert.Nil(t, a.Layout.RowBearing)
	assert.Contains(t, a.Layout.Said, "the best rows of one direction hold 2 beds less")
	assert.False(t, a.Layout.InKind)
}
