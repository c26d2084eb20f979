package layout

import (
	"math"
	"slices"

	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// How directions are chosen, defaults of ours: turns of the mean contour, the
// contours of parts of the plot, and the sides of the boundary.
const (
	turnStep    = 5 * math.Pi / 180
	turns       = 4                  // either way
	localStep   = 10 * math.Pi / 180 // between the contours of parts
	localShare  = 0.04               // of the plot, that such a part takes
	leastTurn   = 2 * math.Pi / 180  // between directions that are both tried
	leastFall   = 0.005              // under which a contour says nothing
	fewest      = 6                  // directions, however many places they make
	samplesWide = 24                 // places along a side at which the ground is asked
)

// sample is the gradient at a place inside the boundary.
type sample struct {
	at orb.Point
	g  terrain.Gradient
}

func (s *surveyor) samples() []sample {
	var out []sample
	bound := s.plot.Boundary.Bound()
	for i := range samplesWide {
		for k := range samplesWide {
			p := orb.Point{
				bound.Min[0] + (float64(i)+0.5)/samplesWide*(bound.Max[0]-bound.Min[0]),
				bound.Min[1] + (float64(k)+0.5)/samplesWide*(bound.Max[1]-bound.Min[1]),
			}
			if !s.inside.Covers(p) {
				continue
			}
			if g, ok := s.ground.GradientAt(p); ok {
				out = append(out, sample{p, g})
			}
		}
	}
	return out
}

func meanOf(samples []sample) terrain.Gradient {
	var sum terrain.Gradient
	for _, p := range samples {
		sum.East, sum.North = sum.East+p.g.East, sum.North+p.g.North
	}
	n := math.Max(1, float64(len(samples)))
	return terrain.Gradient{East: sum.East / n, North: sum.North / n}
}

// bearings are the directions to try, the likeliest first.
func (s *surveyor) bearings(samples []sample) []terrain.Bearing {
	var out []terrain.Bearing
	add := func(b float64) {
		b = math.Mod(math.Mod(b, math.Pi)+math.Pi, math.Pi)
		for _, o := range out {
			if d := math.Abs(b - float64(o)); math.Min(d, math.Pi-d) < leastTurn {
				return
			}
		}
		if len(out) < s.opt.Directions {
			out = append(out, terrain.Bearing(b))
		}
	}
	sides := s.sides()
	mean := sides[0]
	if g := meanOf(samples); g.Fall() > 1e-9 {
		mean = float64(g.Downhill()) + math.Pi/2
	}
	add(mean)
	for _, b := range sides {
		add(b)
	}
	for i := 1; i <= turns; i++ {
		add(mean + float64(i)*turnStep)
		add(mean - float64(i)*turnStep)
	}
	for _, b := range localContours(samples, mean) {
		add(b)
	}
	if most := int(MaxPlaces / s.placesAt()); len(out) > max(fewest, most) {
		out = out[:max(fewest, most)]
	}
	for float64(len(out))*s.placesAt() > MaxPlaces {
		s.opt.Step *= 1.1
	}
	return out
}

// placesAt is about how many places one direction makes.
func (s *surveyor) placesAt() float64 {
	l := s.latticeOf(0)
	return math.Abs(ringArea(openRing(s.plot.Boundary[0]))) / 2 / (l.du * l.dv)
}

// sides are the bearings of the boundary's sides that are longer than a bed, the
// longest first; the longest however long.
func (s *surveyor) sides() []float64 {
	type side struct{ length, bearing float64 }
	var all []side
	ring := openRing(s.plot.Boundary[0])
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		e, n := q[0]-p[0], q[1]-p[1]
		all = append(all, side{math.Hypot(e, n), float64(terrain.BearingOf(e, n))})
	}
	slices.SortStableFunc(all, func(a, b side) int {
		switch {
		case a.length > b.length+hair:
			return -1
		case b.length > a.length+hair:
			return 1
		}
		return 0
	})
	var out []float64
	for i, a := range all {
		if i == 0 || a.length > s.wish.Length && i < fewest {
			out = append(out, a.bearing)
		}
	}
	return out
}

// localContours are the contours of parts of the plot, by their turn from the
// mean contour.
func localContours(samples []sample, mean float64) []float64 {
	bins := int(math.Round(math.Pi / localStep))
	count := make([]int, bins)
	for _, p := range samples {
		if p.g.Fall() < leastFall {
			continue
		}
		turn := math.Mod(float64(p.g.Downhill())+math.Pi/2-mean+2*math.Pi, math.Pi)
		count[int(math.Round(turn/localStep))%bins]++
	}
	var out []float64
	for i, n := range count {
		if float64(n) >= localShare*float64(len(samples)) {
			out = append(out, mean+float64(i)*localStep)
		}
	}
	return out
}
