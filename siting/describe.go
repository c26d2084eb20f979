package siting

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/frame"
	"crossfall/terrain"
)

// describeBed is the decision about one bed as the Assessment carries it.
func describeBed(j judge, d decision) Bed {
	g := d.ground
	percent := g.Slope.Times(100)
	b := Bed{
		Name: d.bed.Name, Pinned: d.bed.Pinned, Length: d.bed.Length, Width: d.bed.Width, Centre: d.bed.Centre,
		LongSide:    math.Mod((float64(d.bed.LongSide)+j.plot.Frame.NorthTurn)*degrees+360, 180),
		OffContour:  d.bed.OffContour(g.Gradient) * degrees,
		FallPercent: percent, FallAcross: g.FallAcross.Times(1000), FallAlong: g.FallAlong.Times(1000),
		FallSaid: terrain.FallSaid(percent, !d.open), FallTold: !d.open,
		RunoffBearing: bearingOf(j.plot, g.Gradient, g.Covariance, j.fit.Quantile, g.Determined),
		LowEnd:        "left",
		Edge:          d.chosen.Class, EdgeFirm: d.firm, EdgeBecause: edgeBecause(d),
		EdgeRange: []frame.Class{d.mildest(), d.gravest()}, NextEdge: d.chosen.NextEdge, MilderEdge: d.chosen.MilderEdge, Options: []EdgeOption{},
		RunOnLength: d.runOn.length, RunOnRate: d.runOn.flow.Flow, SheetDepth: d.runOn.flow.Depth.Times(1000),
		Cautions: []string{},
	}
	if g.LowEndRight {
		b.LowEnd = "right"
	}
	for i, c := range g.Corners {
		b.Corners[i] = Corner{c[0], c[1], g.Heights[i]}
	}
	if b.Sensitivity = j.sensitivity(d); b.Sensitivity != nil {
		b.EdgeFirm = b.EdgeFirm && b.Sensitivity.Firm
	}
	for _, c := range d.cautions {
		b.Cautions = append(b.Cautions, c.ID)
	}
	if d.chosen.Class != frame.DoNotBuild {
		b.Build = describeBuild(d)
		describeFrame(&b, d)
		b.Section = j.section(d)
	}
	return b
}

// edgeBecause says what decided, and where the survey cannot tell, that too.
func edgeBecause(d decision) string {
	if d.raisedBy != "" {
		by := d.raisedBy
		d.raisedBy = ""
		return edgeBecause(d) + "; " + by
	}
	if !d.open || d.refused != "" {
		return d.chosen.Because
	}
	return fmt.Sprintf("%s; cannot tell its fall: %s, so it is decided at the upper limits of %s across and %s along",
		d.chosen.Because, d.why, limitSaid(d.ground.Across.High), limitSaid(d.ground.Along.High))
}

// limitSaid is an upper limit of a fall; past 100 % its size says no more.
func limitSaid(fall float64) string {
	if fall > 1 {
		return "more than 100 %"
	}
	return fmt.Sprintf("%.1f %%", fall*100)
}

// describeBuild is what to make.
func describeBuild(d decision) *Build {
	c := d.chosen
	top := topOf(c, d.ground)
	b := &Build{
		FillWished: c.FillWished * 1000, Fill: c.Fill * 1000,
		Retained: d.retained().Times(1000), Compost: d.compost(),
		TopAcross: top.Across * 100, TopAlong: top.Along * 100,
		BaysAcross: c.BaysAcross, BaysAlong: c.BaysAlong, StepRise: math.Max(c.RiseAcross, c.RiseAlong) * 1000,
		SlipFactor: c.SlipFactor, Changes: append([]string{}, c.Changes...), Notes: append([]string{}, c.Notes...),
		StackUphill: []float64{}, StackDownhill: []float64{},
	}
	if c.Edges != nil {
		down, up := c.Edges.Downhill.Times(1000), c.Edges.Uphill.Times(1000)
		b.RunDownhill, b.RunUphill = &down, &up
	}
	if c.Boards != nil {
		b.BoardUphill, b.BoardDownhill = c.Boards.Uphill.Bought*1000, c.Boards.Downhill.Bought*1000
		b.StackUphill, b.StackDownhill = scaled(c.Boards.Uphill.Stack, 1000), scaled(c.Boards.Downhill.Stack, 1000)
		b.BoardThickness, b.BoardLife = c.Boards.Thickness*1000, c.Boards.Life
		b.CrossBoards = c.Boards.CrossBoards
		b.BoardStress = c.Boards.Stress / c.Boards.Strength
		b.BoardSag = geodata.Estimate{Value: c.Boards.SagFinal, Low: c.Boards.SagFirst, High: c.Boards.SagFinal}.Times(1000)
		b.Digging = 1000 * c.SlotVolume(d.bed.Length, d.bed.Width)
	}
	return b
}

// describeFrame repeats the figures of boards and pegs that people ask for
// first. A bed without boards has boards of no height and no pegs.
func describeFrame(b *Bed, d decision) {
	c := d.chosen
	var up, down, sunken geodata.Estimate
	p := Pegs{Positions: d.pegs}
	if c.Boards != nil {
		up, down = d.boardUphill().Times(1000), d.boardDownhill().Times(1000)
		sunken = geodata.Exactly(c.Boards.Sunken * 1000)
	}
	if c.Pegs != nil {
		p = Pegs{
			Count: c.Pegs.Count, Spacing: c.Pegs.Spacing * 1000,
			Embedment:    c.Pegs.Embedment.Times(1000),
			Length:       math.Max(c.Pegs.LengthDownhill, c.Pegs.LengthUphill) * 1000,
			Size:         c.Pegs.Size * 1000,
			FactorWinter: c.Pegs.FactorWinter, FactorDrained: c.Pegs.FactorDrained, FactorBlocked: c.Pegs.FactorBlocked,
			Point: frame.PointAllowance * 1000, Life: &c.Pegs.Life, CodeDepth: c.Pegs.CodeDepth * 1000,
			Positions: d.pegs,
		}
	}
	b.BoardHeightUphill, b.BoardHeightDownhill, b.SunkenDepth, b.Pegs = &up, &down, &sunken, &p
}
