package heightgrid

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// filledShare is the share of a grid's cells that a list must fill to be taken
// as a grid. Default of ours.
const filledShare = 0.6

// mostDistinct is how many coordinates along one axis a grid may have. A list
// with more is taken as scattered, so that a cloud of many points costs no more
// memory. Default of ours: 100 km of 1 m cells.
const mostDistinct = 100_000

// axis gathers the coordinates that occur along one axis.
type axis struct {
	low, high float64
	seen      map[float64]struct{}
	last      float64
	many      bool // more than a grid has
}

func (a *axis) add(v float64) {
	if a.seen == nil && !a.many {
		a.seen, a.low, a.high = map[float64]struct{}{}, v, v
	} else if v == a.last {
		return
	}
	a.last = v
	a.low, a.high = min(a.low, v), max(a.high, v)
	if a.many {
		return
	}
	a.seen[v] = struct{}{}
	if len(a.seen) > mostDistinct {
		a.seen, a.many = nil, true
	}
}

// steps finds the even step between the coordinates and how many places it
// gives; ok is false when they do not lie on even steps.
//
// Differences under a thousandth of the mean one are noise of rounding. The
// step is the mean of the differences that are not much over the smallest, for
// coordinates printed with few decimals step unevenly (0.333, 0.334).
func (a *axis) steps() (step float64, n int, ok bool) {
	v := make([]float64, 0, len(a.seen))
	for x := range a.seen {
		v = append(v, x)
	}
	slices.Sort(v)
	if len(v) < 2 {
		return 0, 0, false
	}
	noise := (a.high - a.low) / float64(len(v)-1) * 1e-3
	var gaps []float64
	for i := range len(v) - 1 {
		if d := v[i+1] - v[i]; d > noise {
			gaps = append(gaps, d)
		}
	}
	if len(gaps) == 0 {
		return 0, 0, false
	}
	smallest, sum, count := slices.Min(gaps), 0.0, 0
	for _, d := range gaps {
		if d < 1.5*smallest {
			sum += d
			count++
		}
	}
	places := math.Round((a.high - a.low) / (sum / float64(count)))
	if !(places >= 1 && places < mostWidth) {
		return 0, 0, false
	}
	step = (a.high - a.low) / places
	for _, x := range v {
		const aside = 0.1 // of a step, that a coordinate may lie off its place
		if at := (x - a.low) / step; math.Abs(at-math.Round(at)) > aside {
			return 0, 0, false
		}
	}
	return step, int(places) + 1, true
}

// latticeOf finds the grid that a list of so many points fills well enough.
func latticeOf(e, n *axis, count int64) (lattice, bool) {
	dx, cols, okX := e.steps()
	dy, rows, okY := n.steps()
	l := lattice{origin: orb.Point{e.low, n.low}, dx: dx, dy: dy, cols: cols, rows: rows}
	if !okX || !okY || !l.ok() {
		return lattice{}, false
	}
	return l, float64(count) >= filledShare*float64(cols)*float64(rows)
}
