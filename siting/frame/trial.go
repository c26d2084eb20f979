package frame

import (
	"math"

	"crossfall/siting/soil"
)

// trial is one way to build a bed's frame, and what came of checking it.
type trial struct {
	c       *Case
	wedge   Wedge
	spacing float64 // widest spacing of pegs, m
	stepped bool
	sunken  float64 // of every board, m; 0 in a frame that stands on the ground
	added   int     // cross boards besides those at steps

	winter demand
	depth  float64 // embedment, rounded up, m
	key    bool    // the sunken edge takes the load in winter
	slip   float64 // factor of safety against sliding, everything counted
	stack  []float64
}

// spans is over how many pegs apart the downhill board of a bay goes. A bay
// that falls mostly across has its long board as its downhill board, and in a
// stepped bed that is pegged in the middle too.
func (t *trial) spans() int {
	n := BaysFor(t.wedge.BayLength(), math.Min(t.spacing, t.c.LongestBoard))
	if t.stepped && t.c.Across >= t.c.Along-tiny {
		n = max(n, 2)
	}
	return n
}

// crossSpans is the same for boards lying the short way: the low end and the
// cross boards. Cross boards are pegged in the middle as well as at their ends.
func (t *trial) crossSpans() int {
	n := BaysFor(t.wedge.BayWidth(), t.spacing)
	if t.wedge.BaysAlong > 1 || t.added > 0 {
		n = max(n, 2)
	}
	return n
}

// pegGap is the distance between pegs along a long side.
func (t *trial) pegGap() float64 { return t.wedge.BayLength() / float64(t.spans()) }

// crossAt are the places of cross boards, as distances along a long side from
// either end: at every step, or at pegs spread evenly.
func (t *trial) crossAt() []float64 {
	var at []float64
	for i := 1; i < t.wedge.BaysAlong; i++ {
		at = append(at, float64(i)*t.wedge.BayLength())
	}
	for i := 1; i <= t.added; i++ {
		at = append(at, t.pegGap()*float64(t.addedPeg(i)))
	}
	return at
}

// addedPeg is the number of the peg, from an end, at which the i-th added
// cross board stands.
func (t *trial) addedPeg(i int) int {
	return int(math.Round(float64(i*t.spans()) / float64(t.added+1)))
}

// longestPart is the greatest length of bed between boards lying the short way.
func (t *trial) longestPart() float64 {
	if t.added == 0 {
		return t.wedge.BayLength()
	}
	longest, last := 0, 0
	for i := 1; i <= t.added+1; i++ {
		p := t.spans()
		if i <= t.added {
			p = t.addedPeg(i)
		}
		longest, last = max(longest, p-last), p
	}
	return t.pegGap() * float64(longest)
}

// demand is what the boards and the most loaded pegs of a trial must hold in
// one load case. It does not depend on how deep the edges are sunken.
type demand struct {
	long, cross Thrust // on a metre of long board, and of a board lying the short way
	pegs        [3]pegLoad
}

func (t *trial) demand(lc LoadCase) demand {
	var d demand
	d.long, d.cross = t.lineLoads(lc)
	d.pegs = t.pegLoads(d.long, d.cross)
	return d
}

// worst is the greater of the line loads, kN/m.
func (d demand) worst() float64 { return math.Max(d.long.Force, d.cross.Force) }

// lineLoads are what a metre of the downhill long board and of the low end
// board or a cross board must hold: earth and water, or the bed's pull down the
// slope if that is more. The pull is taken to act at a third of the height.
func (t *trial) lineLoads(lc LoadCase) (long, cross Thrust) {
	shear := SlipShear(lc, t.wedge.Mean(), t.c.Slope)
	across, along := t.c.shares()
	h := t.wedge.Low()
	long = greater(lc.Thrust(h, t.wedge.TopAcross), shear*across*t.wedge.BayWidth(), h)
	cross = greater(lc.Thrust(h, t.wedge.TopAlong), shear*along*t.longestPart(), h)
	return long, cross
}

func greater(earth Thrust, pull, h float64) Thrust {
	if pull > earth.Force {
		return Thrust{Force: pull, Arm: h / 3}
	}
	return earth
}

// beams are the long and the short boards over their pegs. A long side made of
// more than one board is joined at a peg, where its beam ends: then no inner
// peg carries less than that of two spans.
func (t *trial) beams() (long, cross Beam) {
	long, cross = BeamOver(t.spans()), BeamOver(t.crossSpans())
	if t.wedge.BayLength() > t.c.LongestBoard+tiny && long.Spans > 2 {
		long = BeamOver(2)
	}
	return long, cross
}

// pegLoads are the loads of the most loaded pegs: in the middle of the long
// board, in the middle of a board lying the short way, and where both meet.
func (t *trial) pegLoads(wl, wc Thrust) [3]pegLoad {
	long, cross := t.beams()
	l := wl.Force * t.pegGap()
	b := wc.Force * t.wedge.BayWidth() / float64(t.crossSpans())
	meetLong, meetCross := long.End, cross.End
	if t.wedge.BaysAlong > 1 {
		meetLong *= 2
	}
	if t.added > 0 {
		meetLong = math.Max(meetLong, long.Inner)
	}
	if t.wedge.BaysAcross > 1 {
		meetCross *= 2
	}
	return [3]pegLoad{
		{math.Max(long.Inner, long.End) * l, wl.Arm},
		{math.Max(cross.Inner, cross.End) * b, wc.Arm},
		{math.Hypot(meetLong*l, meetCross*b), math.Max(wl.Arm, wc.Arm)},
	}
}

// keyHolds says whether the sunken edge alone takes the line loads, with room.
func (t *trial) keyHolds(d demand, g soil.Ground) bool {
	return t.sunken >= leastSunken-tiny && t.keyAt(g, t.sunken) >= keySafety*d.worst()
}

// keyAt is the resistance of the bed's boards let into a ground by c metres, kN/m.
func (t *trial) keyAt(g soil.Ground, c float64) float64 {
	if g.Clay {
		return Key(g, c, t.c.Slope)
	}
	return SandKey(c, g.UnitWeight, t.c.grounds.passive(g.FrictionAngle, t.c.Slope))
}

// peg is the bed's peg in a ground.
func (t *trial) peg(g soil.Ground) Peg {
	p := Peg{Size: t.c.PegSize, Ground: g, Slope: t.c.Slope}
	if !g.Clay {
		p.kp = t.c.grounds.passive(g.FrictionAngle, t.c.Slope)
	}
	return p
}

// embedment is the printed depth that winter asks for in a ground: the worst
// peg at a factor of safety of 2, rounded up, not under the least depth.
func (t *trial) embedment(g soil.Ground) float64 {
	key := t.keyHolds(t.winter, g)
	need := leastPlain
	if t.sunken > 0 {
		need = leastWithSunken
	}
	p := t.peg(g)
	for _, l := range t.winter.pegs {
		need = math.Max(need, p.depthFor(l, safety, t.sunken, key))
	}
	return roundUp(need)
}

// factor is the least factor of safety of the pegs at an embedment.
func (t *trial) factor(d demand, embedment float64) float64 {
	key := t.keyHolds(d, t.c.Ground)
	p, least := t.peg(t.c.Ground), math.Inf(1)
	for _, l := range d.pegs {
		least = math.Min(least, p.factor(l, embedment, t.sunken, key))
	}
	return least
}

// rows is the number of lines of boards along the bed: the uphill side and the
// downhill board of every bay across.
func (t *trial) rows() int { return t.wedge.BaysAcross + 1 }

// perSide is the number of pegs along each of them.
func (t *trial) perSide() int { return t.spans()*t.wedge.BaysAlong + 1 }

// perCross is the number of pegs between the ends on the low end board and on
// each cross board; perHighEnd is that on the high end board, which holds
// little and is pegged no closer than every 1.8 m.
func (t *trial) perCross() int { return t.wedge.BaysAcross * (t.crossSpans() - 1) }
func (t *trial) perHighEnd() int {
	return t.wedge.BaysAcross * (BaysFor(t.wedge.BayWidth(), DefaultPegSpacing) - 1)
}

func (t *trial) crossBoards() int { return t.wedge.BaysAlong - 1 + t.added }

// pegCount is the number of pegs of the whole bed.
func (t *trial) pegCount() int {
	return t.rows()*t.perSide() + (t.crossBoards()+1)*t.perCross() + t.perHighEnd()
}
