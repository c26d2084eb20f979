package drainage

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Spacing is the distance between the points of an outline from which paths
// are followed, metres. Default of ours.
const Spacing = .2

// piece is a short part of a bed's outline.
type piece struct {
	from, to orb.Point
	outward  vector
	clear    bool    // the ground at its middle has a direction
	width    float64 // across the fall, metres; over 0 where the ground outside is higher
}

func (s piece) middle() orb.Point { return between(s.from, s.to, .5) }

func (s piece) length() float64 { return math.Hypot(s.to[0]-s.from[0], s.to[1]-s.from[1]) }

// upslope reports whether water runs in over this part of the outline. A side
// that lies straight down the slope has no width but for rounding.
func (s piece) upslope() bool { return s.clear && s.width > onEdge }

// pieces cuts an outline into parts of at most Spacing, in the order of the
// ring, and looks at the ground at their middles.
func pieces(f Field, ring orb.Ring, opt Options) []piece {
	turn := 1. // to the right of an outline that runs against the clock is outside
	if ring.Orientation() == orb.CW {
		turn = -1
	}
	var out []piece
	for i := range len(ring) - 1 {
		a, b := ring[i], ring[i+1]
		length := math.Hypot(b[0]-a[0], b[1]-a[1])
		if !(length > 0) || math.IsInf(length, 0) {
			continue
		}
		outward := vector{turn * (b[1] - a[1]) / length, turn * (a[0] - b[0]) / length}
		n := math.Ceil(length/Spacing - onEdge)
		for k := 0.; k < n; k++ {
			s := piece{from: between(a, b, k/n), to: between(a, b, (k+1)/n), outward: outward}
			v, fall, ok := steepest(f, s.middle(), +1)
			s.clear = ok && fall >= opt.least(s.middle())
			s.width = s.length() * v.dot(outward)
			out = append(out, s)
		}
	}
	return out
}

// kept is the options for paths up from a bed: in the plot, and ending where
// they come back to the bed or enter what the caller named.
func kept(bed orb.Polygon, plot orb.Polygon, opt Options) Options {
	own, others := area{bed}, opt.Enters
	opt.Plot = plot
	opt.Enters = func(p orb.Point) bool {
		// Paths start on the bed's own edge; only its inside ends them.
		return own.within(p) || (others != nil && others(p))
	}
	return opt.resolved()
}

// usable reports whether a bed and a plot have an inside.
func usable(bed orb.Ring, plot orb.Polygon) bool {
	size := math.Abs(planar.Area(bed))
	return len(bed) >= 4 && !(area{plot}).unbounded() && size > 0 && !math.IsInf(size, 0)
}

// lost reports whether a path ended before it was known where the water on it
// comes from.
func (p Path) lost() bool {
	return p.End == DirectionUnclear || p.End == GroundUnknown || p.End == TooLong
}
