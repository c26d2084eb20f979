package relief_test

import (
	"math"

	"github.com/paulmach/orb"

	"crossfall/terrain"
	"crossfall/terrain/relief"
)

// gridOf is a grid from rows of heights, the northern row first, as printed.
func gridOf(cell float64, rows ...[]float64) *terrain.Grid {
	g := terrain.NewGrid(orb.Point{}, cell, len(rows[0]), len(rows))
	for r, row := range rows {
		for c, z := range row {
			g.Set(c, len(rows)-1-r, z)
		}
	}
	return g
}

// gridFrom is a grid of a function of place.
func gridFrom(origin orb.Point, cell float64, cols, rows int, z func(x, y float64) float64) *terrain.Grid {
	g := terrain.NewGrid(origin, cell, cols, rows)
	for row := range rows {
		for col := range cols {
			p := g.Node(col, row)
			g.Set(col, row, z(p[0], p[1]))
		}
	}
	return g
}

// gridOfRaster is the same heights as a grid.
func gridOfRaster(r *relief.Raster) *terrain.Grid {
	g := terrain.NewGrid(r.Origin, r.Cell, r.Cols, r.Rows)
	for i, z := range r.Z {
		g.Z[i] = float64(z)
	}
	return g
}

// rolling is garden-like ground with hollows and tops.
func rolling(x, y float64) float64 {
	return .05*y + .4*math.Sin(.9*x+.3*y)*math.Cos(.7*y) + .1*math.Sin(3.1*x-2.3*y)
}
