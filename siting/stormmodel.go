package siting

import (
	"context"
	"fmt"
	"math"
	"time"

	"crossfall/geodata"
	"crossfall/siting/soil"
	"crossfall/terrain/stormflow"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// stormPlay is a plot made ready for storms.
type stormPlay struct {
	plot          *geodata.Plot
	assessed      *Assessment
	brief         Brief
	fit           *surface.Fit
	cell          float64
	opt           StormOptions
	with, without *stormflow.Model
	sides         []boardSide // of the boards of with, in its order
	done          int         // runs
}

// boardSide says which side of which bed a board of the model is.
type boardSide struct {
	bed, side string
	sunken    float64 // m
	outer     bool
}

// stormCells are the sides of cells that are chosen among, m.
var stormCells = []float64{0.1, 0.15, 0.2, 0.25, 0.5, 1}

// stormCell is the smallest cell with which a plot has so many cells at most.
func stormCell(boundary orb.Polygon, most int) (float64, error) {
	b := boundary.Bound()
	area, long := planar.Area(boundary), math.Max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])
	for _, c := range stormCells {
		if area/(c*c) <= float64(most) && long/c <= LongestStormRow {
			return c, nil
		}
	}
	return 0, fmt.Errorf("the plot is %.0f m² and %.0f m long: a storm can be played over %.0f m² and %.0f m at most with %d cells",
		area, long, float64(most)*stormCells[len(stormCells)-1], LongestStormRow*stormCells[len(stormCells)-1], most)
}

// Materials of the model.
const (
	groundMaterial = iota
	compostMaterial
)

// model is the plot's ground, with its beds or without.
func (s *stormPlay) model(beds bool) (*stormflow.Model, error) {
	bound := s.plot.Boundary.Bound()
	spec := stormflow.Spec{
		Cell: s.cell, Origin: bound.Min,
		Cols: max(1, int(math.Ceil((bound.Max[0]-bound.Min[0])/s.cell-1e-9))),
		Rows: max(1, int(math.Ceil((bound.Max[1]-bound.Min[1])/s.cell-1e-9))),
	}
	for row := range spec.Rows {
		for col := range spec.Cols {
			p := orb.Point{bound.Min[0] + (float64(col)+0.5)*s.cell, bound.Min[1] + (float64(row)+0.5)*s.cell}
			z := math.NaN()
			if planar.PolygonContains(s.plot.Boundary, p) {
				if h, ok := s.fit.HeightAt(p); ok {
					z = h
				}
			}
			spec.Ground = append(spec.Ground, z)
		}
	}
	if s.brief.UphillLength > 0 {
		fall := math.Max(s.fit.Plane.Gradient.Fall(), 1e-6)
		// through a rim askew to the fall comes its part of the sheet
		spec.RunOn = func(_ orb.Point, rise float64) float64 { return rise / fall }
	}
	if beds {
		s.addBeds(&spec)
	}
	return stormflow.NewModel(spec)
}

// runOn is the sheet that comes over the uphill boundary from ground above it,
// like the plot's own: a strip of its length and the plot's general fall under
// the same rain. Always an assumption.
func (s *stormPlay) runOn(ctx context.Context, storm stormflow.Storm) (stormflow.Series, error) {
	length := s.brief.UphillLength
	if length <= 0 {
		return stormflow.Series{}, nil
	}
	const n = 60
	fall := math.Max(s.fit.Plane.Gradient.Fall(), stormflow.LeastEdgeSlope)
	spec := stormflow.Spec{
		Cols: n, Rows: 1, Cell: length / n, EdgeSlope: fall,
		Edges: func(_ orb.Point, side stormflow.Side) stormflow.EdgeKind {
			if side == stormflow.East {
				return stormflow.Open
			}
			return stormflow.Closed
		},
	}
	for i := range n {
		spec.Ground = append(spec.Ground, fall*spec.Cell*float64(n-i))
	}
	m, err := stormflow.NewModel(spec)
	if err != nil {
		return stormflow.Series{}, err
	}
	out := stormflow.Series{Step: 30}
	_, _, err = m.Run(ctx, storm, stormflow.Options{Workers: 1, ObserveEvery: out.Step, Observe: func(st stormflow.State) {
		out.Rates = append(out.Rates, st.East(n, 0))
	}})
	return out, err
}

// covering is one choice of infiltration and roughness.
type covering struct {
	ground, fill           stormflow.GreenAmpt
	groundRough, fillRough float64
}

func (c covering) materials() []stormflow.Material {
	return []stormflow.Material{
		groundMaterial:  {Manning: c.groundRough, Infiltration: c.ground},
		compostMaterial: {Manning: c.fillRough, Infiltration: c.fill},
	}
}

// Compost takes up far more than any rain until it is full, and then passes what
// the ground below takes; how much faster than ground it stays soaked, and its
// roughness, that of ground cultivated with little residue to plenty (TR-55 1986,
// table 3-1), are defaults of ours.
var (
	compostUptake = [3]float64{20, 60, 200} // mm/h
	compostRough  = [3]float64{0.06, 0.05, 0.17}
)

// coverings are the nine: the middle one first.
func (s *stormPlay) coverings() []covering {
	middle, slowest, quickest := soil.WinterUptake(s.brief.Texture)
	n := soil.RunOnTo(soil.RunOnInput{Ground: s.brief.Ground, Cover: s.brief.Cover}).Roughness
	roughs := [3]float64{n.Value, n.Low, n.High}
	var all []covering
	for i, g := range []stormflow.GreenAmpt{middle, slowest, quickest} {
		up := compostUptake[[3]int{1, 0, 2}[i]] / 3.6e6
		for k, r := range roughs {
			all = append(all, covering{
				ground: g, fill: stormflow.GreenAmpt{Conductivity: math.Max(up, g.Conductivity)},
				groundRough: r, fillRough: compostRough[k],
			})
		}
	}
	return all
}

// progress tells which share of all runs is done.
func (s *stormPlay) progress(played, duration float64) {
	if s.opt.Progress != nil {
		s.opt.Progress((float64(s.done) + played/duration) / float64(2*stormRuns*len(s.opt.Years)))
	}
}

// cellsASecond is a cautious speed of one core, for the time to expect.
const cellsASecond = 8e6

// expected is about how long all the runs take: steps by the speed of a sheet of
// 10 mm, with the beds and without.
func (s *stormPlay) expected() time.Duration {
	step := 0.45 * s.cell / (math.Sqrt(stormflow.Gravity*0.01) + 0.3)
	steps := (s.opt.Minutes + afterMinutes) * 60 / step
	work := steps * float64(s.with.Cells()) * 2 * stormRuns * float64(len(s.opt.Years))
	return time.Duration(work / cellsASecond * float64(time.Second)).Round(time.Second)
}
