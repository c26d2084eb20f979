package frame

import (
	"fmt"
	"math"
)

// flaw is what keeps a trial from standing; the zero value is none. It keeps
// figures and not words, because most flaws are never told.
type flaw struct {
	kind  flawKind
	trial trial
	value float64 // embedment, length or factor of safety that was found
}

type flawKind int

const (
	none flawKind = iota
	tooDeep
	tooLong
	pegSnaps
	boardBreaks
	slides
)

// text tells the flaw.
func (f *flaw) text() string {
	t := &f.trial
	if t.c.quiet {
		return ""
	}
	switch f.kind {
	case tooDeep:
		return fmt.Sprintf("pegs %s apart would have to go %s into the ground; %s, the most allowed here, would leave a factor of safety of %s, not 2",
			metres(t.pegGap()), millimetres(f.value), millimetres(t.c.DepthCap), under(f.atCap(), safety))
	case tooLong:
		return fmt.Sprintf("pegs would be %s long, over %s", millimetres(f.value), millimetres(longestPeg))
	case pegSnaps:
		return fmt.Sprintf("pegs %s square and %s apart would snap in a wet winter",
			millimetres(t.c.PegSize), metres(t.pegGap()))
	case boardBreaks:
		return fmt.Sprintf("boards %s thick would be too weak for pegs %s apart in a wet winter",
			millimetres(greatest(t.c.BoardThicknesses)), metres(t.pegGap()))
	}
	return fmt.Sprintf("the bed would slide in a wet winter: factor of safety %s, not 1.5", under(f.value, safetySlip))
}

// atCap is the factor of safety that the greatest embedment allowed leaves.
func (f *flaw) atCap() float64 { return f.trial.factor(f.trial.winter, f.trial.c.DepthCap) }

// check works out the trial's pegs and boards from its winter demand, and gives
// what is wrong, if anything.
func (t *trial) check() flaw {
	t.key = t.keyHolds(t.winter, t.c.Ground)
	t.depth = t.embedment(t.c.Ground)
	if t.depth > t.c.DepthCap+tiny {
		return flaw{tooDeep, *t, t.depth}
	}
	if t.bending() > pegBending(t.c.PegSize, t.c.Grade) {
		return flaw{pegSnaps, *t, 0}
	}
	t.slip = t.slipFactor()
	if t.slip < safetySlip {
		return flaw{slides, *t, t.slip}
	}
	t.stack = stackFor(t.c.BoardHeights, t.wedge.BoardDownhill(t.sunken))
	if t.needed(t.c.winter(), t.winter) > greatest(t.c.BoardThicknesses) {
		return flaw{boardBreaks, *t, 0}
	}
	if n := t.pegLength(total(t.stack)); n > longestPeg+tiny {
		return flaw{tooLong, *t, n}
	}
	return flaw{}
}

// bending is the greatest design moment in a peg in winter, kNm.
func (t *trial) bending() float64 {
	most := 0.0
	for _, l := range t.winter.pegs {
		m := l.force * (l.arm + t.sunken/2)
		if !t.key {
			m = t.peg(t.c.Ground).Bending(l.force, l.arm)
		}
		most = math.Max(most, loadFactor*m)
	}
	return most
}

// pegLength is a peg's whole length beside a board of that height, its point
// included.
func (t *trial) pegLength(board float64) float64 {
	return t.depth + board - t.sunken - PegBelowTop + PointAllowance
}

// slipFactor is the factor of safety against sliding in winter: friction, the
// sunken edges of all boards lying across the pull and all pegs, over the pull.
// Each direction of the bed must hold its own part of the pull.
func (t *trial) slipFactor() float64 {
	lc, c := t.c.winter(), t.c
	friction := SlipFactor(lc, c.Slope)
	pull := lc.Weight * t.wedge.Volume() * math.Sin(math.Atan(c.Slope))
	if pull == 0 {
		return friction
	}
	pegs := 0.0
	if t.depth > 0 {
		pegs = float64(t.pegCount()) * t.peg(c.Ground).Capacity(t.depth, t.winter.long.Arm)
	}
	key := 0.0
	if t.sunken >= leastSunken-tiny {
		key = t.keyAt(c.Ground, t.sunken)
	}
	across, along := c.shares()
	held := math.Inf(1)
	if across > 0 {
		held = key * float64(t.rows()) * c.Length / across
	}
	if along > 0 {
		held = math.Min(held, key*float64(t.crossBoards()+2)*c.Width/along)
	}
	return friction + (held+pegs)/pull
}

func greatest(v []float64) float64 {
	out := v[0]
	for _, x := range v[1:] {
		out = math.Max(out, x)
	}
	return out
}
