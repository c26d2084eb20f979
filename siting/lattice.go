package siting

import (
	"math"

	"crossfall/terrain"
)

// perMetre is how many steps of height a metre has on the lattice that water is
// routed over: 15 micrometres each, and a power of two, so that single precision
// holds them.
const perMetre = 1 << 16

// aboveLowest is a lattice with its heights counted from the lowest, in steps of
// perMetre: where two ways down are as steep as one another, the same one is taken
// whatever the survey's datum and wherever the plot lies.
func aboveLowest(grid *terrain.Grid) *terrain.Grid {
	low := math.Inf(1)
	for _, z := range grid.Z {
		if z < low { // never for NaN
			low = z
		}
	}
	g := *grid
	g.Z = make([]float64, len(grid.Z))
	for i, z := range grid.Z {
		g.Z[i] = math.Round((z-low)*perMetre) / perMetre
	}
	return &g
}
