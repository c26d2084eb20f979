package surface

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Limits of planning, defaults of ours.
const (
	defaultReadings = 3
	mostNext        = 5
	// leastGap is the least distance of a new height from an old one, m;
	// nearer, it repeats the old one's ground.
	leastGap = 0.3
	// mostCandidates is the number of lattice places over which the lattice is
	// widened.
	mostCandidates = 600
	// settledUnder is the probability under which, or over 1 less which, a
	// decision counts as settled.
	settledUnder = 0.05
	// leastDrop is the drop in the chances of deciding wrongly, summed over the
	// decisions, under which a reading is not worth the walk; leastShare is the
	// same as a share of the variance of heights.
	leastDrop  = 0.005
	leastShare = 0.01
	// worthNaming is the share of a question's doubt that a reading must take
	// away to be said to help settle it, or to be taken for the error of a fall.
	worthNaming = 0.1
	// leastNarrowing is the share of a figure's variance that a reading must
	// take away to count for its decision at all: its chances then move by under
	// a thousandth.
	leastNarrowing = 1e-5
	// shortlist is how many places are looked at closely.
	shortlist = 3
)

// Criterion says by what a reading was chosen.
type Criterion string

// The criteria.
const (
	ByDecision Criterion = "chance of deciding wrongly" // expected chance after the reading, least
	ByFall     Criterion = "error of the fall"          // variance of the fall or gradient, least
	ByHeight   Criterion = "error of the heights"       // mean variance over the points, least
)

// Reading is a height worth taking.
type Reading struct {
	At orb.Point
	// Repeats is true where the place is that of a height already taken.
	Repeats bool
	// Rank is 1 for the reading that tells most, 2 for the next given the first.
	Rank int
	By   Criterion
	// Settles says what the reading helps to settle, most helped first.
	Settles []string
	// Before and After are the doubt about the first of Settles without this
	// reading and as expected with it, the readings of lower rank being made:
	// the chance, 0 to 0.5 for each limit, of deciding wrongly by it, the standard
	// error of its fall (of both parts of its gradient together), ratio, or the
	// root mean square error of the heights, m.
	Before, After float64
}

// NextOptions say how to plan. The zero value works.
type NextOptions struct {
	Count int                  // readings wanted; default 3, at most 5
	Keep  func(orb.Point) bool // where a staff can stand; default everywhere inside
	Start *orb.Point           // where the walk begins; default wherever it is shortest
}

// Next plans the heights to take next: places on a square lattice of half the
// heights' median spacing, inside a plot and 0.3 m or more from any height, or
// a height taken once more. Each is taken for the most that is expected of it,
// given those before it, in a reading of the survey's usual precision; what it
// will read need not be known, since the covariance does not depend on it.
//
// Decisions come first: the place with the least expected chance of deciding
// wrongly, min(p, 1 - p) summed over the limits, p the probability of a fall
// over each (stepwise uncertainty reduction; Bect and others 2012, Statistics
// and Computing 22, 773-793, from memory). Limits whose p is under 5 % or over
// 95 % count as settled. Where no single reading would change a decision that
// is open, several may: then the place that takes the greatest share, 10 % or
// more, from the variance of the falls it hangs on. Where no decision is open or
// none can be helped, the place that takes the greatest share from the variance
// of the heights asked (Sacks and others 1989, Statistical Science 4, 409-423,
// from memory).
//
// The readings come in the order of a shortest walk; fewer than asked for, or
// none, where no more is worth taking. Errors of the ground are taken for normal
// and hyperparameters held fixed. Errors: a question that cannot be asked,
// an empty plot, a fit not made by this package.
func Next(fit *Fit, questions []Question, inside orb.Polygon, opt NextOptions) ([]Reading, error) {
	if fit == nil {
		return nil, fmt.Errorf("next heights: %w", errUnknownSurface)
	}
	a, err := askerOf(fit.Surface)
	if err != nil {
		return nil, fmt.Errorf("next heights: %w", err)
	}
	if len(inside) == 0 || len(inside[0]) < 4 || slices.ContainsFunc(inside[0], func(p orb.Point) bool { return !finite(p) }) {
		return nil, errors.New("next heights: the plot has no outline")
	}
	for _, q := range questions {
		if err := q.check(); err != nil {
			return nil, fmt.Errorf("next heights: %w", err)
		}
	}
	p := newPlan(a, questions, candidates(a.heights(), inside, opt.Keep))
	count := opt.Count
	if count <= 0 {
		count = defaultReadings
	}
	var out []Reading
	for range min(count, mostNext) {
		r, ok := p.next()
		if !ok {
			break
		}
		r.Rank = len(out) + 1
		out = append(out, r)
	}
	return shortestWalk(out, opt.Start), nil
}

// candidate is a place where a height could be taken.
type candidate struct {
	at      orb.Point
	repeats bool
}

// candidates lists the places from west to east, then south to north.
func candidates(heights []orb.Point, inside orb.Polygon, keep func(orb.Point) bool) []candidate {
	allowed := func(p orb.Point) bool {
		return planar.PolygonContains(inside, p) && (keep == nil || keep(p))
	}
	var out []candidate
	for _, p := range distinct(heights) {
		if allowed(p) {
			out = append(out, candidate{p, true})
		}
	}
	b := inside.Bound()
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	cell := math.Max(medianSpacing(heights)/2, math.Sqrt(w*h/mostCandidates))
	cell = math.Max(cell, math.Max(w, h)/mostCandidates)
	for x := b.Min[0] + cell/2; x < b.Max[0]; x += cell {
		for y := b.Min[1] + cell/2; y < b.Max[1]; y += cell {
			p := orb.Point{x, y}
			near := slices.ContainsFunc(heights, func(q orb.Point) bool { return planar.Distance(p, q) < leastGap })
			if !near && allowed(p) {
				out = append(out, candidate{at: p})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b candidate) int { return westToEast(a.at, b.at) })
	return out
}

// shortestWalk orders readings by the shortest way past all of them, by trying
// every order: they are at most five. Ties go to the order of ranks.
func shortestWalk(readings []Reading, start *orb.Point) []Reading {
	var best []Reading
	shortest := math.Inf(1)
	var visit func(done, left []Reading, length float64)
	visit = func(done, left []Reading, length float64) {
		if len(left) == 0 && length < shortest-1e-9 {
			shortest, best = length, slices.Clone(done)
		}
		for i, r := range left {
			step := 0.0
			switch {
			case len(done) > 0:
				step = planar.Distance(done[len(done)-1].At, r.At)
			case start != nil:
				step = planar.Distance(*start, r.At)
			}
			visit(append(slices.Clone(done), r), slices.Delete(slices.Clone(left), i, i+1), length+step)
		}
	}
	visit(nil, readings, 0)
	return best
}
