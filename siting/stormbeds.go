package siting

import (
	"math"

	"crossfall/terrain/stormflow"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// addBeds puts the beds that are to be built on the ground: framed ones bay by
// bay with their boards, the others as ground covered with compost.
func (s *stormPlay) addBeds(spec *stormflow.Spec) {
	spec.Materials = make([]uint8, len(spec.Ground))
	for _, b := range s.assessed.Beds {
		if b.Build == nil {
			continue
		}
		if b.Build.BoardDownhill <= 0 {
			s.heap(spec, b)
			continue
		}
		s.frame(spec, b)
	}
}

// heap lays compost without boards: it takes up more, and stops nothing.
func (s *stormPlay) heap(spec *stormflow.Spec, b Bed) {
	ring := orb.Ring{}
	for i := range 5 {
		c := b.Corners[i%4]
		ring = append(ring, orb.Point{c[0], c[1]})
	}
	for i := range spec.Ground {
		p := orb.Point{
			spec.Origin[0] + (float64(i%spec.Cols)+0.5)*spec.Cell, spec.Origin[1] + (float64(i/spec.Cols)+0.5)*spec.Cell,
		}
		if planar.RingContains(ring, p) {
			spec.Materials[i] = compostMaterial
		}
	}
}

// frame puts one framed bed on the ground, bay by bay. A board is its bought
// height less what is sunk, over the ground at its ends.
func (s *stormPlay) frame(spec *stormflow.Spec, b Bed) {
	u := b.Build
	sunken := 0.0
	if b.SunkenDepth != nil {
		sunken = b.SunkenDepth.Value / 1000
	}
	up, down := max(1, u.BaysAcross), max(1, u.BaysAlong)
	for i := range up {
		for k := range down {
			low, high := float64(i)/float64(up), float64(i+1)/float64(up)
			left, right := float64(k)/float64(down), float64(k+1)/float64(down)
			// clockwise from the uphill left, as the bed's own corners
			corners := [4]orb.Point{b.at(left, high), b.at(right, high), b.at(right, low), b.at(left, low)}
			var ground [4]float64
			highest := math.Inf(-1)
			for c, p := range corners {
				ground[c], _ = s.fit.HeightAt(p)
				highest = math.Max(highest, ground[c])
			}
			level := highest + u.Fill/1000 // of the uphill side
			fall := u.TopAcross / 100 * b.Width / float64(up)
			uphill := u.BoardUphill/1000 - sunken
			if i < up-1 { // the downhill board of the bay above stands there
				uphill = u.BoardDownhill/1000 - sunken
			}
			downhill := u.BoardDownhill/1000 - sunken
			crests := [4]float64{
				math.Max(level, ground[0]+uphill), math.Max(level, ground[1]+uphill),
				math.Max(level-fall, ground[2]+downhill), math.Max(level-fall, ground[3]+downhill),
			}
			spec.Beds = append(spec.Beds, stormflow.Bed{
				Name: b.Name, Corners: corners, Crests: crests, Material: compostMaterial,
				Level: func(p orb.Point) float64 { return level - fall*share(p, corners) },
			})
			for n, side := range [4]string{"uphill", "right", "downhill", "left"} {
				outer := [4]bool{i == up-1, k == down-1, i == 0, k == 0}[n]
				s.sides = append(s.sides, boardSide{bed: b.Name, side: side, sunken: sunken, outer: outer})
			}
		}
	}
}

// at is a place of a bed by shares from its left end and from its downhill side.
func (b Bed) at(right, up float64) orb.Point {
	mix := func(k int) float64 {
		low := b.Corners[3][k] + right*(b.Corners[2][k]-b.Corners[3][k])
		high := b.Corners[0][k] + right*(b.Corners[1][k]-b.Corners[0][k])
		return low + up*(high-low)
	}
	return orb.Point{mix(0), mix(1)}
}

// share is how far a place lies from the uphill side of a rectangle towards the
// downhill one, 0 to 1.
func share(p orb.Point, c [4]orb.Point) float64 {
	dx, dy := c[3][0]-c[0][0], c[3][1]-c[0][1]
	d := dx*dx + dy*dy
	if d == 0 {
		return 0
	}
	return math.Max(0, math.Min(1, ((p[0]-c[0][0])*dx+(p[1]-c[0][1])*dy)/d))
}
