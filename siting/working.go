package siting

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/siting/rain"
	"crossfall/siting/soil"
	"crossfall/terrain/surface"
)

const degrees = 180 / math.Pi

// ledger collects the working as figures are settled.
type ledger struct{ entries []Basis }

func (l *ledger) add(id string, e geodata.Estimate, unit, formula, source string, inputs ...Input) {
	l.entries = append(l.entries, Basis{
		ID: id, Value: e.Value, Low: e.Low, High: e.High, Unit: unit,
		Formula: formula, Source: source, Inputs: append([]Input{}, inputs...),
	})
}

func input(name string, value float64, unit, from string) Input {
	return Input{Name: name, Value: value, Unit: unit, From: from}
}

// from says whether a wish was given or is a default.
func from(given bool) string {
	if given {
		return "given"
	}
	return "default"
}

// bedID is a bed's name as the working's ids write it.
func bedID(name string) string {
	return strings.Join(strings.Fields(strings.ToLower(name)), "-")
}

// groundWorking records how the general fall was found.
func (l *ledger) ground(p *geodata.Plot, fit *surface.Fit, g Ground) {
	n := float64(len(p.Spots))
	l.add("ground.fall", g.FallPercent, "percent",
		"least-squares plane through all heights, steepest fall 100 sqrt(gx² + gy²); 95 % interval by first-order error propagation",
		"least squares; error propagation (delta method), any text on regression",
		input("heights", n, "", "measured"),
		input("precision of a reading", g.Precision, "mm", from(p.Site.Ground.Precision != nil)),
		input("spread of the heights about the chosen surface", g.ResidualSpread, "mm", "computed"),
		input("multiplier of the standard error", fit.Plane.Quantile, "", "computed"))
	if g.RunoffBearing.Value != nil {
		b := g.RunoffBearing
		l.add("ground.runoff-bearing", geodata.Estimate{Value: *b.Value, Low: *b.Low, High: *b.High}, "degrees",
			"bearing of steepest descent, atan2(-gx, -gy); the interval holds every bearing whose cross fall could be nil, clockwise from low to high",
			"Fieller 1954 (from memory)",
			input("multiplier of the standard error", fit.Plane.Quantile, "", "computed"))
	}
	for _, t := range fit.Tests {
		l.add("ground.test-"+string(t.Model), geodata.Exactly(t.Statistic), "",
			fmt.Sprintf("sum of squared residuals over the stated reading errors; the %s fits when it is at most %.1f", t.Model, t.Limit),
			"chi-squared test of a least-squares fit with known errors",
			input("degrees of freedom", float64(t.DegreesOfFreedom), "", "computed"))
	}
}

// waterWorking records the rain that edges are judged by.
func (l *ledger) water(p *geodata.Plot, w Water) {
	l.add("water.design-rain", w.DesignRain, "mm/h",
		"mean rate over the 15 minutes met once in 10 years on average", w.DesignSource, rainInputs(p, w.DesignSource)...)
	if w.WinterRain != nil {
		l.add("water.winter-rain", *w.WinterRain, "mm", "sum of the six months "+w.WinterMonths, w.WinterSource)
	}
}

// rainInputs are the figures that the design rain of a source was worked from.
func rainInputs(p *geodata.Plot, source string) []Input {
	if n := len(p.Rain.Bursts); n > 0 {
		return []Input{input("depths for short durations in rain.csv", float64(n), "", "given")}
	}
	if p.Rain.Daily != nil && strings.HasPrefix(source, p.Rain.From) {
		return []Input{input("days of the record in rain.csv", float64(len(p.Rain.Daily.MM)), "days", "given")}
	}
	hour, ratio := rain.DefaultHour, rain.DefaultRatio
	if p.Site.Rain.M5Hour != nil {
		hour = *p.Site.Rain.M5Hour
	}
	if p.Site.Rain.Ratio != nil {
		ratio = *p.Site.Rain.Ratio
	}
	return []Input{
		input("rain of 60 minutes met once in 5 years", hour, "mm", from(p.Site.Rain.M5Hour != nil)),
		input("ratio of that to the rain of 2 days", ratio, "", from(p.Site.Rain.Ratio != nil)),
	}
}

// bed records the figures of one bed.
func (l *ledger) bed(j judge, d decision, b Bed) {
	id := bedID(d.bed.Name)
	quantile := input("multiplier of the standard error", j.fit.Quantile, "", "computed")
	l.add(id+".fall", b.FallPercent, "percent",
		"mean gradient under the bed from the fitted heights at the middles of its sides", "joint covariance of those heights in the fitted surface", quantile)
	l.add(id+".fall-across", b.FallAcross, "mm", "fitted height of the middle of the uphill side less that of the downhill side",
		"joint covariance of the two heights", quantile, input("width", d.bed.Width, "m", from(j.plot.Site.Beds.Width != nil || d.bed.Pinned)))
	l.add(id+".fall-along", b.FallAlong, "mm", "fitted height of the middle of one end less that of the other",
		"joint covariance of the two heights", quantile, input("length", d.bed.Length, "m", from(j.plot.Site.Beds.Length != nil || d.bed.Pinned)))
	l.runOn(id, j, d)
	l.risk(id, b)
	if b.Build != nil {
		l.build(id, j, d, b)
	}
}

// runOn records the sheet of water at the uphill edge.
func (l *ledger) runOn(id string, j judge, d decision) {
	f := d.runOn.flow
	l.add(id+".sheet-depth", f.Depth.Times(1000), "mm", "y = (q n / sqrt S)^0.6 with q = C i L / 3 600 000",
		"rational method; Manning's formula for a wide sheet; roughness: TR-55 (1986) table 3-1, from memory",
		input("runoff coefficient C", f.Coefficient.Value, "", "default"),
		input("rain rate i", j.rate.Value, "mm/h", "computed"),
		input("slope above L", d.runOn.length.Value, "m", "computed"),
		input("roughness n", f.Roughness.Value, "s/m^(1/3)", "default"),
		input("fall S", d.ground.Slope.Value, "", "computed"))
}

// build records what the boards and pegs rest on.
func (l *ledger) build(id string, j judge, d decision, b Bed) {
	fill := b.Build.Compost
	l.add(id+".compost", fill, "m³", "sum of the depth between the fitted ground and the top of the compost over the bed",
		"midpoint rule; exact on a plane",
		input("least depth", b.Build.Fill, "mm", from(j.plot.Site.Beds.Depth != nil)),
		input("fall left on the top, across", b.Build.TopAcross, "percent", "default"),
		input("fall left on the top, along", b.Build.TopAlong, "percent", "default"))
	if b.Pegs == nil || b.Pegs.Count == 0 {
		return
	}
	g := j.brief.Ground
	strength := input("undrained strength c of the ground", g.Undrained, "kPa", from(j.plot.Site.Ground.Thumb != ""))
	if !g.Clay {
		strength = input("friction angle of the ground", g.FrictionAngle*degrees, "degrees", from(j.plot.Site.Ground.Thumb != ""))
	}
	formula, source := pegFormula(d, g)
	l.add(id+".pegs.embedment", b.Pegs.Embedment, "mm", formula, source,
		strength,
		input("load P at the peg that carries most, winter", d.chosen.Pegs.Load*1000, "N", "computed"),
		input("height e of that load above the ground", d.chosen.Pegs.Arm*1000, "mm", "computed"),
		input("depth s of the sunken edge", d.chosen.Boards.Sunken*1000, "mm", "computed"),
		input("factor of safety F asked", 2, "", "default"),
		input("peg, side b", b.Pegs.Size, "mm square", from(j.plot.Site.Pegs.Size != nil)),
		input("fall across g", d.ground.Across.Value, "", "computed"))
	l.edge(id, j, d)
	l.add(id+".slip-factor", geodata.Exactly(b.Build.SlipFactor), "",
		"grip of the bed's base over the part of its weight that pulls down the slope, winter", "sliding block with pore pressure; friction of cardboard on moist turf 20 degrees, a default of ours",
		input("fall", d.ground.Slope.Value, "", "computed"))
}

// pegFormula names what the depth of the pegs was worked by.
func pegFormula(d decision, g soil.Ground) (formula, source string) {
	switch {
	case d.chosen.Pegs.Key && g.Clay:
		return "the sunken edge takes the thrust, the peg the couple M = F P (e + s / 2): D = 1.5 b + sqrt(M (1 + g) / (2.25 c b)), rounded up to 20 mm",
			"Broms 1964, short pile in clay; lower-bound plasticity with the edge as a key"
	case d.chosen.Pegs.Key:
		return "the sunken edge takes the thrust, the peg the couple M = F P (e + s / 2) = 0.293 Kp γ b D³, rounded up to 20 mm",
			"Broms 1964, short pile in sand (from memory); lower-bound plasticity with the edge as a key"
	case g.Clay:
		return "short free-headed peg under F P at e above the ground, resistance 9 c b below 1.5 b, reduced by 1 + g on falling ground, rounded up to 20 mm",
			"Broms 1964, short pile in clay"
	}
	return "short free-headed peg under F P at e above the ground, resistance 3 Kp γ z b with Kp for falling ground, rounded up to 20 mm",
		"Broms 1964, short pile in sand (from memory); Coulomb passive coefficient"
}
