package frame

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Ranges over which a design is weighed, one input at a time: defaults of ours,
// beside the bands of the ground's own strength and of the water running on.
const (
	standingLow, standingHigh = 0.25, 0.75 // water behind the boards over their height; designed for half
	pressureLow, pressureHigh = 0.3, 0.5   // pore pressure under the bed; designed for 0.4
	fillSpread                = 0.02       // m of compost as laid, either way
	weightSpread              = 0.05       // of the wet weight over the value; down to the moist weight
	gripLess, gripMore        = 5.0, 3.0   // degrees of the fill's friction
)

// Effect is what one input does to a bed's edge over its range. The class is
// decided anew at each end; the rest is for the frame as designed.
type Effect struct {
	Input, Range string
	Low, High    Class // at the low and at the high end of the input
	// Embedment that a factor of safety of 2 would ask for in winter, m, and the
	// factor of safety of the pegs as printed; zero without pegs.
	Embedment, Factor geodata.Estimate
	Retained          geodata.Estimate // m against the lowest board; zero without boards
	SlipFactor        geodata.Estimate
}

// Sensitivity is how a design stands up to what is not known.
type Sensitivity struct {
	Effects           []Effect
	Mildest, Gravest  Class // over all ranges
	Firm              bool  // the class holds at every end
	Embedment, Factor geodata.Estimate
	Retained          geodata.Estimate
	SlipFactor        geodata.Estimate
	// Matters is the input that does most: one that changes the class, else the
	// one that moves the factor of safety of the pegs most.
	Matters string
}

// Sensitive weighs the design that Decide makes of a case over the ranges of
// ground strength, water and fill. sheet is the band of the depth of water
// running on, m.
func Sensitive(c Case, sheet geodata.Estimate) Sensitivity {
	c, err := c.settled()
	if err != nil || c.Refused != "" {
		return Sensitivity{Mildest: DoNotBuild, Gravest: DoNotBuild, Firm: true}
	}
	v := c.judged()
	s := Sensitivity{Mildest: v.class, Gravest: v.class}
	first := c.measure(v.trial)
	s.Embedment, s.Factor = geodata.Exactly(first.embedment), geodata.Exactly(first.factor)
	s.Retained, s.SlipFactor = geodata.Exactly(first.retained), geodata.Exactly(first.slip)
	for _, r := range c.ranges(sheet) {
		s.weigh(&c, v, first, r)
	}
	s.Firm = s.Mildest == s.Gravest
	s.Matters = s.mostMatters(v.class)
	return s
}

// between is one input and the case at both ends of its range.
type between struct {
	input, said string
	low, high   Case
}

// ranges are the ends at which a case is looked at.
func (c *Case) ranges(sheet geodata.Estimate) []between {
	at := func(input, said string, low, high func(*Case)) between {
		b := between{input, said, *c, *c}
		b.low.felt, b.high.felt = c.Ground.Undrained, c.Ground.Undrained
		low(&b.low)
		high(&b.high)
		return b
	}
	return []between{
		at("strength of the ground", c.groundSaid(),
			func(k *Case) { k.Ground = c.Ground.Weak() }, func(k *Case) { k.Ground = c.Ground.Strong() }),
		at("water standing in the bed", "a quarter to three quarters of its depth",
			func(k *Case) { k.standing, k.pressure = standingLow, pressureLow },
			func(k *Case) { k.standing, k.pressure = standingHigh, pressureHigh }),
		at("water running on", fmt.Sprintf("%s to %s mm deep", decimals(sheet.Low*1000, 1), decimals(sheet.High*1000, 1)),
			func(k *Case) { k.SheetDepth = sheet.Low }, func(k *Case) { k.SheetDepth = sheet.High }),
		at("depth of compost", fmt.Sprintf("%s less to %s more", millimetres(fillSpread), millimetres(fillSpread)),
			func(k *Case) { k.Fill = math.Max(c.Fill-fillSpread, 0.01) }, func(k *Case) { k.Fill = c.Fill + fillSpread }),
		at("weight and grip of the compost", fmt.Sprintf("as light as bought with a friction of %s, to %s over its wet weight with one of %s",
			degrees(c.grip(gripMore)), percent(weightSpread), degrees(c.grip(-gripLess))),
			func(k *Case) { k.Material.Wet, k.Material.FrictionAngle = c.Material.Moist, c.grip(gripMore) },
			func(k *Case) {
				k.Material.Wet, k.Material.FrictionAngle = c.Material.Wet*(1+weightSpread), c.grip(-gripLess)
			}),
	}
}

// grip is the fill's friction angle so many degrees up or down, not so low that
// the top of a bed could not stand.
func (c *Case) grip(degrees float64) float64 {
	return math.Max(c.Material.FrictionAngle+degrees*math.Pi/180, math.Atan(topAcross)+0.1)
}

func (c *Case) groundSaid() string {
	g := c.Ground
	if g.Clay {
		return fmt.Sprintf("%s to %s kPa", decimals(g.UndrainedLow, 1), decimals(g.UndrainedHigh, 1))
	}
	return fmt.Sprintf("friction of %s to %s", degrees(g.FrictionLow), degrees(g.FrictionHigh))
}

// measured are the figures of one frame in one case; zeros without pegs.
type measured struct{ embedment, factor, retained, slip float64 }

// measure works out what a frame as built comes to in this case.
func (c *Case) measure(built *trial) measured {
	if built == nil {
		return measured{slip: math.Min(SlipFactor(c.winter(), c.Slope), 100)}
	}
	t := *built
	t.c = c
	t.wedge.Fill += c.Fill - built.c.Fill
	t.winter = t.demand(c.winter())
	t.key = t.keyHolds(t.winter, c.Ground)
	return measured{
		embedment: t.embedment(c.Ground), factor: t.factor(t.winter, t.depth),
		retained: t.wedge.Low(), slip: math.Min(t.slipFactor(), 100),
	}
}

// weigh adds the effect of one input.
func (s *Sensitivity) weigh(c *Case, v verdict, first measured, r between) {
	low, high := r.low.measure(v.trial), r.high.measure(v.trial)
	e := Effect{
		Input: r.input, Range: r.said, Low: r.low.class(), High: r.high.class(),
		Embedment: around(first.embedment, low.embedment, high.embedment), Factor: around(first.factor, low.factor, high.factor),
		Retained: around(first.retained, low.retained, high.retained), SlipFactor: around(first.slip, low.slip, high.slip),
	}
	for _, k := range []Class{e.Low, e.High} {
		if k.Severity() < s.Mildest.Severity() {
			s.Mildest = k
		}
		if k.Severity() > s.Gravest.Severity() {
			s.Gravest = k
		}
	}
	for _, p := range [][2]*geodata.Estimate{
		{&s.Embedment, &e.Embedment}, {&s.Factor, &e.Factor}, {&s.Retained, &e.Retained}, {&s.SlipFactor, &e.SlipFactor},
	} {
		p[0].Low, p[0].High = math.Min(p[0].Low, p[1].Low), math.Max(p[0].High, p[1].High)
	}
	s.Effects = append(s.Effects, e)
}

func around(value, a, b float64) geodata.Estimate {
	return geodata.Estimate{Value: value, Low: math.Min(value, math.Min(a, b)), High: math.Max(value, math.Max(a, b))}
}

// mostMatters names the input that changes the class furthest; where none
// does, the one that moves the pegs' factor of safety most, or without pegs
// that against slipping.
func (s *Sensitivity) mostMatters(now Class) string {
	best, name := 0.0, ""
	for _, e := range s.Effects {
		jump := math.Abs(float64(e.Low.Severity()-now.Severity())) + math.Abs(float64(e.High.Severity()-now.Severity()))
		f := e.Factor
		if f.Value == 0 {
			f = e.SlipFactor
		}
		move := 0.0
		if f.High > 0 {
			move = (f.High - f.Low) / f.High
		}
		if score := 10*jump + move; score > best+tiny {
			best, name = score, e.Input
		}
	}
	return name
}
