package relief

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// halfDiagonal is how near, in spacings, a node must be to a line to be raised
// with it: the least at which no step to a neighbour gets across the line
// without landing on a raised node.
const halfDiagonal = math.Sqrt2/2 + 1e-9

// fenced is a grid with a ring of unknown nodes round it and barriers raised.
type fenced struct {
	ground, raised *terrain.Grid
	touching       [][]touch // by node: the barriers that raise it
}

type touch struct {
	barrier int
	across  bool // within 45 degrees of the contour there
}

func newFenced(g *terrain.Grid, slopes *SlopeGrid, barriers []Barrier) *fenced {
	origin := orb.Point{g.Origin[0] - g.Cell, g.Origin[1] - g.Cell}
	f := &fenced{ground: terrain.NewGrid(origin, g.Cell, g.Cols+2, g.Rows+2)}
	for row := range g.Rows {
		copy(f.ground.Z[(row+1)*f.ground.Cols+1:], g.Z[row*g.Cols:(row+1)*g.Cols])
	}
	raised := *f.ground
	raised.Z = slices.Clone(f.ground.Z)
	f.raised = &raised
	f.touching = make([][]touch, len(raised.Z))
	for k, b := range barriers {
		for i := min(1, len(b.Line)-1); i < len(b.Line); i++ { // one point is a post
			f.raise(k, b, b.Line[max(i-1, 0)], b.Line[i], slopes)
		}
	}
	return f
}

// raise lifts the nodes along one stretch of a barrier.
func (f *fenced) raise(k int, b Barrier, p, q orb.Point, slopes *SlopeGrid) {
	g := f.ground
	col := func(x float64) float64 { return (x - g.Origin[0]) / g.Cell }
	row := func(y float64) float64 { return (y - g.Origin[1]) / g.Cell }
	for r := clip(min(row(p[1]), row(q[1]))-1, g.Rows); r <= clip(max(row(p[1]), row(q[1]))+1, g.Rows); r++ {
		for c := clip(min(col(p[0]), col(q[0]))-1, g.Cols); c <= clip(max(col(p[0]), col(q[0]))+1, g.Cols); c++ {
			i := r*g.Cols + c
			if distanceTo(p, q, g.Node(c, r)) > halfDiagonal*g.Cell {
				continue
			}
			foot, ok := f.foot(i)
			if !ok {
				continue
			}
			if top := foot + b.Height; !(f.raised.Z[i] >= top) {
				f.raised.Z[i] = top
			}
			f.touching[i] = append(f.touching[i], touch{k, across(slopes, c-1, r-1, p, q)})
		}
	}
}

// clip is the number of a row or column, kept on the grid.
func clip(x float64, count int) int { return int(min(max(x, 0), float64(count-1))) }

// distanceTo is how far a point is from the stretch from p to q.
func distanceTo(p, q, at orb.Point) float64 {
	east, north := q[0]-p[0], q[1]-p[1]
	var part float64
	if length2 := east*east + north*north; length2 > 0 {
		part = min(max(((at[0]-p[0])*east+(at[1]-p[1])*north)/length2, 0), 1)
	}
	return math.Hypot(at[0]-p[0]-part*east, at[1]-p[1]-part*north)
}

// foot is the ground under a barrier at a node; beyond the known ground that of
// the highest neighbour, so that a fence along the edge of a plot closes it.
func (f *fenced) foot(i int) (z float64, ok bool) {
	if z = f.ground.Z[i]; known(z) {
		return z, true
	}
	z = math.Inf(-1)
	var around [8]int
	for _, k := range neighbours(f.ground, i, &around) {
		if known(f.ground.Z[k]) {
			z, ok = max(z, f.ground.Z[k]), true
		}
	}
	return z, ok
}

// across reports whether a stretch lies within 45 degrees of the contour at a
// node, or the ground there has no direction.
func across(slopes *SlopeGrid, col, row int, p, q orb.Point) bool {
	gradient, ok := slopes.At(min(max(col, 0), slopes.Cols-1), min(max(row, 0), slopes.Rows-1))
	length := math.Hypot(q[0]-p[0], q[1]-p[1])
	if fall := gradient.Fall(); ok && fall > 0 && length > 0 {
		along := math.Abs(gradient.East*(q[0]-p[0])+gradient.North*(q[1]-p[1])) / (fall * length)
		return along <= math.Sqrt2/2+1e-9
	}
	return true
}

// dammed finds the air that barriers hold up.
func dammed(g *terrain.Grid, slopes *SlopeGrid, barriers []Barrier, opt ColdAirOptions) []Dammed {
	if len(barriers) == 0 || len(g.Z) == 0 {
		return nil
	}
	f := newFenced(g, slopes, barriers)
	before, after := newFlood(f.ground, opt.NodataIsWall), newFlood(f.raised, opt.NodataIsWall)
	before.run()
	after.run()
	extra := func(i int) float64 {
		if len(f.touching[i]) > 0 || !known(f.ground.Z[i]) || after.turn[i] == 0 || before.turn[i] == 0 {
			return 0
		}
		return after.level[i] - before.level[i]
	}
	seen := make([]bool, len(f.ground.Z))
	var out []Dammed
	for i := range f.ground.Z {
		if seen[i] || !(extra(i) > 0) {
			continue
		}
		nodes, behind := f.gather(i, extra, seen)
		if d := f.measure(g, nodes, behind, barriers, extra); len(behind) > 0 && d.Depth >= opt.MinDepth-1e-6 {
			out = append(out, d)
		}
	}
	slices.SortStableFunc(out, func(a, b Dammed) int { return cmp.Compare(b.Volume, a.Volume) })
	return out
}

// gather lists the nodes under the same dammed air as node i, and the barriers
// that they touch.
func (f *fenced) gather(i int, extra func(int) float64, seen []bool) (nodes, behind []int) {
	nodes = []int{i}
	seen[i] = true
	var touched []touch
	var around [8]int
	for at := 0; at < len(nodes); at++ {
		for _, k := range neighbours(f.ground, nodes[at], &around) {
			touched = append(touched, f.touching[k]...)
			if !seen[k] && extra(k) > 0 {
				seen[k] = true
				nodes = append(nodes, k)
			}
		}
	}
	slices.Sort(nodes)
	anyAcross := slices.ContainsFunc(touched, func(t touch) bool { return t.across })
	for _, t := range touched {
		if t.across || !anyAcross {
			behind = append(behind, t.barrier)
		}
	}
	slices.Sort(behind)
	return nodes, slices.Compact(behind)
}

// measure works out a body of dammed air, with the nodes of the grid given.
func (f *fenced) measure(g *terrain.Grid, nodes, behind []int, barriers []Barrier, extra func(int) float64) Dammed {
	d := Dammed{Behind: behind}
	var top float64
	for _, k := range behind {
		top = max(top, barriers[k].Height)
	}
	square := g.Cell * g.Cell
	for _, i := range nodes {
		depth := min(extra(i), top)
		d.Depth = max(d.Depth, depth)
		d.Volume += depth * square
		d.Nodes = append(d.Nodes, (i/f.ground.Cols-1)*g.Cols+i%f.ground.Cols-1)
	}
	d.Area = float64(len(nodes)) * square
	d.Outline = outlineOf(g, d.Nodes)
	return d
}
