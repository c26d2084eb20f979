package siting

import (
	"context"
	"fmt"
	"math"

	"crossfall/siting/frame"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
)

// simulationSeed begins the random numbers of every simulation, so that the
// same plot always gives the same shares.
const simulationSeed = 1

// ClassChance is how often a class of edge came out.
type ClassChance struct {
	Class frame.Class `json:"class"`
	Share float64     `json:"share"` // of the simulated surfaces, 0 to 1
}

// Chances are what simulated surfaces say of one bed: grounds drawn at random
// that all agree with the heights.
type Chances struct {
	// EdgeChances has the classes that came out, mildest first; empty where the
	// place is refused, or the survey does not tell the ground there.
	EdgeChances []ClassChance `json:"edge_chances"`
	// PathChance is the share of surfaces in which one of the drawn runoff paths
	// crosses the bed, before it is built; null where no path is drawn.
	PathChance *float64 `json:"runoff_path_share"`
}

// Simulation says how the simulated surfaces were drawn.
type Simulation struct {
	Surfaces int    `json:"surfaces"`
	Seed     uint64 `json:"seed"`
	// Error is the standard error of a share of one half, the greatest there is.
	Error float64 `json:"standard_error_of_share"`
	// Cell is the spacing at which the ground of runoff paths is drawn, and
	// Smoothed the greatest standard deviation left out between the places drawn.
	Cell     float64 `json:"cell_m"`
	Smoothed float64 `json:"smoothed_mm"`
}

// said is a note on how the shares were come by.
func (s Simulation) said() string {
	t := fmt.Sprintf("%d surfaces were simulated that all agree with the heights (seed %d): a share of them is known to about ±%.0f in 100",
		s.Surfaces, s.Seed, 200*s.Error)
	if s.Smoothed > 0 {
		t += fmt.Sprintf(", and ground between the places drawn may differ by %.0f mm more", math.Ceil(s.Smoothed))
	}
	return t + "."
}

// chances draws simulated surfaces and counts what they do to the beds and to
// the paths, which it marks. Where not enough is known of uneven ground nothing
// is drawn.
func (a *Assessment) chances(ctx context.Context, j judge, k *known, decided []decision) error {
	for i := range a.Beds {
		a.Beds[i].EdgeChances = []ClassChance{}
	}
	if j.fit.Uneven || len(decided) == 0 {
		return nil
	}
	s := Simulation{Surfaces: surface.DefaultDraws, Seed: simulationSeed, Error: math.Sqrt(0.25 / surface.DefaultDraws)}
	if err := a.edgeChances(ctx, j, decided); err != nil {
		return err
	}
	if len(a.Water.Paths) > 0 {
		ways, err := k.waysDown(ctx, j, a.Water.Paths, &s)
		if err != nil {
			return err
		}
		if err := a.pathChances(ctx, decided, ways); err != nil {
			return err
		}
	}
	a.Ground.Simulation = &s
	a.Ground.Notes = append(a.Ground.Notes, s.said())
	return nil
}

// edgeChances judges every bed at its falls in each simulated surface: those
// between the middles of opposite sides, as for the fitted ground.
func (a *Assessment) edgeChances(ctx context.Context, j judge, decided []decision) error {
	var of []int // beds, in order of the nodes
	var nodes []orb.Point
	for i, d := range decided {
		if d.refused != "" || d.ground.Extrapolated {
			continue
		}
		of = append(of, i)
		for _, p := range probes(d.bed, d.ground.Axes) {
			nodes = append(nodes, p.from, p.to)
		}
	}
	drawn, err := surface.Simulate(j.fit, nodes, surface.DefaultDraws, simulationSeed)
	if err != nil {
		return err
	}
	classes := make([][]frame.Class, len(drawn.Heights)) // by draw and bed
	err = shareOut(ctx, len(classes), func(r int) {
		z := drawn.Heights[r]
		classes[r] = make([]frame.Class, len(of))
		for k, i := range of {
			d := decided[i]
			across, along := (z[4*k+1]-z[4*k])/d.bed.Width, (z[4*k+3]-z[4*k+2])/d.bed.Length
			classes[r][k] = frame.ClassOf(j.caseAt(d, math.Hypot(across, along), math.Abs(across), math.Abs(along)))
		}
	})
	if err != nil {
		return err
	}
	for k, i := range of {
		count := map[frame.Class]int{}
		for _, c := range classes {
			count[c[k]]++
		}
		for _, c := range frame.Classes() {
			if n := count[c]; n > 0 {
				a.Beds[i].EdgeChances = append(a.Beds[i].EdgeChances, ClassChance{c, float64(n) / float64(len(classes))})
			}
		}
	}
	return nil
}
