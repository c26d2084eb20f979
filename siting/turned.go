package siting

import (
	"math"

	"crossfall/terrain"
	"crossfall/terrain/drainage"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// A frame of boards stands above any sheet of rain: water that meets it runs
// along the side it met, to that side's lower end, and on from there. It passes
// this far clear of the corner; a default of ours.
const pastCorner = 0.15 // m

// course is a path over the plot and what happened to it on the way.
type course struct {
	drainage.Path
	turnedBy []string // frames that turned it, in order
	against  string   // the frame it stands against, where it ends at one
}

// turningFrame is a framed bed that sheet flow cannot cross.
type turningFrame struct {
	place
	name string
}

// turning lists the beds that have boards, which turn water. An open-edged bed
// does not: water runs into its compost.
func turning(beds []decision) []turningFrame {
	var out []turningFrame
	for _, d := range beds {
		if d.chosen.Boards != nil && !d.stopped {
			out = append(out, turningFrame{placeOf(d.bed.Outline(d.ground.Axes)), d.bed.Name})
		}
	}
	return out
}

// withBeds follows water down from a point with the frames in place.
func (j judge) withBeds(start orb.Point, frames []turningFrame) course {
	opt := j.pathOptions()
	opt.Enters = func(q orb.Point) bool { return frameAt(frames, q) >= 0 }
	c := course{Path: drainage.Path{Points: []orb.Point{start}}}
	for range 1 + 2*len(frames) { // each frame may be met on two of its sides
		leg := drainage.Downhill(j.field, c.last(), opt)
		c.join(leg)
		if leg.End != drainage.EntersRegion {
			return c
		}
		met := frameAt(frames, c.last())
		if met < 0 || !j.turn(&c, frames, met) {
			return c
		}
	}
	return c
}

// turn leads a course along the side of the frame that it has met, and is false
// where water stands there.
func (j judge) turn(c *course, frames []turningFrame, met int) bool {
	f := frames[met]
	c.against = f.name
	ring := f.outline[0]
	from, to := sideAt(ring, c.last())
	a, b := ring[from], ring[to]
	if !(j.heightAt(a) < j.heightAt(b)) {
		a, b = b, a
	}
	out := terrain.BearingOf(a[0]-b[0], a[1]-b[1]).Step(a, pastCorner)
	off := outwards(ring, from, to).Step(out, pastCorner)
	if frameAt(frames, off) >= 0 {
		return false // another frame stands at the corner
	}
	c.add(a)
	if n := len(c.turnedBy); n == 0 || c.turnedBy[n-1] != f.name {
		c.turnedBy = append(c.turnedBy, f.name)
	}
	if !planar.PolygonContains(j.plot.Boundary, off) {
		c.End = drainage.LeavesPlot
		return false
	}
	c.add(off)
	return true
}

// heightAt is the fitted height of the ground.
func (j judge) heightAt(q orb.Point) float64 {
	z, _ := j.fit.HeightAt(q)
	return z
}

// sideAt is the side of a ring nearest to a point, by the indices of its ends.
func sideAt(ring orb.Ring, q orb.Point) (from, to int) {
	nearest := math.Inf(1)
	for i := 1; i < len(ring); i++ {
		if d := planar.DistanceFrom(orb.LineString{ring[i-1], ring[i]}, q); d < nearest {
			nearest, from, to = d, i-1, i
		}
	}
	return from, to
}

// outwards is the bearing square to a side of a ring, away from its inside.
func outwards(ring orb.Ring, from, to int) terrain.Bearing {
	a, b := ring[from], ring[to]
	e, n := b[1]-a[1], -(b[0] - a[0])
	if ring.Orientation() == orb.CW {
		e, n = -e, -n
	}
	return terrain.BearingOf(e, n)
}

// frameAt is the frame over a point, or -1.
func frameAt(frames []turningFrame, q orb.Point) int {
	for i, f := range frames {
		if f.holds(q) {
			return i
		}
	}
	return -1
}

func (c *course) last() orb.Point { return c.Points[len(c.Points)-1] }

func (c *course) add(q orb.Point) {
	c.Length += planar.Distance(c.last(), q)
	c.Points = append(c.Points, q)
}

// join carries the course on by a path that starts where it ends.
func (c *course) join(leg drainage.Path) {
	c.Points = append(c.Points, leg.Points[1:]...)
	c.Length += leg.Length
	c.End = leg.End
}
