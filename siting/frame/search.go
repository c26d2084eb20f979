package frame

import (
	"fmt"
	"math"
	"slices"
)

// search looks for a frame that stands, and keeps what it changed on the way.
type search struct {
	c       *Case
	changes []string
	// atCap is the flaw of the first trial whose pegs passed the greatest depth
	// allowed.
	atCap flaw
	// last is what kept the latest trial from standing.
	last flaw
}

func (s *search) change(format string, args ...any) {
	if s.c.quiet {
		return
	}
	s.changes = append(s.changes, fmt.Sprintf(format, args...))
}

// refuse keeps the flaw of a trial.
func (s *search) refuse(f flaw) {
	if f.kind == tooDeep && s.atCap.kind == none {
		s.atCap = f
	}
	s.last = f
}

// plain tries boards and pegs without sunken edges at the wished spacing.
func (s *search) plain() *trial {
	t := &trial{c: s.c, wedge: s.c.wedge(s.c.Fill, 1, 1), spacing: s.c.PegSpacing}
	t.winter = t.demand(s.c.winter())
	if f := t.check(); f.kind != none {
		s.refuse(f)
		return nil
	}
	return t
}

// sunkenAt tries one wedge at one spacing, with edges sunken just deep enough.
func (s *search) sunkenAt(w Wedge, spacing float64, stepped bool) *trial {
	t := &trial{c: s.c, wedge: w, spacing: spacing, stepped: stepped}
	t.winter = t.demand(s.c.winter())
	t.sunken = t.keyDepth(s.c.sunkenEdge())
	f := t.check()
	if f.kind == none {
		return t
	}
	s.refuse(f)
	if f.kind != slides {
		return nil
	}
	return s.heldFromSliding(t)
}

// heldFromSliding lets the edges deeper in, adds cross boards, and lets the
// edges in deeper still, until the bed is held.
func (s *search) heldFromSliding(from *trial) *trial {
	try := func(mm, added int) *trial {
		t := *from
		t.sunken = float64(mm) / 1000
		if added != t.added {
			t.added = added
			t.winter = t.demand(s.c.winter())
		}
		if t.check().kind != none {
			return nil
		}
		return &t
	}
	first := int(math.Round(from.sunken * 1000))
	usual := max(first, int(usualSunken*1000))
	for mm := first + 10; mm <= usual; mm += 10 {
		if t := try(mm, 0); t != nil {
			return t
		}
	}
	most := 0
	if from.wedge.BaysAlong == 1 {
		most = from.spans() - 1
	}
	for mm := usual; mm <= int(greatestSunken*1000); mm += 10 {
		for added := 0; added <= most; added++ {
			if t := try(mm, added); t != nil {
				return t
			}
		}
	}
	return nil
}

// sunkenEdge is the least depth of a sunken edge that follows the ground,
// rounded up to 10 mm. On falls over 10 % the uphill board needs 50 mm.
func (c *Case) sunkenEdge() float64 {
	d, _ := SunkenDepth(0, c.Roughness, c.Slope)
	if c.Slope > 0.10+tiny {
		d = math.Max(d, 0.05)
	}
	return math.Ceil(d*100-1e-6) / 100
}

// keyDepth is the least sunken depth, in 10 mm steps from least to 100 mm, that
// takes the whole winter load; least where none does.
func (t *trial) keyDepth(least float64) float64 {
	w := t.winter.worst()
	if t.keyAt(t.c.Ground, greatestSunken) < keySafety*w {
		return least
	}
	mm := int(math.Round(least * 1000))
	for t.keyAt(t.c.Ground, float64(mm)/1000) < keySafety*w {
		mm += 10
	}
	return float64(mm) / 1000
}

// settle tries the spacings, widest first, and then less and less compost, on
// wedges as at gives them for a depth.
func (s *search) settle(fills []float64, at func(fill float64) Wedge, stepped bool) *trial {
	if s.c.quiet {
		return s.anyStands(fills, at, stepped)
	}
	t, first, closest := s.spaced(at(fills[0]), stepped)
	if t != nil {
		s.tell(t, fills[0], first, flaw{})
		return t
	}
	for _, fill := range fills[1:] {
		if t, _, _ := s.spaced(at(fill), stepped); t != nil {
			s.tell(t, fills[0], first, closest)
			return t
		}
	}
	return nil
}

// anyStands looks for any frame that stands, where only the class is asked for:
// the closest pegs and the least compost first.
func (s *search) anyStands(fills []float64, at func(fill float64) Wedge, stepped bool) *trial {
	spacings := s.c.spacings()
	for _, fill := range slices.Backward(fills) {
		if t := s.sunkenAt(at(fill), spacings[len(spacings)-1], stepped); t != nil {
			return t
		}
	}
	return nil
}

// spaced finds the widest spacing at which the pegs of one wedge stand; first and closest are what was wrong with the widest and the
// closest. What the closest pegs do not hold, wider ones do not hold either, so
// those between are tried only when the closest stand.
func (s *search) spaced(w Wedge, stepped bool) (t *trial, first, closest flaw) {
	spacings := s.c.spacings()
	if t = s.sunkenAt(w, spacings[0], stepped); t != nil {
		return t, first, closest
	}
	first = s.last
	if len(spacings) == 1 {
		return nil, first, first
	}
	held := s.sunkenAt(w, spacings[len(spacings)-1], stepped)
	if held == nil {
		return nil, first, s.last
	}
	for _, spacing := range spacings[1 : len(spacings)-1] {
		if t = s.sunkenAt(w, spacing, stepped); t != nil {
			return t, first, closest
		}
	}
	return held, first, closest
}

// tell notes what a trial changed from the first one.
func (s *search) tell(t *trial, fill float64, first, closest flaw) {
	if s.c.quiet {
		return
	}
	if first.kind != none && t.spacing < s.c.PegSpacing-tiny {
		s.change("%s: pegs set no more than %s apart", first.text(), metres(t.spacing))
	}
	if closest.kind != none {
		s.change("even then %s: compost reduced from %s to %s",
			closest.text(), millimetres(fill), millimetres(t.wedge.Fill))
	}
}
