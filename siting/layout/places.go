package layout

import (
	"context"
	"math"

	"crossfall/siting/bed"
	"crossfall/siting/near"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// hair is the length, m, that rounding may take off a distance.
const hair = 1e-9

// pinch is how far an outline is drawn in, m, to tell overlap from touching.
const pinch = 0.001

// place is a bed that may stand.
type place struct {
	bed   bed.Bed
	shape near.Shape
	cost  float64 // rounded, so that equal costs compare equal
	gate  float64 // m from the middle to the nearest gate; 0 without one
}

// places tries every middle of a lattice. refused counts, for each reason, the
// places that it stops; one place may be stopped by several.
func (s *search) places(ctx context.Context, l lattice) (out []place, refused []int, tried int, err error) {
	refused = make([]int, len(s.reasons))
	for i, p := range s.middles(l) {
		if i%256 == 0 && ctx.Err() != nil {
			return nil, nil, 0, ctx.Err()
		}
		tried++
		if c, ok := s.try(p, l, refused); ok {
			out = append(out, c)
		}
	}
	return out, refused, tried, nil
}

// try puts a bed at one middle.
func (s *search) try(p orb.Point, l lattice, refused []int) (place, bool) {
	b, turned, ok := s.bedAt(p, l)
	if !ok {
		refused[bySurvey]++
		return place{}, false
	}
	c := place{bed: b, shape: near.Of(b.Footprint())}
	stopped := s.stops(c, refused)
	if turned {
		refused[byTurn]++
		stopped = true
	}
	if stopped {
		return place{}, false
	}
	if s.score != nil {
		cost, ok := s.score(b)
		if !ok || math.IsNaN(cost) {
			refused[byScore]++
			return place{}, false
		}
		c.cost = math.Round(cost*1e9) / 1e9
	}
	if s.gates.Measurable() {
		c.gate, _ = near.Of(p).Distance(s.gates)
	}
	return c, true
}

// bedAt is the bed at a middle: on the lattice's bearing, or on the contour of
// the mean gradient under it. turned is true when a bed in line would lie too
// far off that contour. ok is false where there is no gradient.
func (s *search) bedAt(p orb.Point, l lattice) (b bed.Bed, turned, ok bool) {
	bearing := l.bearing
	if g, ok := s.slopes.GradientAt(p); ok && !l.inLine {
		bearing = s.contour(g)
	}
	b = bed.New("", p, bearing, s.wish.Length, s.wish.Width)
	g, ok := s.meanGradient(b)
	if !ok {
		return bed.Bed{}, false, false
	}
	if !l.inLine {
		b = bed.New("", p, s.contour(g), s.wish.Length, s.wish.Width)
	}
	return b, l.inLine && b.OffContour(g) > s.opt.MaxTurn, true
}

// meanGradient is the mean over nine points of the footprint that lie in the
// plot's bound.
func (s *search) meanGradient(b bed.Bed) (terrain.Gradient, bool) {
	a := b.Axes(terrain.Gradient{})
	var sum terrain.Gradient
	n := 0.0
	for i := -1.0; i <= 1; i++ {
		for j := -1.0; j <= 1; j++ {
			if g, ok := s.slopes.GradientAt(b.Place(a, i*b.Length/3, j*b.Width/3)); ok {
				sum.East += g.East
				sum.North += g.North
				n++
			}
		}
	}
	if n == 0 {
		return terrain.Gradient{}, false
	}
	return terrain.Gradient{East: sum.East / n, North: sum.North / n}, true
}

// contour is the bearing of the contour; on ground without fall, of the
// boundary's longest side.
func (s *search) contour(g terrain.Gradient) terrain.Bearing {
	if g.Fall() > 0 {
		return (g.Downhill() + math.Pi/2).Normal()
	}
	longest, bearing := 0.0, terrain.Bearing(0)
	ring := s.boundary[0]
	for i := 1; i < len(ring); i++ {
		e, n := ring[i][0]-ring[i-1][0], ring[i][1]-ring[i-1][1]
		if d := math.Hypot(e, n); d > longest+hair {
			longest, bearing = d, terrain.BearingOf(e, n)
		}
	}
	return bearing
}

// stops tells whether anything but other beds stops a place, and counts each
// thing that does.
func (s *search) stops(c place, refused []int) bool {
	stopped := false
	if s.tooNear(c, s.edge, s.opt.Margin) {
		refused[byBoundary]++
		stopped = true
	}
	if s.unsurveyed(c.bed) {
		refused[bySurvey]++
		stopped = true
	}
	last := -1 // several barriers of one reason count once for a place
	for _, k := range s.barriers {
		if k.reason != last && s.tooNear(c, k.shape, k.clear) {
			refused[k.reason]++
			stopped, last = true, k.reason
		}
	}
	return stopped
}

// tooNear is true when a place comes nearer to a shape than clear, or, where
// clear is 0, overlaps it.
func (s *search) tooNear(c place, o near.Shape, clear float64) bool {
	if clear > hair {
		return c.shape.Closer(o, clear-hair)
	}
	if near.BoundGap(c.shape.Bound, o.Bound) > 0 {
		return false
	}
	b := c.bed
	b.Length, b.Width = math.Max(b.Length-2*pinch, pinch), math.Max(b.Width-2*pinch, pinch)
	return near.Of(b.Footprint()).Closer(o, hair)
}

func (s *search) unsurveyed(b bed.Bed) bool {
	if s.ground.Extrapolated(b.Centre) {
		return true
	}
	for _, p := range b.Corners(b.Axes(terrain.Gradient{})) {
		if s.ground.Extrapolated(p) {
			return true
		}
	}
	return false
}
