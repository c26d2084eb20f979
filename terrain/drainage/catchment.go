package drainage

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// RunOnArea is the ground that drains on to a bed.
type RunOnArea struct {
	Area float64 // m2 in plan, without the bed itself
	// Outline has a polygon for each stretch of the bed's outline that water
	// runs in over, in the order of the outline.
	Outline     orb.MultiPolygon
	RisesAtEdge bool    // as in RunOn
	Unclear     float64 // as in RunOn
}

const (
	// apart is how far, in metres, the ends of two neighbouring paths may lie
	// from each other before another is followed between them.
	apart = 1
	// deepest is how many times a gap between starts is halved for that. Ends
	// still apart then have a divide, or a corner of the plot, between them.
	deepest = 10
)

// Catchment outlines the ground in the plot that drains on to a bed, by
// following the steepest ascent from points along every part of the bed's
// outline where the ground outside is higher. On a plane it is the exact strip
// above the bed. opt.Plot is not used; opt.Enters may mark a wall, a ditch or
// other beds that cut the slope short. Unusable input is answered as by
// RunOnLength.
func Catchment(f Field, footprint, plot orb.Polygon, opt Options) RunOnArea {
	if len(footprint) == 0 || !usable(footprint[0], plot) {
		return RunOnArea{Unclear: 1}
	}
	opt = kept(footprint, plot, opt)
	c := catcher{field: f, opt: opt, bed: footprint[0], edge: plot[0]}
	outline := pieces(f, c.bed, opt)
	var total float64
	for _, s := range outline {
		total += s.length()
		if !s.clear {
			c.unclear += s.length()
		}
	}
	for _, stretch := range stretches(outline) {
		c.add(stretch, len(stretch) == len(outline))
	}
	c.found.Unclear = c.unclear / total
	return c.found
}

// stretches groups the upslope pieces that follow one another round the
// outline.
func stretches(outline []piece) [][]piece {
	start := slices.IndexFunc(outline, func(s piece) bool { return !s.upslope() })
	if start < 0 {
		return [][]piece{outline}
	}
	var out [][]piece
	open := false
	for k := range outline {
		s := outline[(start+k)%len(outline)]
		switch {
		case !s.upslope():
			open = false
		case open:
			out[len(out)-1] = append(out[len(out)-1], s)
		default:
			out = append(out, []piece{s})
			open = true
		}
	}
	return out
}

// catcher gathers the ground above one bed.
type catcher struct {
	field   Field
	opt     Options
	bed     orb.Ring
	edge    orb.Ring // outer edge of the plot
	found   RunOnArea
	unclear float64 // metres of outline
}

// fan is paths side by side whose ends lie near one another.
type fan []Path

// add takes in the ground above one stretch of the outline.
func (c *catcher) add(stretch []piece, allRound bool) {
	fans := []fan{{c.trace(stretch[0].from)}}
	for _, s := range stretch {
		last := fans[len(fans)-1]
		path := last[len(last)-1]
		if path.lost() {
			c.unclear += s.length()
		}
		fans = c.spread(fans, s.from, s.to, path, c.trace(s.to), deepest)
	}
	if allRound && len(fans) == 1 {
		c.keep(orb.Polygon{c.ends(fans[0]), c.bed})
		return
	}
	if allRound {
		// The last fan ends with the path that the first starts with.
		last := len(fans) - 1
		fans[0] = append(fans[last], fans[0][1:]...)
		fans = fans[:last]
	}
	for _, f := range fans {
		if len(f) > 1 {
			c.keep(orb.Polygon{c.strip(f)})
		}
	}
}

func (c *catcher) trace(from orb.Point) Path {
	path := Uphill(c.field, from, c.opt)
	c.found.RisesAtEdge = c.found.RisesAtEdge || path.End == LeavesPlot
	return path
}

// spread carries the last fan on from path a, which starts at from, to path b,
// which starts at to, with as many between as the ends need; a new fan is begun
// at a divide.
func (c *catcher) spread(fans []fan, from, to orb.Point, a, b Path, depth int) []fan {
	p, q := a.last(), b.last()
	if math.Hypot(p[0]-q[0], p[1]-q[1]) <= apart {
		fans[len(fans)-1] = append(fans[len(fans)-1], b)
		return fans
	}
	if depth == 0 {
		return append(fans, fan{b})
	}
	middle := between(from, to, .5)
	path := c.trace(middle)
	fans = c.spread(fans, from, middle, a, path, depth-1)
	return c.spread(fans, middle, to, path, b, depth-1)
}

func (p Path) last() orb.Point { return p.Points[len(p.Points)-1] }

// strip is the ring round the ground of a fan.
func (c *catcher) strip(f fan) orb.Ring {
	var ring orb.Ring
	for _, path := range f {
		ring = append(ring, path.Points[0])
	}
	ring = append(ring, f[len(f)-1].Points[1:]...)
	ends := c.ends(f)
	slices.Reverse(ends)
	if len(ends) > 1 {
		ring = append(ring, ends[1:]...)
	}
	back := slices.Clone(f[0].Points)
	slices.Reverse(back)
	return append(ring, back[1:]...)
}

// ends is the line through the ends of a fan, round the edge of the plot where
// two neighbours lie on it.
func (c *catcher) ends(f fan) orb.Ring {
	line := orb.Ring{f[0].last()}
	for i := 1; i < len(f); i++ {
		if f[i-1].End == LeavesPlot && f[i].End == LeavesPlot {
			line = append(line, walk(c.edge, f[i-1].last(), f[i].last())...)
		}
		line = append(line, f[i].last())
	}
	return line
}

// keep adds a polygon to what was found, tidied: no point twice in a row,
// closed, outer ring against the clock and hole with it.
func (c *catcher) keep(p orb.Polygon) {
	for i, ring := range p {
		ring = slices.Compact(slices.Clone(ring))
		if len(ring) > 0 && ring[0] != ring[len(ring)-1] {
			ring = append(ring, ring[0])
		}
		want := orb.CCW
		if i > 0 {
			want = orb.CW
		}
		if len(ring) >= 4 && ring.Orientation() != want {
			ring.Reverse()
		}
		p[i] = ring
	}
	size := math.Abs(planar.Area(p))
	if len(p[0]) < 4 || !(size > 0) {
		return
	}
	c.found.Area += size
	c.found.Outline = append(c.found.Outline, p)
}
