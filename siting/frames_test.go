package siting_test

import (
	"context"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"crossfall/geodata"
	"crossfall/siting"
)

func assessed(t *rapid.T, p *geodata.Plot) *siting.Assessment {
	t.Helper()
	a, err := siting.Assess(context.Background(), p, siting.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// shift draws a way to move a plot as a whole, and how far to raise its datum.
func shift(t *rapid.T) (to func(orb.Point) orb.Point, up float64) {
	dx, dy := float64(rapid.IntRange(-500, 500).Draw(t, "east")), float64(rapid.IntRange(-500, 500).Draw(t, "north"))
	up = float64(rapid.IntRange(-30, 300).Draw(t, "up"))
	return func(q orb.Point) orb.Point { return orb.Point{q[0] + dx, q[1] + dy} }, up
}

// A plot moved as a whole, and booked from another datum, gets the same answer.
func TestMovingThePlotChangesNothing(t *testing.T) {
	fewChecks(t, 10, func(t *rapid.T) {
		p := drawnPlot(t)
		to, up := shift(t)
		if d := differences(assessed(t, p), assessed(t, moved(p, to, up)), to, up); d != nil {
			t.Fatalf("%d differences:\n%s", len(d), lines(d))
		}
	})
}

// Beds that are searched for may go to another of several equal places.
func TestMovingThePlotFindsAsManyBeds(t *testing.T) {
	fewChecks(t, 5, func(t *rapid.T) {
		p := drawnPlot(t)
		wished := rapid.IntRange(3, 9).Draw(t, "wished")
		p.Site.Beds.Count = &wished
		to, up := shift(t)
		a, b := assessed(t, p), assessed(t, moved(p, to, up))
		if len(a.Beds) != len(b.Beds) {
			t.Fatalf("%d beds and %d", len(a.Beds), len(b.Beds))
		}
	})
}

// A plot turned or seen in a mirror keeps the falls, the loads and the volumes of
// the beds drawn by hand. Sun, search and what is read off lattices along the axes
// are left out.
func TestTurningThePlotKeepsFallsLoadsAndVolumes(t *testing.T) {
	fewChecks(t, 10, func(t *rapid.T) {
		p := drawnPlot(t)
		sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "turned"))
		mirror := rapid.SampledFrom([]float64{1, -1}).Draw(t, "mirror")
		to := func(q orb.Point) orb.Point {
			return orb.Point{mirror * (cos*q[0] - sin*q[1]), sin*q[0] + cos*q[1]}
		}
		a, b := assessed(t, p), assessed(t, moved(p, to, 0))
		near := func(what string, x, y geodata.Estimate) {
			for _, v := range [][2]float64{{x.Value, y.Value}, {x.Low, y.Low}, {x.High, y.High}} {
				if math.Abs(v[0]-v[1]) > 1e-5*(1+math.Abs(v[0])) {
					t.Fatalf("%s: %v and %v", what, x, y)
				}
			}
		}
		near("fall of the plot", a.Ground.FallPercent, b.Ground.FallPercent)
		for i, m := range a.Beds {
			n := b.Beds[i]
			near("fall", m.FallPercent, n.FallPercent)
			near("fall across", m.FallAcross, n.FallAcross)
			near("fall along", m.FallAlong, n.FallAlong)
			if m.Edge != n.Edge || m.Build == nil || n.Build == nil || !sameShape(m, n) {
				continue // the sheet of water that reaches it is read off a lattice
			}
			near("compost", m.Build.Compost, n.Build.Compost)
			near("retained", m.Build.Retained, n.Build.Retained)
			if m.Pegs != nil {
				near("winter factor of the pegs", geodata.Exactly(m.Pegs.FactorWinter), geodata.Exactly(n.Pegs.FactorWinter))
				near("embedment", m.Pegs.Embedment, n.Pegs.Embedment)
			}
		}
	})
}

// sameShape tells whether two builds of a bed differ at most in what figures make.
func sameShape(a, b siting.Bed) bool {
	x, y := a.Build, b.Build
	return x.Fill == y.Fill && x.BaysAcross == y.BaysAcross && x.BaysAlong == y.BaysAlong &&
		x.CrossBoards == y.CrossBoards && (a.Pegs == nil) == (b.Pegs == nil)
}

func lines(all []string) (text string) {
	for _, s := range all {
		text += s + "\n"
	}
	return text
}
