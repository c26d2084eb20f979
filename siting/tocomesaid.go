package siting

import (
	"fmt"
	"math"

	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// mostOfIt is the part of the free places that one line must tell to be given; a
// default of ours.
const mostOfIt = 0.5

// say puts what is free into words: past which line everything is, and how much
// there is in all.
func (t *ToCome) say(j judge, g *terrain.Grid, sure []int) {
	head := fmt.Sprintf("%s, %.1f m high and %.1f m wide", t.What, t.Height, t.Width)
	if len(sure) == 0 {
		t.Said = head + fmt.Sprintf(": no place on the plot is sure to leave every bed %.0f %% of its direct sun on the four dates together", 100*(1-hardly))
		if t.Area.High > 0 {
			t.Said += fmt.Sprintf("; at best %.0f m² would", t.Area.High)
		}
		return
	}
	t.Said = head + fmt.Sprintf(": on %.0f m² (%.0f to %.0f m²) of the plot, %.0f %% of it (%.0f to %.0f), its middle would take less than %.0f %% of the direct sun of any bed on the four dates together",
		t.Area.Value, t.Area.Low, t.Area.High, t.Share.Value, t.Share.Low, t.Share.High, 100*hardly)
	wind, line, part := j.freePast(g, sure)
	defer func() { t.Said += ". Services, roots, paths and neighbours are not looked at in this" }()
	if part < mostOfIt {
		t.Said += "; no straight line parts it off: see the hatching on the plan"
		return
	}
	t.Line = &line
	t.Said += fmt.Sprintf(": everywhere %s of a line from %s to %s", wind, placeSaid(line[0]), placeSaid(line[1]))
	if part < 1 {
		t.Said += ", and where the plan is hatched besides"
	}
}

// freePast finds the line square to one of eight winds past which every place of
// the plot is free, that tells the greatest part of them.
func (j judge) freePast(g *terrain.Grid, sure []int) (wind string, line [2]orb.Point, part float64) {
	free := make([]bool, len(g.Z))
	for _, n := range sure {
		free[n] = true
	}
	for i, name := range compassPoints {
		sin, cos := math.Sincos(float64(i)*math.Pi/4 - j.plot.Frame.NorthTurn)
		along := func(n int) float64 {
			p := g.Node(n%g.Cols, n/g.Cols)
			return p[0]*sin + p[1]*cos
		}
		last := math.Inf(-1) // place that is not free
		for n, z := range g.Z {
			if !math.IsNaN(z) && !free[n] {
				last = math.Max(last, along(n))
			}
		}
		past := 0
		for _, n := range sure {
			if along(n) > last+1e-9 {
				past++
			}
		}
		if p := float64(past) / float64(len(sure)); p > part+1e-9 {
			if ends, ok := j.chord(orb.Point{sin, cos}, last+g.Cell/2); ok {
				wind, line, part = name, ends, p
			}
		}
	}
	return wind, line, part
}

// chord is where a line square to a direction, so far along it, crosses the plot,
// from end to end; ok is false where it does not.
func (j judge) chord(to orb.Point, at float64) (ends [2]orb.Point, ok bool) {
	low, high := math.Inf(1), math.Inf(-1)
	ring := j.plot.Boundary[0]
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		from, end := a[0]*to[0]+a[1]*to[1]-at, b[0]*to[0]+b[1]*to[1]-at
		if (from < 0) == (end < 0) {
			continue
		}
		s := from / (from - end)
		across := (a[0]+s*(b[0]-a[0]))*to[1] - (a[1]+s*(b[1]-a[1]))*to[0]
		low, high = math.Min(low, across), math.Max(high, across)
	}
	place := func(across float64) orb.Point {
		return orb.Point{at*to[0] + across*to[1], at*to[1] - across*to[0]}
	}
	return [2]orb.Point{place(low), place(high)}, low < high
}
