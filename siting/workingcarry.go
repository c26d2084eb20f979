package siting

import (
	"crossfall/geodata"
	"crossfall/siting/access"
)

// access records the figures of the way to one bed.
func (l *ledger) access(id string, j judge, b *BedAccess) {
	if b == nil || b.By == access.NoWay {
		return
	}
	limits := j.access.Limits()
	barrow := input("barrow", limits.Width, "m", from(j.plot.Site.Carrying.Width != nil))
	steepest := input("steepest that is wished", 100*limits.Gradient, "percent", from(j.plot.Site.Carrying.Steepest != nil))
	l.add(id+".way.length", geodata.Exactly(b.Length), "m",
		"cheapest way over squares and headings, each metre counting 1 + (gradient / steepest)², half as much again off the drawn paths, "+
			"40 for each whole gradient over the steepest, and 3.6 m for turning right round",
		"Dijkstra, Numerische Mathematik 1 (1959) 269; weights: defaults of ours",
		barrow, steepest, input("squares", j.access.Cell(), "m", "default"), input("headings", float64(j.access.Headings()), "", "default"))
	l.add(id+".way.climb", b.Climb, "m",
		"sum of the rises along the way; band: interval of the height between its ends", "sum; covariance of both heights", input("length", b.Length, "m", "computed"))
	l.add(id+".way.steepest-rise", b.SteepestRise, "percent",
		"greatest rise over any 2 m of the way; band: interval of the height between the ends of that stretch",
		"the steepest wished, unless given: ADA Standards for Accessible Design (2010), 405.2, 1 in 12", steepest)
	l.add(id+".way.push", b.Push, "N",
		"m g (sin a + mu cos a) on the steepest rise: mu 0.10 on a lawn; low 0.02 on a firm path, high 0.15 on wet, soft ground",
		"mechanics; 0.02: Health and Safety Executive, pushing and pulling; others: defaults of ours",
		input("barrow", j.brief.Barrow, "kg", from(j.plot.Site.Carrying.Barrow != nil)),
		input("load", j.brief.Load, "litres", from(j.plot.Site.Carrying.Load != nil)))
	l.add(id+".way.loads", b.Loads, "loads", "compost over the load, rounded up", "count", input("load", j.brief.Load, "litres", from(j.plot.Site.Carrying.Load != nil)))
}

// carrying records the whole job of carrying.
func (l *ledger) carrying(c Carrying) {
	if c.Walked == nil {
		return
	}
	l.add("carrying.walked", *c.Walked, "m", "sum over the beds: loads times twice the length of the way", "sum")
	l.add("carrying.climbed", *c.Climbed, "m", "sum over the beds: loads times the climb of the way", "sum")
}
