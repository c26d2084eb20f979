package relief

import "crossfall/terrain"

// ContoursBy is Contours by so many workers.
func ContoursBy(g *terrain.Grid, levels []float64, workers int) ([]Contour, error) {
	return contour(lattice{g.Origin, g.Cell, g.Cols, g.Rows}, g.Z, levels, workers)
}

// Fill is the grid with every hollow filled to its spill level. Water leaves
// at the grid's edge and, unless nodataIsWall, beside nodes without a height.
// Nodes shut in by walls come back as they were. The error is that of
// Grid.Check.
func Fill(g *terrain.Grid, nodataIsWall bool) (*terrain.Grid, error) {
	if err := g.Check(); err != nil {
		return nil, err
	}
	f := newFlood(g, nodataIsWall)
	f.run()
	out := *g
	out.Z = f.level
	return &out, nil
}
