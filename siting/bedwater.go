package siting

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/frame"
	"crossfall/siting/rain"
	"crossfall/siting/soil"
	"crossfall/terrain/drainage"

	"github.com/paulmach/orb"
)

// bedWater works what winter rain does at one bed: over the ground as it is,
// and with the framed beds above it built.
func (j judge) bedWater(d decision, bursts [3]rain.Burst, frames []turningFrame) *BedWater {
	if d.chosen.Class == frame.DoNotBuild {
		return nil
	}
	outline := d.bed.Outline(d.ground.Axes)
	w := &BedWater{Area: j.drainingArea(d, outline), RunOnWithBeds: j.runOnBelow(d, outline, frames), Edge: []EdgeWater{}, AtRisk: []AtRisk{}}
	for _, b := range bursts {
		w.Edge = append(w.Edge, j.edgeWater(d, b))
	}
	if e, ok := soil.MovingLength(j.rate, d.runOn.flow.Coefficient, d.ground.Slope); ok {
		w.MovesFrom = &e
	}
	for _, r := range j.risks(d) {
		w.AtRisk = append(w.AtRisk, AtRisk{
			Edge: string(r.Way), Lost: r.Lost, Litres: r.Litres, Share: r.Share.Times(100), Because: r.Because,
		})
	}
	return w
}

// edgeWater is the sheet that one storm sends to the bed's upper edge, over the
// ground as it is.
func (j judge) edgeWater(d decision, b rain.Burst) EdgeWater {
	f := soil.RunOnTo(j.slopeAbove(d, b.Rate))
	pull := f.OnLoose(d.ground.Slope)
	return EdgeWater{
		ReturnYears: b.ReturnYears, Flow: f.Flow, Depth: f.Depth.Times(1000), Speed: f.Speed, Shear: f.Shear,
		Pull: pull, Moves: moves(pull),
	}
}

// slopeAbove is the slope that drains to a bed's upper edge in rain of a rate, mm/h.
func (j judge) slopeAbove(d decision, rate geodata.Estimate) soil.RunOnInput {
	return soil.RunOnInput{
		Rate: rate, Length: d.runOn.length, Slope: d.ground.Slope, EdgeLength: d.runOn.width,
		Cover: j.brief.Cover, Ground: j.brief.Ground,
	}
}

// moves says what a pull does to loose compost.
func moves(pull geodata.Estimate) string {
	switch {
	case pull.Low >= soil.MovingPull:
		return Moves
	case pull.Value >= soil.MovingPull:
		return LikelyMoves
	case pull.High >= soil.MovingPull:
		return MayMove
	}
	return LiesStill
}

// runOnBelow is the slope above a bed that still drains on to it with the other
// framed beds built, each of which turns away the water that meets it.
func (j judge) runOnBelow(d decision, outline orb.Polygon, frames []turningFrame) geodata.Estimate {
	var others []turningFrame
	for _, f := range frames {
		if f.name != d.bed.Name {
			others = append(others, f)
		}
	}
	if len(others) == 0 {
		return d.runOn.length
	}
	above := j.surveyed.among.of(outline[0], others, func(enters func(orb.Point) bool) drainage.RunOn {
		return drainage.RunOnLength(j.above, outline[0], j.aboveExtent, drainage.Options{Enters: enters})
	})
	e := geodata.Estimate{Value: above.Mean, Low: above.Mean, High: math.Max(above.Mean, above.Longest)}
	if above.RisesAtEdge {
		e.Value, e.Low, e.High = e.Value+j.brief.UphillLength, e.Low+j.brief.UphillLength, e.High+j.brief.UphillLength
	}
	return e
}

// drainingArea is the ground that drains on to a bed: in the plot, on the
// hillside where one was given, and as assumed beyond both.
func (j judge) drainingArea(d decision, outline orb.Polygon) DrainingArea {
	near := j.surveyed.catchment.of(outline[0], func() drainage.RunOnArea {
		return drainage.Catchment(j.field, outline, j.plot.Boundary, drainage.Options{})
	})
	a := DrainingArea{InPlot: areaBand(near.Area, near.Unclear), RisesOver: near.RisesAtEdge}
	for _, p := range near.Outline {
		a.Outline = append(a.Outline, thinned(p[0], 0.5))
	}
	if j.plot.Hillside != nil {
		all := drainage.Catchment(j.above, outline, j.aboveExtent, drainage.Options{})
		a.Hillside = areaBand(math.Max(0, all.Area-near.Area), all.Unclear)
		a.RisesOver = all.RisesAtEdge
	}
	if a.RisesOver {
		beyond := j.brief.UphillLength * d.bed.Length
		a.Outside = geodata.Estimate{Value: beyond, Low: 0, High: 2 * beyond}
	}
	a.Said = a.said(j)
	return a
}

// areaBand is an area with the share of the bed's outline of which the fall is
// not clear taken off it and laid on.
func areaBand(area, unclear float64) geodata.Estimate {
	return geodata.Estimate{Value: area, Low: area * (1 - unclear), High: area * (1 + unclear)}
}

// said tells a draining area in words.
func (a DrainingArea) said(j judge) string {
	if a.InPlot.Value+a.Hillside.Value+a.Outside.Value < 0.05 {
		return "none of the ground surveyed drains on to it"
	}
	t := fmt.Sprintf("%.1f m² in the plot", a.InPlot.Value)
	if j.plot.Hillside != nil {
		t += fmt.Sprintf(" and %.0f m² of the hillside", a.Hillside.Value)
	}
	switch {
	case a.RisesOver && a.Outside.Value > 0:
		t += fmt.Sprintf("; the ground goes on rising beyond what was surveyed, and %.0f m² there are assumed", a.Outside.Value)
	case a.RisesOver:
		t += "; the ground goes on rising beyond what was surveyed, and nothing is counted from there, as ground.uphill_length_m is 0"
	}
	return t
}
