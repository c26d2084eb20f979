package surface

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// Limits of the second opinion on a smooth surface, defaults of ours.
const (
	mostForSecond = 120 // heights
	secondAcross  = 12  // places looked at along each side of the heights
	// apartShare is the share of the places where the two must differ by more
	// than the 95 % interval of the smooth surface, and leastApart the
	// difference under which they agree whatever the interval, m.
	apartShare = 0.2
	leastApart = 0.03
)

// secondOpinion compares a smooth surface with a thin plate through the same
// heights, where the smooth surface claims to know the ground, and notes it when
// they part by more than that claim allows. A plate that would bend more than it
// may has no opinion.
func (f *fitting) secondOpinion(m *Smooth) {
	if len(f.at) < enoughForSmooth || len(f.at) > mostForSecond {
		return
	}
	p, err := newPlate(f.survey)
	if err != nil {
		return
	}
	lambda, bound := p.search()
	plate, err := p.at(lambda)
	if err != nil || bound {
		return
	}
	places, apart, most, where := 0, 0, 0.0, orb.Point{}
	b := orb.MultiPoint(f.at).Bound()
	for i := range secondAcross * secondAcross {
		q := orb.Point{
			f.origin[0] + b.Min[0] + (b.Max[0]-b.Min[0])*(float64(i%secondAcross)+.5)/secondAcross,
			f.origin[1] + b.Min[1] + (b.Max[1]-b.Min[1])*(float64(i/secondAcross)+.5)/secondAcross,
		}
		if m.Extrapolated(q) {
			continue
		}
		places++
		z, _ := m.HeightAt(q)
		other, _ := plate.HeightAt(q)
		off := math.Abs(z - other)
		if off > math.Max(leastApart, f.fit.Quantile*math.Sqrt(m.HeightCovariance(q, q))) {
			apart++
			if off > most {
				most, where = off, q
			}
		}
	}
	if float64(apart) > apartShare*float64(places) {
		f.fit.Notes = append(f.fit.Notes, fmt.Sprintf(
			"Another way of fitting, a thin plate, differs from this surface by up to %.0f mm, most at %.1f m east and %.1f m north. Take a height there.",
			1000*most, where[0], where[1]))
	}
}
