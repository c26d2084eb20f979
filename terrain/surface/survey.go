package surface

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"crossfall/geodata"
)

// leastSigma is the smallest standard deviation taken for a height, metres:
// heights are booked to a millimetre, and ground is no better. A default of ours.
const leastSigma = 0.001

// lineLimit is the ratio of the heights' spread along to that across their main
// direction over which they count as one line: taped positions are no better
// than about a thousandth of their length. A default of ours.
const lineLimit = 1000

// survey is the heights made ready for fitting: positions from their mean, so
// that large coordinates cost no digits, and heights from theirs.
type survey struct {
	names  []string
	at     []orb.Point // metres from origin
	z      []float64   // metres above base
	sigma  []float64   // metres, at least leastSigma
	origin orb.Point
	base   float64
	scale  float64 // root mean square distance from origin, metres
	tau    float64 // median of sigma
	// stated is true when a precision came with the heights or the options.
	stated bool
	extent extent
}

// newSurvey checks and centres the heights.
func newSurvey(spots []geodata.SpotHeight, opt Options) (*survey, error) {
	n := len(spots)
	if n < 3 {
		return nil, fmt.Errorf("%w: %d given, a plane needs 3", ErrTooFewHeights, n)
	}
	sigma := opt.Sigma
	if math.IsNaN(sigma-sigma) || sigma < 0 {
		return nil, fmt.Errorf("precision of readings %v m is not a positive length", sigma)
	}
	s := &survey{stated: sigma > 0}
	if sigma == 0 {
		sigma = DefaultSigma
	}
	for i, h := range spots {
		if err := checkSpot(i, h); err != nil {
			return nil, err
		}
		own := sigma
		if h.Sigma > 0 {
			own, s.stated = h.Sigma, true
		}
		s.names = append(s.names, h.Name)
		s.at = append(s.at, h.At)
		s.z = append(s.z, h.Height)
		s.sigma = append(s.sigma, math.Max(own, leastSigma))
	}
	s.tau = median(s.sigma)
	s.centre()
	if !(s.elongation() < lineLimit) {
		return nil, ErrHeightsInLine
	}
	s.extent = newExtent(s.at)
	return s, nil
}

// checkSpot refuses what cannot be a height.
func checkSpot(i int, h geodata.SpotHeight) error {
	who := called(h.Name, i)
	switch {
	case !finite(h.At):
		return fmt.Errorf("%s: position %v is not finite", who, h.At)
	case math.IsNaN(h.Height - h.Height):
		return fmt.Errorf("%s: height %v is not finite", who, h.Height)
	case math.IsNaN(h.Sigma-h.Sigma) || h.Sigma < 0:
		return fmt.Errorf("%s: precision %v m is not a positive length", who, h.Sigma)
	}
	return nil
}

// called is how a height is spoken of.
func called(name string, index int) string {
	if name == "" {
		return fmt.Sprintf("height number %d", index+1)
	}
	return "height " + name
}

// centre takes positions and heights from their means.
func (s *survey) centre() {
	n := float64(len(s.at))
	// Means of differences from the first keep the digits of large coordinates.
	first, z0 := s.at[0], s.z[0]
	var dx, dy, dz float64
	for i, p := range s.at {
		dx += (p[0] - first[0]) / n
		dy += (p[1] - first[1]) / n
		dz += (s.z[i] - z0) / n
	}
	s.origin = orb.Point{first[0] + dx, first[1] + dy}
	s.base = z0 + dz
	sum := 0.0
	for i, p := range s.at {
		s.at[i] = s.local(p)
		s.z[i] -= s.base
		sum += s.at[i][0]*s.at[i][0] + s.at[i][1]*s.at[i][1]
	}
	s.scale = math.Sqrt(sum / n)
}

// local is a point of the plot, metres from the origin.
func (s *survey) local(p orb.Point) orb.Point {
	return orb.Point{p[0] - s.origin[0], p[1] - s.origin[1]}
}

// elongation is the ratio of the spreads of the positions along and across
// their main direction; NaN or infinite where they are one place or one line.
func (s *survey) elongation() float64 {
	var xx, xy, yy float64
	for _, p := range s.at {
		u, v := p[0]/s.scale, p[1]/s.scale
		xx += u * u
		xy += u * v
		yy += v * v
	}
	mean, half := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	return math.Sqrt((mean + half) / math.Max(0, mean-half))
}

// plotPoint is where a height stands on the plot.
func (s *survey) plotPoint(i int) orb.Point {
	return orb.Point{s.at[i][0] + s.origin[0], s.at[i][1] + s.origin[1]}
}

// withoutHeights is the survey without the heights in set, which is in order;
// origin, scale and extent stay.
func (s *survey) withoutHeights(set []int) *survey {
	out := *s
	out.names, out.at, out.z, out.sigma = nil, nil, nil, nil
	for i := range s.at {
		if len(set) > 0 && set[0] == i {
			set = set[1:]
			continue
		}
		out.names = append(out.names, s.names[i])
		out.at = append(out.at, s.at[i])
		out.z = append(out.z, s.z[i])
		out.sigma = append(out.sigma, s.sigma[i])
	}
	return &out
}
