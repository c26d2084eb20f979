package siting_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"crossfall/geodata"
	"crossfall/siting/soil"
)

// fewChecks runs a property n times, since one assessment takes a tenth of a
// second; -rapid.checks says otherwise.
func fewChecks(t *testing.T, n int, property func(*rapid.T)) {
	t.Helper()
	if testing.Short() {
		t.Skip("long; other tests make whole assessments too")
	}
	if f := flag.Lookup("rapid.checks"); f.Value.String() == f.DefValue {
		if err := f.Value.Set(fmt.Sprint(n)); err != nil {
			t.Fatal(err)
		}
		defer func() { _ = f.Value.Set(f.DefValue) }()
	}
	rapid.Check(t, property)
}

// land is invented ground: a fall, bent or wavy.
type land struct {
	east, north float64 // gradient where x and y are 0
	bend, wave  float64
}

func (l land) height(p orb.Point) float64 {
	x, y := p[0], p[1]
	return 40 + l.east*x + l.north*y + l.bend*(x*x-0.5*x*y) + l.wave*math.Sin(x/2.7)*math.Cos(y/3.1)
}

// drawnLand draws ground of one of three characters.
func drawnLand(t *rapid.T) land {
	fall := rapid.Float64Range(0.01, 0.22).Draw(t, "fall")
	sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "bearing"))
	l := land{east: fall * sin, north: fall * cos}
	switch rapid.IntRange(0, 2).Draw(t, "character") {
	case 1:
		l.bend = rapid.Float64Range(-0.004, 0.004).Draw(t, "bend")
	case 2:
		l.wave = rapid.Float64Range(0.05, 0.15).Draw(t, "wave")
	}
	return l
}

// drawnPlot draws a plot of 16 by 12 m with 12 to 25 heights on some land and up
// to three beds drawn by hand, which do not touch.
func drawnPlot(t *rapid.T) *geodata.Plot {
	return surveyed(t, drawnLand(t), rapid.IntRange(12, 25).Draw(t, "heights"))
}

func surveyed(t *rapid.T, l land, n int) *geodata.Plot {
	rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 7))
	p := &geodata.Plot{Name: "drawn", Frame: geodata.Frame{North: "the +y axis"}, BoundaryDrawn: true}
	p.Boundary = orb.Polygon{{{0, 0}, {16, 0}, {16, 12}, {0, 12}, {0, 0}}}
	for i := range n {
		at := orb.Point{3.2 * (float64(i%5) + 0.05 + 0.9*rng.Float64()), 2.4 * (float64(i/5) + 0.05 + 0.9*rng.Float64())}
		at = orb.Point{math.Round(at[0]*100) / 100, math.Round(at[1]*100) / 100}
		z := math.Round(1000*(l.height(at)+0.01*rng.NormFloat64())) / 1000
		p.Spots = append(p.Spots, geodata.SpotHeight{Name: fmt.Sprintf("h%d", i+1), At: at, Height: z, Readings: 1})
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "beds") {
		turn := rapid.Float64Range(0, math.Pi).Draw(t, "turn")
		p.Fixtures = append(p.Fixtures, turnedBed(fmt.Sprintf("bed %d", i+1), orb.Point{3.5 + 4.5*float64(i), 6}, turn))
	}
	precision, none, thumb := 10.0, 0, rapid.SampledFrom(soil.Words()).Draw(t, "ground")
	p.Site.Ground.Precision, p.Site.Ground.Thumb, p.Site.Beds.Count = &precision, thumb, &none
	return p
}

// turnedBed is a pinned bed of 3.6 by 1.2 m about a centre.
func turnedBed(name string, at orb.Point, turn float64) geodata.Fixture {
	sin, cos := math.Sincos(turn)
	var ring orb.Ring
	for _, c := range [][2]float64{{-1.8, -.6}, {1.8, -.6}, {1.8, .6}, {-1.8, .6}, {-1.8, -.6}} {
		ring = append(ring, orb.Point{at[0] + c[0]*cos - c[1]*sin, at[1] + c[0]*sin + c[1]*cos})
	}
	return geodata.Fixture{Kind: geodata.BedKind, Name: name, Shape: orb.Polygon{ring}, Pinned: true}
}

// moved is the plot with every place sent through a map, and up metres higher.
func moved(p *geodata.Plot, to func(orb.Point) orb.Point, up float64) *geodata.Plot {
	q := *p
	q.Spots = append([]geodata.SpotHeight(nil), p.Spots...)
	for i := range q.Spots {
		q.Spots[i].At, q.Spots[i].Height = to(q.Spots[i].At), q.Spots[i].Height+up
	}
	q.Boundary = shapeMoved(p.Boundary, to).(orb.Polygon)
	q.Fixtures = append([]geodata.Fixture(nil), p.Fixtures...)
	for i := range q.Fixtures {
		q.Fixtures[i].Shape = shapeMoved(q.Fixtures[i].Shape, to)
	}
	return &q
}

func shapeMoved(g orb.Geometry, to func(orb.Point) orb.Point) orb.Geometry {
	switch g := g.(type) {
	case orb.Point:
		return to(g)
	case orb.LineString:
		var out orb.LineString
		for _, p := range g {
			out = append(out, to(p))
		}
		return out
	case orb.Polygon:
		var out orb.Polygon
		for _, ring := range g {
			out = append(out, orb.Ring(shapeMoved(orb.LineString(ring), to).(orb.LineString)))
		}
		return out
	}
	return g
}
