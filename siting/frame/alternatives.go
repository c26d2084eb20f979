package frame

// Alternative is one of the four ways to edge a bed, whether or not it is the
// one that was decided.
type Alternative struct {
	Class Class
	// Design is what would be built: pegs hold twice the winter load as in
	// every Design. Nil where no such frame stands here.
	Design *Design
	// Against is what speaks against it: the rule that asks for more, why no
	// frame of the kind stands, or that a milder one will do; "" for the one
	// decided.
	Against string
}

// Alternatives are the bed open, boarded, boarded with sunken edges and pegs,
// and stepped, in that order, each as Decide would build it. Nil where nothing
// is to be built.
func Alternatives(c Case) []Alternative {
	c, err := c.settled()
	if err != nil || c.forbidden() != "" {
		return nil
	}
	now := c.judged()
	if now.class == DoNotBuild {
		return nil
	}
	open := verdict{class: OpenEdged, search: search{c: &c}}
	plain := verdict{class: Boarded, search: search{c: &c}}
	plain.trial = plain.search.plain()
	sunken := verdict{class: SunkenEdges, search: search{c: &c}}
	sunken.trial = sunken.search.settle(c.fills(), func(fill float64) Wedge { return c.wedge(fill, 1, 1) }, false)
	stepped, why := now, ""
	if now.class != Stepped {
		stepped, why = c.inSteps()
	}
	return []Alternative{
		c.alternative(open, now.class, c.against(OpenEdged), ""),
		c.alternative(plain, now.class, c.against(Boarded), plain.search.last.said()),
		c.alternative(sunken, now.class, c.against(SunkenEdges), sunken.search.last.said()),
		c.alternative(stepped, now.class, "", why),
	}
}

// inSteps is the bed stepped though it need not be.
func (c *Case) inSteps() (v verdict, why string) {
	v = verdict{class: Stepped, search: search{c: c}}
	s := c.steps()
	s.whole = false // a bed of one step is no stepped bed to set beside the others
	v.trial, why = v.search.steppedFrame(s)
	return v, why
}

// alternative is a verdict beside the class decided. rule is what asks for a
// graver class, failed what kept its frame from standing.
func (c *Case) alternative(v verdict, now Class, rule, failed string) Alternative {
	a := Alternative{Class: v.class}
	if v.class != OpenEdged && v.trial == nil {
		a.Against = failed
		return a
	}
	d := c.designed(v)
	a.Design = &d
	switch {
	case v.class == now:
	case v.class.Severity() > now.Severity():
		a.Against = "not needed"
	default:
		a.Against = rule
	}
	return a
}

// against is the rule that asks for more than a class, or "".
func (c *Case) against(k Class) string {
	r := c.steps().reasons
	if k.Severity() < SunkenEdges.Severity() {
		r = append(r, c.sinking()...)
	}
	if k.Severity() < Boarded.Severity() {
		r = append(r, c.boarding()...)
	}
	return joined(r)
}

// said is the flaw in words, "" for none.
func (f *flaw) said() string {
	if f.kind == none {
		return ""
	}
	return f.text()
}

// SlotVolume is the earth lifted to let the boards of a design into the ground,
// m3, by the length of its boards and a slot as wide as a spade's blade is
// thick beside them; 0 without sunken edges.
func (d *Design) SlotVolume(length, width float64) float64 {
	if d.Boards == nil {
		return 0
	}
	boards := length*float64(1+d.BaysAcross) + width*float64(2+d.Boards.CrossBoards)
	return boards * d.Boards.Sunken * (d.Boards.Thickness + slotSide)
}

// slotSide is how much wider a slot is than its board, m; a default of ours.
const slotSide = 0.03
