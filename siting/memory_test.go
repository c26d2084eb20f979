package siting_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/terrain/surface"
)

// wavyPlot is 30 by 24 m of falling, wavy ground with 60 heights and 12 drawn
// beds of 3.6 by 1.2 m.
func wavyPlot() *geodata.Plot {
	rng := rand.New(rand.NewPCG(60, 12))
	p := &geodata.Plot{Name: "wavy", Frame: geodata.Frame{North: "the +y axis"}, BoundaryDrawn: true}
	p.Boundary = orb.Polygon{{{0, 0}, {30, 0}, {30, 24}, {0, 24}, {0, 0}}}
	for i := range 60 {
		x, y := 3*(float64(i%10)+0.1+0.8*rng.Float64()), 4*(float64(i/10)+0.1+0.8*rng.Float64())
		z := 20 + 0.07*y + 0.01*x + 0.12*math.Sin(x/3)*math.Cos(y/4) + 0.012*rng.NormFloat64()
		p.Spots = append(p.Spots, geodata.SpotHeight{Name: fmt.Sprintf("h%d", i+1), At: orb.Point{x, y}, Height: z, Readings: 1})
	}
	for i := range 12 {
		p.Fixtures = append(p.Fixtures, drawnBed(fmt.Sprintf("bed %d", i+1), 5+6.5*float64(i%4), 5+6.5*float64(i/4)))
	}
	return p
}

func drawnBed(name string, x, y float64) geodata.Fixture {
	ring := orb.Ring{{x - 1.8, y - 0.6}, {x + 1.8, y - 0.6}, {x + 1.8, y + 0.6}, {x - 1.8, y + 0.6}, {x - 1.8, y - 0.6}}
	return geodata.Fixture{Kind: geodata.BedKind, Name: name, Shape: orb.Polygon{ring}, Pinned: true}
}

// What is remembered changes no answer, and is forgotten when a height or a
// wish changes in place.
func TestMemoryChangesNoAnswer(t *testing.T) {
	p, m := wavyPlot(), &siting.Memory{}
	both := func(what string) *siting.Assessment {
		a, err := siting.Assess(context.Background(), p, siting.Options{Memory: m})
		require.NoError(t, err)
		fresh, err := siting.Assess(context.Background(), p, siting.Options{})
		require.NoError(t, err)
		assert.Equal(t, fresh, a, what)
		return a
	}
	first := both("first")
	require.Equal(t, string(surface.SmoothKind), first.Ground.Surface)
	for i, at := range []orb.Point{{24, 4}, {11.5, 9}, {12.2, 15.4}, {24, 4}, {5.5, 8.2}, {11.5, 2.5}} {
		p.Fixtures[3] = drawnBed("bed 4", at[0], at[1])
		both(fmt.Sprint("a bed moved ", i))
	}
	p.Fixtures[7] = drawnBed("bed 4 too", 18, 8)
	both("another bed moved and named anew")
	p.Fixtures[7] = drawnBed("bed 8", 24.5, 11.5)
	p.Fixtures[3] = drawnBed("bed 4", 24, 4)
	moved := both("a bed moved")
	assert.NotEqual(t, first.Beds[3].FallPercent, moved.Beds[3].FallPercent)
	more := 13
	p.Site.Beds.Count = &more
	assert.Len(t, both("one bed more wished for").Beds, 13)
	p.Site.Beds.Count = nil
	p.Spots[7].Height += 0.2
	assert.NotEqual(t, moved.Ground.FallPercent, both("a height changed").Ground.FallPercent)
	deep := 300.0
	p.Site.Beds.Depth = &deep
	both("a wish said")
	deep = 200
	both("a wish changed in place")
}

// BenchmarkAssessSimulated60Heights12Beds is the fit, 200 simulated surfaces and
// the whole assessment; moved is the same with one bed moved and the ground
// remembered.
func BenchmarkAssessSimulated60Heights12Beds(b *testing.B) {
	run := func(b *testing.B, m *siting.Memory) {
		p := wavyPlot()
		for i := 0; b.Loop(); i++ {
			p.Fixtures[3] = drawnBed("bed 4", 24, 4+0.1*float64(i%10))
			a, err := siting.Assess(context.Background(), p, siting.Options{Memory: m})
			if err != nil || a.Ground.Simulation == nil {
				b.Fatal(err, a)
			}
		}
	}
	b.Run("whole", func(b *testing.B) { run(b, nil) })
	b.Run("moved", func(b *testing.B) {
		m := &siting.Memory{}
		if _, err := siting.Assess(context.Background(), wavyPlot(), siting.Options{Memory: m}); err != nil {
			b.Fatal(err)
		}
		run(b, m)
	})
}
