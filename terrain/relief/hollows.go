package relief

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// Defaults of ours for what is too small to tell from errors in the heights.
const (
	DefaultMinDepth = .030 // metres
	DefaultMinCells = 4
)

// HollowOptions says which hollows count.
type HollowOptions struct {
	// MinDepth in metres: shallower hollows are left out. Default: the larger
	// of 30 mm and three times Sigma.
	MinDepth float64
	Sigma    float64 // standard deviation of a height, metres; default 0, unknown
	MinCells int     // hollows of fewer cells are left out; default 4
	// NodataIsWall keeps water in at nodes without a height. Default false:
	// it drains away there, because nothing is known of the ground beyond.
	NodataIsWall bool
}

// least resolves the defaults.
func (o HollowOptions) least() (depth float64, cells int) {
	depth, cells = DefaultMinDepth, DefaultMinCells
	if 3*o.Sigma > depth {
		depth = 3 * o.Sigma
	}
	if o.MinDepth > 0 {
		depth = o.MinDepth
	}
	if o.MinCells > 0 {
		cells = o.MinCells
	}
	return depth, cells
}

// Hollow is ground that holds water until it spills over its lowest sill.
type Hollow struct {
	Area       float64     // of the water when full, m2
	Volume     float64     // of water when full, m3
	Depth      float64     // of water at the deepest point, metres
	Bottom     float64     // height of the deepest point, metres
	Deepest    orb.Point   // the first such node from the south-west
	SpillLevel float64     // metres
	Spill      orb.Point   // the node on the sill
	Cells      []int       // nodes under water: row times Cols plus column, rising
	Outline    orb.Polygon // round the squares of those nodes; see outlineOf
}

// Hollows finds the ground that holds water, by priority flood (Barnes, Lehman
// & Mulla 2014, Computers & Geosciences 62:117-127). Each node stands for the
// square of one spacing round it. Water leaves at the edge of the grid. Hollows
// that run into one another under a common spill level are one hollow.
//
// The largest volume comes first; of equal ones the one that starts further
// south, then west. A grid that Grid.Check refuses has none.
func Hollows(g *terrain.Grid, opt HollowOptions) []Hollow {
	if g.Check() != nil {
		return nil
	}
	minDepth, minCells := opt.least()
	f := newFlood(g, opt.NodataIsWall)
	f.run()
	var out []Hollow
	seen := make([]bool, len(g.Z))
	for i := range g.Z {
		if seen[i] || !(f.depth(i) > 0) {
			continue
		}
		cells := f.pool(i, seen)
		if len(cells) < minCells {
			continue
		}
		// The sixth decimal is far below any reading: it keeps a hollow of
		// just the least depth from being lost to rounding.
		if h := f.hollow(cells); h.Depth >= minDepth-1e-6 {
			out = append(out, h)
		}
	}
	slices.SortStableFunc(out, func(a, b Hollow) int { return cmp.Compare(b.Volume, a.Volume) })
	return out
}

// pool lists the cells under the same water as cell i, rising, and marks them.
func (f *flood) pool(i int, seen []bool) []int {
	cells := []int{i}
	seen[i] = true
	var around [8]int
	for at := 0; at < len(cells); at++ {
		for _, k := range neighbours(f.grid, cells[at], &around) {
			if !seen[k] && f.depth(k) > 0 {
				seen[k] = true
				cells = append(cells, k)
			}
		}
	}
	slices.Sort(cells)
	return cells
}

// hollow measures a pool. Its sill is where the water came in: the cell from
// which the first of its cells was reached.
func (f *flood) hollow(cells []int) Hollow {
	g := f.grid
	node := func(i int) orb.Point { return g.Node(i%g.Cols, i/g.Cols) }
	deepest, first := cells[0], cells[0]
	var depths float64
	for _, i := range cells {
		depths += f.depth(i)
		if g.Z[i] < g.Z[deepest] {
			deepest = i
		}
		if f.turn[i] < f.turn[first] {
			first = i
		}
	}
	square := g.Cell * g.Cell
	return Hollow{
		Area: float64(len(cells)) * square, Volume: depths * square,
		Depth: f.depth(deepest), Bottom: g.Z[deepest], Deepest: node(deepest),
		SpillLevel: f.level[first], Spill: node(int(f.from[first])),
		Cells: cells, Outline: outlineOf(g, cells),
	}
}
