package relief

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// HollowsOf finds the ground of a raster that holds water, as Hollows does for
// a grid, with heights in float32. It differs only where a hollow could spill
// at several nodes of exactly the same height: then Spill is the one by which
// the southernmost, then westernmost, node of the hollow's rim was flooded.
// The error is that of Raster.Check.
func HollowsOf(r *Raster, opt HollowOptions) ([]Hollow, error) {
	f, err := Flood(r, opt.NodataIsWall)
	if err != nil {
		return nil, err
	}
	return f.Hollows(r, opt), nil
}

// Hollows lists the hollows that the flood filled. ground is the raster that
// was flooded; opt.NodataIsWall does not matter any more.
func (f *Flooded) Hollows(ground *Raster, opt HollowOptions) []Hollow {
	if ground.Check() != nil || len(ground.Z) != len(f.To) {
		return nil
	}
	minDepth, minCells := opt.least()
	seen := make([]bool, len(ground.Z))
	var out []Hollow
	for i := range ground.Z {
		if seen[i] || !(f.Level.Z[i] > ground.Z[i]) {
			continue
		}
		cells := f.pool(ground, i, seen)
		if len(cells) < minCells {
			continue
		}
		// As in Hollows, the sixth decimal is left to rounding.
		if h := f.hollow(ground, cells); h.Depth >= minDepth-1e-6 {
			h.Outline = outlineOf(latticeOf(ground), cells)
			out = append(out, h)
		}
	}
	slices.SortStableFunc(out, func(a, b Hollow) int { return cmp.Compare(b.Volume, a.Volume) })
	return out
}

// latticeOf is the lattice of a raster, without heights.
func latticeOf(r *Raster) *terrain.Grid {
	return &terrain.Grid{Origin: r.Origin, Cell: r.Cell, Cols: r.Cols, Rows: r.Rows}
}

// pool lists the nodes under the same water as node i, rising, and marks them.
func (f *Flooded) pool(ground *Raster, i int, seen []bool) []int {
	cells := []int{i}
	seen[i] = true
	lattice := latticeOf(ground)
	var around [8]int
	for at := 0; at < len(cells); at++ {
		for _, k := range neighbours(lattice, cells[at], &around) {
			if !seen[k] && f.Level.Z[k] > ground.Z[k] {
				seen[k] = true
				cells = append(cells, k)
			}
		}
	}
	slices.Sort(cells)
	return cells
}

// hollow measures a pool, but for its outline.
func (f *Flooded) hollow(ground *Raster, cells []int) Hollow {
	node := func(i int) orb.Point { return ground.Node(i%ground.Cols, i/ground.Cols) }
	depth := func(i int) float64 { return float64(f.Level.Z[i]) - float64(ground.Z[i]) }
	steps := stepsOf(ground.Cols)
	deepest, spill := cells[0], -1
	var depths float64
	for _, i := range cells {
		depths += depth(i)
		if ground.Z[i] < ground.Z[deepest] {
			deepest = i
		}
		// Water stands only where the flood came from a neighbour.
		if from := i + steps[f.To[i]]; spill < 0 && !(f.Level.Z[from] > ground.Z[from]) {
			spill = from
		}
	}
	square := ground.Cell * ground.Cell
	return Hollow{
		Area: float64(len(cells)) * square, Volume: depths * square,
		Depth: depth(deepest), Bottom: float64(ground.Z[deepest]), Deepest: node(deepest),
		SpillLevel: float64(f.Level.Z[spill]), Spill: node(spill), Cells: cells,
	}
}
