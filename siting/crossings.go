package siting

import (
	"cmp"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/drainage"
	"crossfall/terrain/relief"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

const (
	// edgeStep is how closely the boundary is looked at for water coming in.
	edgeStep = 0.5 // m
	// A stretch that brings or takes less than this share is not told.
	leastShare = 0.05
)

// inflows are the stretches of the boundary over which water comes in: with a
// hillside, the ground on it that drains there; without one, what
// ground.uphill_length_m says of it.
func (j judge) inflows() []Crossing {
	out := []Crossing{}
	if j.fit.Uneven {
		return out
	}
	if j.plot.Hillside != nil {
		c := drainage.Catchment(j.above, j.plot.Boundary, j.aboveExtent, drainage.Options{})
		for _, p := range c.Outline {
			middle, _ := planar.CentroidArea(p)
			at := nearestOn(j.plot.Boundary[0], middle)
			out = append(out, Crossing{Side: j.edgeSaid(at), At: at, Area: areaBand(math.Abs(planar.Area(p)), c.Unclear)})
		}
		return shared(out)
	}
	return j.inflowStretches()
}

// inflowStretches walks the boundary and joins the steps over which the ground
// falls inwards into stretches.
func (j judge) inflowStretches() []Crossing {
	var out []Crossing
	open := false
	ring := j.plot.Boundary[0]
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		n := int(math.Ceil(planar.Distance(a, b) / edgeStep))
		for k := range n {
			t := (float64(k) + .5) / float64(n)
			q := orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
			in, ok := inward(q, a, b, j.plot.Boundary, j.field)
			if !ok {
				open = false
				continue
			}
			side := j.edgeSaid(in)
			if !open || out[len(out)-1].Side != side {
				out = append(out, Crossing{Side: side, At: in})
				open = true
			}
			out[len(out)-1].Width += j.acrossFall(in, a, b) * planar.Distance(a, b) / float64(n)
		}
	}
	out = bySide(out)
	for i := range out {
		beyond := out[i].Width * j.brief.UphillLength
		out[i].Area = geodata.Estimate{Value: beyond, High: 2 * beyond}
	}
	return shared(out)
}

// acrossFall is how much of a length of boundary lies across the way of the
// water: the sine of the angle between them.
func (j judge) acrossFall(at, a, b orb.Point) float64 {
	g, ok := j.field.GradientAt(at)
	if fall := g.Fall(); ok && fall > 0 {
		along := g.Along(terrain.BearingOf(b[0]-a[0], b[1]-a[1])) / fall
		return math.Sqrt(math.Max(0, 1-along*along))
	}
	return 0
}

// bySide adds up the stretches that lie on the same side, at the middle of the
// widest.
func bySide(stretches []Crossing) []Crossing {
	out := []Crossing{}
	for _, s := range stretches {
		i := slices.IndexFunc(out, func(c Crossing) bool { return c.Side == s.Side })
		if i < 0 {
			out = append(out, s)
			continue
		}
		if s.Width > out[i].Width {
			out[i].At = s.At
		}
		out[i].Width += s.Width
	}
	return out
}

// outflows are the places where the water of the plot leaves it: the nodes of
// the fitted ground from which it runs out, with hollows full, or let out by
// trenches where asked, gathered by side.
// Each node stands for the ground that drains through it (steepest of eight ways).
func (j judge) outflows(grid *terrain.Grid, breach bool) []Crossing {
	out := []Crossing{}
	raster, err := relief.RasterOf(aboveLowest(grid), 0)
	if err != nil || j.fit.Uneven {
		return out
	}
	opt := drainage.GridOptions{Routing: drainage.D8}
	if breach {
		opt.Hollows = drainage.BreachHollows
	}
	net, err := drainage.Route(raster, opt)
	if err != nil {
		return out
	}
	most := map[string]float64{}
	area := net.Accumulate().Area
	for i, to := range net.To {
		if to != relief.Out || math.IsNaN(area[i]) {
			continue
		}
		at := nearestOn(j.plot.Boundary[0], grid.Node(i%grid.Cols, i/grid.Cols))
		side := j.edgeSaid(at)
		k := slices.IndexFunc(out, func(c Crossing) bool { return c.Side == side })
		if k < 0 {
			k = len(out)
			out = append(out, Crossing{Side: side, At: at})
		}
		if area[i] > most[side] {
			most[side], out[k].At = area[i], at
		}
		out[k].Area.Value += area[i]
	}
	for i := range out {
		out[i].Area = j.leavingBand(out[i].Area.Value, grid.Cell)
	}
	return shared(out)
}

// leavingBand is an area gathered on a lattice, uncertain by one row of its
// nodes all round: the side of a square of that area, four times, by a cell.
func (j judge) leavingBand(area, cell float64) geodata.Estimate {
	row := 4 * math.Sqrt(area) * cell / 2
	return geodata.Estimate{Value: area, Low: math.Max(0, area-row), High: area + row}
}

// shared works out the shares, drops what is too small to tell and puts the
// largest first.
func shared(all []Crossing) []Crossing {
	weight := func(c Crossing) float64 {
		if c.Area.Value > 0 {
			return c.Area.Value
		}
		return c.Width
	}
	total := 0.0
	for _, c := range all {
		total += weight(c)
	}
	out := []Crossing{}
	for _, c := range all {
		if c.Share = weight(c) / total; c.Share >= leastShare {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b Crossing) int { return cmp.Compare(b.Share, a.Share) })
	return out
}

// nearestOn is the point of a ring nearest to another.
func nearestOn(ring orb.Ring, q orb.Point) orb.Point {
	best, least := ring[0], math.Inf(1)
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		along := orb.Point{b[0] - a[0], b[1] - a[1]}
		t := ((q[0]-a[0])*along[0] + (q[1]-a[1])*along[1]) / (along[0]*along[0] + along[1]*along[1])
		t = math.Max(0, math.Min(1, t))
		p := orb.Point{a[0] + t*along[0], a[1] + t*along[1]}
		if d := planar.Distance(p, q); d < least {
			best, least = p, d
		}
	}
	return best
}
