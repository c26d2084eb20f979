package frame

import (
	"fmt"
	"math"
	"slices"
)

// Least size of a bay, m, and greatest rise between bays: defaults of ours.
const (
	leastBayWidth  = 0.4
	leastBayLength = 0.6
	usualRise      = 0.15
	greatestRise   = 0.20
)

// bays is a number of bays across and along.
type bays struct{ across, along int }

// countRange is the least and the greatest number of bays into which a side
// may be cut: enough for rises of 0.15 m, or of 0.20 m where the bays would get
// too small. ok is false where even that cannot be.
func countRange(side, fall, leastBay float64) (least, most int, ok bool) {
	most = max(1, int(math.Floor(side/leastBay+tiny)))
	least = BaysFor(fall, usualRise)
	if least > most {
		least = BaysFor(fall, greatestRise)
	}
	return least, most, least <= most
}

// cuts lists the ways to cut the bed into bays that keep the rises low, fewest
// bays first, then fewest across. Without any, why says what is in the way.
func (c *Case) cuts(s stepping) (out []bays, why string) {
	wl, wm, ok := countRange(c.Width, c.Across*c.Width, leastBayWidth)
	if !ok {
		return nil, fmt.Sprintf("the bed is too narrow to step: bays would be under %s wide or rise over %s",
			millimetres(leastBayWidth), millimetres(greatestRise))
	}
	ll, lm, ok := countRange(c.Length, c.Along*c.Length, leastBayLength)
	if s.along {
		ll = max(ll, 2)
	}
	if !ok || ll > lm {
		return nil, fmt.Sprintf("the bed is too short to step: bays would be under %s long or rise over %s",
			millimetres(leastBayLength), millimetres(greatestRise))
	}
	for a := wl; a <= wm; a++ {
		for l := ll; l <= lm; l++ {
			if a*l > 1 || s.whole && c.oneStep() {
				out = append(out, bays{a, l})
			}
		}
	}
	slices.SortStableFunc(out, func(p, q bays) int {
		if d := p.across*p.along - q.across*q.along; d != 0 {
			return d
		}
		return p.across - q.across
	})
	if len(out) == 0 {
		why = "the bed is too small to step"
	}
	return out, why
}

// oneStep says whether the ground falls so little under the whole bed that the
// bed is one step by itself.
func (c *Case) oneStep() bool {
	return c.Across*c.Width <= usualRise+tiny && c.Along*c.Length <= usualRise+tiny
}

// fewest is the wedge at a depth of fill in the fewest bays that retain no more
// than 0.30 m; where none does, the lowest there is.
func (c *Case) fewest(cuts []bays, fill float64) Wedge {
	lowest := c.wedge(fill, cuts[0].across, cuts[0].along)
	for _, b := range cuts {
		w := c.wedge(fill, b.across, b.along)
		if w.Low() <= mostRetained+tiny {
			return w
		}
		if w.Low() < lowest.Low()-tiny {
			lowest = w
		}
	}
	return lowest
}

// steppedFrame looks for a stepped bed: the fewest bays that retain no more
// than 0.30 m, with less compost if no bays do; then closer pegs, then less
// compost again, then more bays. Without any, why says what is in the way.
func (s *search) steppedFrame(st stepping) (t *trial, why string) {
	cuts, why := s.c.cuts(st)
	if len(cuts) == 0 {
		return nil, why
	}
	at := func(fill float64) Wedge { return s.c.fewest(cuts, fill) }
	fills := s.c.fills()
	wished := at(fills[0]).Low()
	for len(fills) > 0 && at(fills[0]).Low() > mostRetained+tiny {
		fills = fills[1:]
	}
	if len(fills) == 0 {
		return nil, "even in steps and with less compost, more than " + millimetres(mostRetained) +
			" of it would stand against a board"
	}
	if fills[0] < s.c.Fill {
		s.change("even in steps %s of compost would stand against a board: compost reduced from %s to %s",
			overMillimetres(wished, mostRetained), millimetres(s.c.Fill), millimetres(fills[0]))
	}
	if t = s.settle(fills, at, true); t != nil {
		return t, ""
	}
	return s.moreBays(cuts, fills[len(fills)-1])
}

// moreBays tries every number of bays, fewest first, at the least depth of
// compost, because everything milder has failed.
func (s *search) moreBays(cuts []bays, fill float64) (*trial, string) {
	before := s.last
	for _, b := range cuts {
		w := s.c.wedge(fill, b.across, b.along)
		if w.Low() > mostRetained+tiny {
			continue
		}
		if t, _, _ := s.spaced(w, true); t != nil {
			s.change("%s: more and smaller steps, pegs no more than %s apart, and compost of %s",
				before.text(), metres(t.spacing), millimetres(fill))
			return t, ""
		}
	}
	return nil, s.last.text()
}
