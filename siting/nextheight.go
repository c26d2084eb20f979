package siting

import (
	"fmt"
	"math"
	"strconv"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// settling is a reading worth taking and what it would do.
type settling struct {
	at     orb.Point
	before float64 // standard error of the fall, ratio
	after  float64
}

// narrowing says how much a reading takes from the band of the fall, to as many
// decimals as tell the two apart, three at most.
func (s settling) narrowing(quantile float64) string {
	t := func(v float64, decimals int) string { return strconv.FormatFloat(100*quantile*v, 'f', decimals, 64) }
	n := 1
	for n < 3 && t(s.before, n) == t(s.after, n) {
		n++
	}
	return fmt.Sprintf("from ±%s to ±%s points of percent", t(s.before, n), t(s.after, n))
}

// probe is a difference of heights, (to - from)/over, that a decision hangs on.
type probe struct {
	from, to orb.Point
	over     float64
}

// probes are the mean gradients across and along a bed.
func probes(b bed.Bed, a bed.Axes) []probe {
	return []probe{
		{b.Place(a, 0, -b.Width/2), b.Place(a, 0, b.Width/2), b.Width},
		{b.Place(a, -b.Length/2, 0), b.Place(a, b.Length/2, 0), b.Length},
	}
}

// plotProbes are the gradients east and north across the middle of the plot.
func plotProbes(p *geodata.Plot) []probe {
	c := p.Boundary.Bound().Center()
	const r = 1.0
	return []probe{
		{orb.Point{c[0] - r, c[1]}, orb.Point{c[0] + r, c[1]}, 2 * r},
		{orb.Point{c[0], c[1] - r}, orb.Point{c[0], c[1] + r}, 2 * r},
	}
}

// bestReading is the candidate whose height would take most from the variance
// of the probes: for one more reading with noise variance s2 at x, a variance v
// becomes v - d*d/(c(x,x) + s2), d the covariance of the probe with the height
// at x (rank-one update of a Gaussian; McBratney, Webster and Burgess 1981 plan
// surveys by it, from memory). No value of the reading is needed.
func bestReading(s surface.Surface, ps []probe, candidates []orb.Point, noise float64) (settling, bool) {
	before := 0.0
	for _, p := range ps {
		_, se := surface.Drop(s, p.to, p.from)
		before += se * se / (p.over * p.over)
	}
	best, found := settling{before: math.Sqrt(before)}, false
	most := 0.0
	for _, x := range candidates {
		gain := 0.0
		room := s.HeightCovariance(x, x) + noise*noise
		for _, p := range ps {
			d := (s.HeightCovariance(p.to, x) - s.HeightCovariance(p.from, x)) / p.over
			gain += d * d / room
		}
		if gain > most*(1+1e-9) {
			most, found = gain, true
			best.at, best.after = x, math.Sqrt(math.Max(0, before-gain))
		}
	}
	return best, found
}

// readingSites are places where a staff can stand for a bed: its corners, the
// middles of its sides, its middle, and the same a bed's width further out.
func readingSites(p *geodata.Plot, b bed.Bed, a bed.Axes) []orb.Point {
	var out []orb.Point
	for _, stretch := range []float64{1, 2} {
		for _, r := range []float64{-1, 0, 1} {
			for _, u := range []float64{1, 0, -1} {
				q := b.Place(a, r*stretch*b.Length/2, u*stretch*b.Width)
				if planar.PolygonContains(p.Boundary, q) {
					out = append(out, q)
				}
			}
		}
	}
	return out
}

// edgeSites are the boundary's corners and the middles of its sides.
func edgeSites(p *geodata.Plot) []orb.Point {
	var out []orb.Point
	ring := p.Boundary[0]
	for i := 1; i < len(ring); i++ {
		out = append(out, ring[i-1], orb.Point{(ring[i-1][0] + ring[i][0]) / 2, (ring[i-1][1] + ring[i][1]) / 2})
	}
	return out
}

// nextHeight names the one reading that would do most for what is open: first
// the beds whose class of edge is not firm, gravest spread first, else the
// fall of the plot when that cannot be told.
func nextHeight(p *geodata.Plot, fit *surface.Fit, beds []decision, groundOpen bool) (string, *orb.Point) {
	widest := -1
	for i, d := range beds {
		if d.firm || d.refused != "" {
			continue
		}
		if widest < 0 || d.spread() > beds[widest].spread() {
			widest = i
		}
	}
	if widest >= 0 {
		d := beds[widest]
		r, ok := bestReading(fit, probes(d.bed, d.ground.Axes), readingSites(p, d.bed, d.ground.Axes), fit.Sigma)
		if ok {
			towards := "telling which way it falls"
			if d.spread() > 0 {
				towards = fmt.Sprintf("settling whether it is %s or %s", d.mildest(), d.gravest())
			}
			return fmt.Sprintf("A height at %s would narrow the fall under %s %s, towards %s.",
				placeSaid(r.at), d.bed.Name, r.narrowing(fit.Quantile), towards), &r.at
		}
	}
	if groundOpen {
		if r, ok := bestReading(fit, plotProbes(p), edgeSites(p), fit.Sigma); ok {
			return fmt.Sprintf("A height at %s would narrow the fall of the plot %s.", placeSaid(r.at), r.narrowing(fit.Quantile)), &r.at
		}
	}
	return "", nil
}
