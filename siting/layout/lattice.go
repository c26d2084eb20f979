package layout

import (
	"math"

	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// lattice is the set of middles to try.
type lattice struct {
	bearing terrain.Bearing // of its u axis
	// du and dv are its spacings; hu and hv the least distance of a middle
	// from the boundary's extremes.
	du, dv, hu, hv float64
	// inLine places every bed on bearing; else each lies on its own contour.
	inLine bool
}

// ownLattice is square and lies along the axes.
func (s *search) ownLattice() lattice {
	h := s.wish.Width/2 + s.opt.Margin
	return lattice{bearing: math.Pi / 2, du: s.opt.Step, dv: s.opt.Step, hu: h, hv: h}
}

// rowLattice lies along a bearing, its spacings fitted so that a whole number
// of them makes one bed and its path: then rows pack without waste.
func (s *search) rowLattice(along terrain.Bearing) lattice {
	fitted := func(pitch float64) float64 { return pitch / math.Ceil(pitch/s.opt.Step) }
	return lattice{
		bearing: along, inLine: true,
		du: fitted(s.wish.Length + s.wish.Path), dv: fitted(s.wish.Width + s.wish.Path),
		hu: s.wish.Length/2 + s.opt.Margin, hv: s.wish.Width/2 + s.opt.Margin,
	}
}

// middles are the lattice's points inside the boundary, row by row.
func (s *search) middles(l lattice) []orb.Point {
	e, n := l.bearing.Unit()
	lowU, highU, lowV, highV := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range s.boundary[0] {
		u, v := p[0]*e+p[1]*n, -p[0]*n+p[1]*e
		lowU, highU = math.Min(lowU, u), math.Max(highU, u)
		lowV, highV = math.Min(lowV, v), math.Max(highV, v)
	}
	var out []orb.Point
	for j := 0; lowV+l.hv+float64(j)*l.dv <= highV-l.hv+hair; j++ {
		v := lowV + l.hv + float64(j)*l.dv
		for i := 0; lowU+l.hu+float64(i)*l.du <= highU-l.hu+hair; i++ {
			u := lowU + l.hu + float64(i)*l.du
			if p := (orb.Point{u*e - v*n, u*n + v*e}); s.inside.Covers(p) {
				out = append(out, p)
			}
		}
	}
	return out
}
