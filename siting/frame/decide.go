package frame

import "math"

// Decide works out the edge of one bed. Every case gets exactly one class; the
// same case always the same design. A case that no bed can be (a length that is
// not a number, boards a kilometre high) gets "do not build here" and says what
// is wrong with it.
//
// The classes and their limits are defaults of ours; loads, pegs, boards and
// sliding follow the publications named at the functions that compute them.
func Decide(c Case) Design {
	c, err := c.settled()
	if err != nil {
		return Design{Class: DoNotBuild, FillWished: c.Fill, Because: err.Error()}
	}
	d := c.designed(c.judged())
	d.NextEdge = c.nextEdge(d.Class)
	d.MilderEdge = c.milderEdge(d.Class)
	return d
}

// ClassOf is the class that Decide gives, without the rest: for weighing many
// falls of one bed.
func ClassOf(c Case) Class {
	c, err := c.settled()
	if err != nil {
		return DoNotBuild
	}
	return c.class()
}

// class is the class without its reasons.
func (c Case) class() Class {
	c.quiet = true
	return c.judged().class
}

// verdict is a class, what decided it and the frame that was found for it.
type verdict struct {
	class   Class
	because string
	trial   *trial // nil for open-edged and do not build here
	search  search
}

// judged tries the classes, gravest first.
func (c *Case) judged() verdict {
	if why := c.forbidden(); why != "" {
		return verdict{class: DoNotBuild, because: why}
	}
	v := verdict{search: search{c: c}}
	if s := c.steps(); len(s.reasons) > 0 {
		v.step(s, joined(s.reasons))
		return v
	}
	if r := c.sinking(); len(r) > 0 {
		v.sink(joined(r))
		return v
	}
	r := c.boarding()
	if len(r) == 0 {
		v.class, v.because = OpenEdged, c.openBecause()
		return v
	}
	v.board(joined(r))
	return v
}

// board tries boards and pegs without sunken edges, and failing that sinks them.
func (v *verdict) board(because string) {
	if v.trial = v.search.plain(); v.trial != nil {
		v.class, v.because = Boarded, because
		return
	}
	text := v.search.last.text()
	v.search.change("without sunken edges %s: the edges are sunken", text)
	v.sink("without sunken edges " + text)
}

// sink tries sunken edges, and failing that steps the bed.
func (v *verdict) sink(because string) {
	c := v.search.c
	at := func(fill float64) Wedge { return c.wedge(fill, 1, 1) }
	if v.trial = v.search.settle(c.fills(), at, false); v.trial != nil {
		v.class, v.because = SunkenEdges, because
		return
	}
	text := v.search.last.text()
	v.search.change("with the closest pegs and the least compost %s: the bed is stepped", text)
	v.step(stepping{}, "in one piece, "+text)
}

// step tries a stepped bed, and failing that gives up.
func (v *verdict) step(s stepping, because string) {
	t, why := v.search.steppedFrame(s)
	if t == nil {
		v.class, v.because = DoNotBuild, because+"; but "+why
		return
	}
	v.trial, v.class, v.because = t, Stepped, because
}

// designed is the design of a verdict, without the edges next to it.
func (c *Case) designed(v verdict) Design {
	d := Design{
		Class: v.class, Because: v.because, FillWished: c.Fill,
		Changes: v.search.changes,
	}
	if v.search.atCap.kind != none {
		d.FactorAtCap = v.search.atCap.atCap()
	}
	friction := SlipFactor(c.winter(), c.Slope)
	d.SlipFriction, d.SlipFactor = math.Min(friction, 100), math.Min(friction, 100)
	switch {
	case v.class == DoNotBuild:
		return d
	case v.trial == nil:
		d.fill(c.wedge(c.Fill, 1, 1))
		d.Edges = c.openEdges()
	default:
		d.fill(v.trial.wedge)
		d.build(v.trial)
	}
	d.heed(c, v.trial)
	return d
}

// fill puts the shape of the compost into the design.
func (d *Design) fill(w Wedge) {
	d.Fill, d.TopAcross, d.TopAlong = w.Fill, w.TopAcross, w.TopAlong
	d.BaysAcross, d.BaysAlong = w.BaysAcross, w.BaysAlong
	d.RiseAcross, d.RiseAlong = w.RiseAcross(), w.RiseAlong()
	d.Volume = w.Volume()
}

// build puts the boards and pegs of a trial into the design.
func (d *Design) build(t *trial) {
	w := t.wedge
	d.Retained = Sides{Downhill: w.Low(), Uphill: w.UphillLow(), LowEnd: w.Low(), HighEnd: w.HighEndLow()}
	d.SlipFactor = math.Min(t.slip, 100)
	d.Boards, d.Pegs = t.boards(), t.pegs()
	d.Pegs.LengthDownhill = t.pegLength(d.Boards.Downhill.Bought)
	d.Pegs.LengthUphill = t.pegLength(d.Boards.Uphill.Bought)
}

func (t *trial) boards() *Boards {
	c := t.c
	b := &Boards{
		Uphill:   t.choice(t.wedge.BoardUphill(t.sunken)),
		Downhill: t.choice(t.wedge.BoardDownhill(t.sunken)),
		Sunken:   t.sunken, Taper: t.wedge.gainAlong(),
		CrossBoards: t.crossBoards(), CrossAt: t.crossAt(),
	}
	faces, stake := facesAiry, stakeLife[c.Durability]
	if t.sunken > 0 {
		faces = facesSunken
	}
	drained := t.needed(Drained(c.Material), t.demand(Drained(c.Material)))
	b.LastingThickness = math.Max(
		LastingThickness(c.LifeWished, drained, stake.Value, faces),
		t.needed(c.winter(), t.winter))
	b.Thickness = greatest(c.BoardThicknesses)
	for _, thick := range c.BoardThicknesses {
		if thick >= b.LastingThickness && thick < b.Thickness {
			b.Thickness = thick
		}
	}
	b.Faces = faces
	b.Life = serviceLife(b.Thickness, drained, stake, faces)
	b.Strength = c.Grade.PermanentBending()
	b.Stress = t.stress(b.Thickness)
	b.SagFirst, b.SagFinal = t.sag(b.Thickness)
	b.WidestSpacing = t.widest(b.Thickness)
	mm := b.Thickness * 1000
	b.Screw = PermanentDesign(DefaultScrew(mm).Sideways(c.Grade.LeastDensity)) / 1000
	b.Withdrawal = PermanentDesign(Withdrawal(6, 40, c.Grade.LeastDensity, 2)) / 1000
	return b
}

func (t *trial) choice(needed float64) BoardChoice {
	stack := stackFor(t.c.BoardHeights, needed)
	return BoardChoice{Needed: needed, Stack: stack, Bought: total(stack)}
}

func (t *trial) pegs() *Pegs {
	c := t.c
	p := &Pegs{
		Size: c.PegSize, Rows: t.rows(), PerSide: t.perSide(), Spacing: t.pegGap(),
		PerCross: t.perCross(), PerHighEnd: t.perHighEnd(), Count: t.pegCount(), Key: t.key,
		FactorWinter:  t.factor(t.winter, t.depth),
		FactorDrained: t.factor(t.demand(Drained(c.Material)), t.depth),
		FactorBlocked: t.factor(t.demand(Blocked(c.Material)), t.depth),
	}
	p.Embedment.Value = t.depth
	p.Embedment.Low = math.Min(t.depth, t.embedment(c.Ground.Strong()))
	p.Embedment.High = math.Max(t.depth, t.embedment(c.Ground.Weak()))
	for _, l := range t.winter.pegs {
		if t.peg(c.Ground).factor(l, t.depth, t.sunken, t.key) <= p.FactorWinter {
			p.Load, p.Arm = l.force, l.arm
		}
	}
	drained := 0.0 // side of the peg that the drained load needs
	for _, l := range t.demand(Drained(c.Material)).pegs {
		m := loadFactor * t.peg(c.Ground).Bending(l.force, l.arm)
		drained = math.Max(drained, math.Cbrt(6*m/(c.Grade.PermanentBending()*1000)))
	}
	p.CodeDepth = codeDepth(c.Ground, p.Load, p.Arm, c.PegSize)
	p.Life = serviceLife(c.PegSize, drained, stakeLife[c.Durability], facesPeg)
	return p
}
