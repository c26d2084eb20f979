package siting

import (
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/siting/frame"
	"crossfall/siting/rain"
	"crossfall/siting/soil"
	"crossfall/terrain/drainage"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Drain is a work that leads water away: a cut-off channel above a bed, a
// soakaway for what channels bring, or a trench through the sill of a hollow.
type Drain struct {
	Kind   string            `json:"kind"` // CutOffChannel, Soakaway or DrainTrench
	Bed    string            `json:"bed,omitempty"`
	Said   string            `json:"said"`
	Points []orb.Point       `json:"points"` // channel, trench: along it, from its upper end; soakaway: its middle
	Flow   *geodata.Estimate `json:"flow_litres_per_s"`
	Depth  float64           `json:"depth_mm"`
	Width  float64           `json:"width_mm"`
	Length float64           `json:"length_m"`
	Why    string            `json:"why,omitempty"` // why there is none, where one is wanted
	Notes  []string          `json:"notes"`
}

// The kinds of drain.
const (
	CutOffChannel = "cut-off channel"
	Soakaway      = "soakaway"
	DrainTrench   = "trench"
)

const (
	// channelOff is how far above a bed the middle of a channel runs at the least,
	// channelBank how much ground is left uncut between the two, and channelPast how
	// far past the low end it goes on; defaults of ours.
	channelOff  = 0.6 // m
	channelBank = 0.3
	channelPast = 1.0
	// channelFall is the fall a channel is laid to (common practice, no source).
	channelFall = 0.01
	// A soakaway keeps 5 m from buildings (Approved Document H, 2015, from memory),
	// 2.5 m from the boundary (common practice), and 2 m from beds.
	soakBuilding = 5.0
	soakBoundary = 2.5
	soakBed      = 2.0
)

// drains sizes a channel above every bed whose water is to be led round it, and
// a soakaway for what the channels bring in the rain met once in ten years. The
// soakaway is sized for the high end of the runoff coefficient.
func (j judge) drains(decided []decision, b rain.Burst) []Drain {
	out := []Drain{}
	area := 0.0
	for _, d := range decided {
		if !j.wantsChannel(d) {
			continue
		}
		c := j.channel(d, b, decided)
		out = append(out, c)
		if len(c.Points) > 0 {
			area += d.runOn.width * d.runOn.length.Value * d.runOn.flow.Coefficient.High
		}
	}
	if area > 0 {
		out = append(out, j.soakaway(area, b, decided))
	}
	return out
}

// wantsChannel is true for a bed that its frame asks to have the water led round,
// and for one whose upper edge is not let in and likely loses loose compost.
func (j judge) wantsChannel(d decision) bool {
	switch {
	case d.stopped || d.chosen.Class == frame.DoNotBuild:
		return false
	case d.chosen.Class == frame.OpenEdged || d.chosen.Class == frame.Boarded:
		return d.chosen.Channel != "" || d.runOn.flow.OnLoose(d.ground.Slope).Value > soil.MovingPull
	}
	return d.chosen.Channel != ""
}

// heedChannels puts first among what to heed at a bed that water is to be led
// round it, and by which channel, or why there is no place for one.
func (a *Assessment) heedChannels(decided []decision) {
	for i, d := range decided {
		build := a.Beds[i].Build
		k := slices.IndexFunc(a.Water.Drains, func(w Drain) bool { return w.Kind == CutOffChannel && w.Bed == d.bed.Name })
		if build == nil || d.chosen.Channel == "" || k < 0 {
			continue
		}
		note := d.chosen.Channel + ": lead it round in the grassed channel above, whose place and size stand under winter water (crossfall runoff), to one end of the bed and never to its middle"
		if why := a.Water.Drains[k].Why; why != "" {
			note = d.chosen.Channel + ", and no cut-off channel can be given that leads it round: " + why
		}
		build.Notes = slices.Insert(build.Notes, 0, note)
	}
}

// gatheredFlow is the flow to a bed's upper edge, L/s, in rain that lasts as long
// as the slope above takes to gather it, never under 5 minutes, and how long that
// is, min. It is no less than in the burst that edges are judged by.
func (j judge) gatheredFlow(d decision, b rain.Burst) (flow geodata.Estimate, minutes float64) {
	flow, minutes = d.runOn.flow.Flow, b.Minutes
	t, err := soil.Concentration(d.runOn.length.Value, d.ground.Slope.Value, b.Rate.Value, j.brief.Cover)
	if err != nil || t.Value >= b.Minutes*60 {
		return flow, minutes
	}
	shorter, err := b.In(t.Value / 60)
	if err != nil {
		return flow, minutes
	}
	return soil.RunOnTo(j.slopeAbove(d, shorter.Rate)).Flow, t.Value / 60
}

// channelLine is where a channel above a bed begins and ends: along the long side
// that lies uphill, from the high end to past the low one, or where the long side
// runs down the fall along the high end, to past the downhill side. off is how far
// above the bed it lies, m.
func channelLine(d decision, off float64) (from, to orb.Point) {
	low := 1.0
	if !d.ground.LowEndRight {
		low = -1
	}
	if d.ground.Along.Value > d.ground.Across.Value {
		above := -low * (d.bed.Length/2 + off)
		return d.bed.Place(d.ground.Axes, above, d.bed.Width/2), d.bed.Place(d.ground.Axes, above, -d.bed.Width/2-channelPast)
	}
	above := d.bed.Width/2 + off
	return d.bed.Place(d.ground.Axes, -low*d.bed.Length/2, above), d.bed.Place(d.ground.Axes, low*(d.bed.Length/2+channelPast), above)
}

// channel is the cut-off channel above one bed.
func (j judge) channel(d decision, b rain.Burst, decided []decision) Drain {
	flow, minutes := j.gatheredFlow(d, b)
	out := Drain{Kind: CutOffChannel, Bed: d.bed.Name, Flow: &flow, Notes: []string{}, Points: []orb.Point{}}
	c, err := soil.SizeChannel(flow, channelFall)
	if err != nil {
		out.Why = "too much water runs on to it for a garden channel: ask for advice"
		return out
	}
	off := math.Max(channelOff, c.Width/2+channelBank)
	from, to := channelLine(d, off)
	if !planar.PolygonContains(j.plot.Boundary, from) || !planar.PolygonContains(j.plot.Boundary, to) {
		out.Why = fmt.Sprintf("there is no room on the plot for one, %.1f m above the bed and %.0f m past its low end: move the bed down the slope", off, channelPast)
		return out
	}
	if why := j.digStop("the cut-off channel", orb.LineString{from, to}, c.Width, decided); why != "" {
		out.Why = why
		return out
	}
	out.Points = []orb.Point{from, to}
	out.Depth, out.Width, out.Length = c.Depth*1000, c.Width*1000, planar.Distance(from, to)
	out.Notes = append(out.Notes, c.Notes...)
	out.Said = fmt.Sprintf("a grassed V, %.0f mm deep and %.0f mm wide at the top, %.1f m long, falling 1 %%, carries the %.2g litres a second (%.2g to %.2g) of %.0f minutes of rain met once in 10 years with 100 mm to spare; from %s to %s, %s",
		out.Depth, out.Width, out.Length, flow.Value, flow.Low, flow.High, minutes, placeSaid(from), placeSaid(to), j.outletSaid(to))
	return out
}

// outletSaid says where the water of a channel goes on, which must not be on to
// a neighbour or a bed.
func (j judge) outletSaid(at orb.Point) string {
	path := drainage.Downhill(j.field, at, j.pathOptions())
	last := path.Points[len(path.Points)-1]
	if path.End == drainage.LeavesPlot {
		return fmt.Sprintf("and let out on to grass there; its water then leaves by the %s, so lead it to a soakaway or spread it on your own land first, never on to a neighbour", j.edgeSaid(last))
	}
	return "and let out on to grass there"
}

// soakaway is a trench for the water of a drained area, m2, at the lowest place
// that keeps its distances and does not drain on to a bed.
func (j judge) soakaway(area float64, b rain.Burst, decided []decision) Drain {
	out := Drain{Kind: Soakaway, Notes: []string{}, Points: []orb.Point{}}
	if j.brief.SoakDesign <= 0 {
		out.Why = "how fast the ground soaks is not known, or it hardly does: dig a test pit and write ground.test_pit in site.toml; clay takes no soakaway"
		return out
	}
	depth := func(minutes float64) (float64, bool) {
		e, err := b.DepthIn(minutes)
		return e.High, err == nil
	}
	pit, duty, err := soil.SizeSoakaway(area, j.brief.SoakDesign, depth)
	if err != nil {
		out.Why = "no trench of a garden's size takes this water (" + j.brief.SoaksSaid + "): spread it over grass, or ask for advice"
		return out
	}
	at, ok := j.soakPlace(decided)
	if !ok {
		out.Why = "no place on the plot lies 5 m from buildings, 2.5 m from the boundary and 2 m from beds without draining on to a bed"
		return out
	}
	out.Points = []orb.Point{at}
	out.Depth, out.Width, out.Length = pit.Depth*1000, pit.Width*1000, pit.Length
	out.Said = fmt.Sprintf("a rubble trench %.1f m long, %.1f m wide and %.1f m deep under its inlet stores %.2f m³ of the %.2f m³ that %.0f minutes of rain bring, and is half empty after %.1f hours; about %s",
		pit.Length, pit.Width, pit.Depth, duty.Storage, duty.Inflow, duty.Minutes, duty.HalfEmpty, placeSaid(at))
	out.Notes = append(out.Notes, j.brief.SoaksSaid,
		"never above a retaining edge or a neighbour's wall, in unstable ground, or where the water table reaches its base (BRE Digest 365, 2016)")
	return out
}

// soakPlace is the lowest place of the plot for a soakaway.
func (j judge) soakPlace(decided []decision) (at orb.Point, ok bool) {
	lowest := math.Inf(1)
	bound := j.plot.Boundary.Bound()
	const step = 0.5
	for y := bound.Min[1]; y <= bound.Max[1]; y += step {
		for x := bound.Min[0]; x <= bound.Max[0]; x += step {
			q := orb.Point{x, y}
			z, known := j.fit.HeightAt(q)
			if !known || z >= lowest || !j.soaksAt(q, decided) {
				continue
			}
			lowest, at, ok = z, q, true
		}
	}
	return at, ok
}

// soaksAt tells whether a place keeps the distances of a soakaway.
func (j judge) soaksAt(q orb.Point, decided []decision) bool {
	if !planar.PolygonContains(j.plot.Boundary, q) || planar.DistanceFrom(j.plot.Boundary, q) < soakBoundary {
		return false
	}
	for _, f := range j.plot.OfKind(geodata.ObstacleKind) {
		if (f.What == "shed" || f.What == "polytunnel" || f.What == "wall") && distanceTo(f.Shape, q) < soakBuilding {
			return false
		}
	}
	for _, d := range decided {
		if distanceTo(d.bed.Footprint(), q) < soakBed {
			return false
		}
	}
	if j.digStop("the soakaway", q, 0, nil) != "" {
		return false
	}
	return len(bedsMet(drainage.Downhill(j.field, q, j.pathOptions()).Points, decided)) == 0
}
