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
	// than the 95 % interval of the smooth surface, and leastApart, m, and
	// leastFallApart, a ratio, the differences under which they agree whatever
	// the interval.
	apartShare     = 0.2
	leastApart     = 0.03
	leastFallApart = 0.02
)

// secondOpinion compares a smooth surface with a thin plate through the same
// heights, where the smooth surface claims to know the ground, and notes it when
// their heights, or their falls, part by more than that claim allows. A plate that would bend more than it
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
	places := 0
	var level, fall parting
	b := orb.MultiPoint(f.at).Bound()
	for i := range secondAcross * secondAcross {
		q := orb.Point{
			f.origin[0] + b.Min[0] + (b.Max[0]-b.Min[0])*(float64(i%secondAcross)+.5)/secondAcross,
			f.origin[1] + b.Min[1] + (b.Max[1]-b.Min[1])*(float64(i/secondAcross)+.5)/secondAcross,
		}
		cov, told := f.fit.GradientTold(q)
		if !told {
			continue
		}
		places++
		z, _ := m.HeightAt(q)
		other, _ := plate.HeightAt(q)
		level.look(q, math.Abs(z-other), math.Max(leastApart, f.fit.Quantile*math.Sqrt(m.HeightCovariance(q, q))))
		g, _ := m.GradientAt(q)
		h, _ := plate.GradientAt(q)
		fall.look(q, math.Hypot(g.East-h.East, g.North-h.North), math.Max(leastFallApart, f.fit.Quantile*widest(cov)))
	}
	const other = "Another way of fitting, a thin plate, differs from this surface by up to "
	enough := int(apartShare * float64(places))
	switch {
	case level.places > enough:
		f.fit.Notes = append(f.fit.Notes, fmt.Sprintf(
			other+"%.0f mm, most at %.1f m east and %.1f m north. Take a height there.", 1000*level.most, level.where[0], level.where[1]))
	case fall.places > enough:
		f.fit.Notes = append(f.fit.Notes, fmt.Sprintf(
			other+"%.1f points of percent in its fall, most at %.1f m east and %.1f m north. Take heights around there.",
			100*fall.most, fall.where[0], fall.where[1]))
	}
}

// parting is where two surfaces part by more than the interval of one allows.
type parting struct {
	places int
	most   float64
	where  orb.Point
}

func (p *parting) look(at orb.Point, off, allowed float64) {
	if off <= allowed {
		return
	}
	p.places++
	if off > p.most {
		p.most, p.where = off, at
	}
}
