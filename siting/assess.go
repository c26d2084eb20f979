// Package siting settles where beds can go on a plot and how each must be
// edged: one function, Assess, composes what the ground, the rain, the frame
// and the cautions say into one Assessment with its working.
package siting

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/siting/caution"
	"crossfall/siting/frame"
	"crossfall/siting/rain"
	"crossfall/siting/takeoff"
	"crossfall/terrain"
	"crossfall/terrain/surface"
)

// Options steer an assessment. The zero value takes the defaults.
type Options struct {
	// Progress is told of each stage as it begins; nil for silence. It is
	// called from the calling goroutine only.
	Progress func(stage string, done, total int64)
	// Readings is how many next heights are planned together as one walk, at most
	// 5. Default 0: only the one that does most is named, which is quicker.
	Readings int
	// Memory, where set, keeps what does not depend on where beds are drawn for
	// the next assessment of the same plot.
	Memory *Memory
	// Storm is the storm kept beside the plot; nil: not run. While it is current
	// it may raise the class of an edge.
	Storm *Storm
	// Units are those in which the heights of contours are to be round. Default:
	// those of the plot.
	Units geodata.Units
	// Breach lets the water of hollows out by trenches through their sills before
	// it is followed to where it leaves the plot. Default: they fill and run over.
	Breach bool
}

// stages of an assessment, in order.
var stages = []string{"ground", "water", "beds", "quantities"}

// Assess works out the whole answer for a plot. Input that cannot be assessed
// comes back as geodata.Faults; a cancelled context as its error. The same plot
// gives the same Assessment.
func Assess(ctx context.Context, p *geodata.Plot, opt Options) (*Assessment, error) {
	tell := func(i int) {
		if opt.Progress != nil {
			opt.Progress(stages[i], int64(i), int64(len(stages)))
		}
	}
	brief, faults := settle(p)
	if err := faults.Err(); err != nil {
		return nil, err
	}
	tell(0)
	k, err := opt.Memory.recall(ctx, p, brief, tell)
	if err != nil {
		return nil, err
	}
	fit, relief, winter, bursts, burst, j := k.fit, k.relief, k.winter, k.bursts, k.burst(), k.judge
	j.plot, j.brief = p, brief // of this drawing and this number of beds
	tell(2)
	decided, found, err := j.place(ctx)
	if err != nil {
		return nil, err
	}
	j.raise(decided, opt.Storm)
	j.reach(decided)
	tell(3)
	a := &Assessment{
		SchemaVersion: SchemaVersion, Name: p.Name, Frame: frameOf(p),
		Ground: describeGround(p, fit, brief, relief), Water: describeWater(p, winter, burst),
		Beds: make([]Bed, len(decided)), Features: drawnFeatures(p), Findings: p.Notes,
		Assumptions: append(append([]Assumption{}, brief.Assumptions...), assumedRain(winter, burst)...),
	}
	a.Ground.contour(relief, fit, brief.Precision, cmp.Or(opt.Units, geodata.Units(p.Site.Units)))
	if a.Water.Storm = opt.Storm.State(p); a.Water.Storm == StormCurrent {
		a.Water.Played = opt.Storm
	}
	a.Water.Storms, a.Water.Days = j.describeStorms(bursts), k.days
	a.Water.YearlyLoss, a.Water.LossNote = j.yearlyLoss()
	a.Water.Inflow, a.Water.Outflow = j.inflows(), j.outflows(relief.grid, opt.Breach)
	a.Light = k.light.said
	a.Water.Paths, a.Water.PathsWithBeds = j.runoffPaths(decided)
	frames := turning(decided)
	err = shareOut(ctx, len(decided), func(i int) {
		b := &a.Beds[i]
		*b = describeBed(j, decided[i])
		b.Water = j.bedWater(decided[i], bursts, frames)
		b.Light = k.light.light(decided[i])
		b.Access = j.bedAccess(decided[i])
		if m, ok := j.marksOf(decided[i].bed); ok {
			total := m.total()
			b.Marks = &total
		}
		b.compare(j, decided[i])
	})
	if err != nil {
		return nil, err
	}
	if a.Layout, err = j.layout(ctx, found, decided); err != nil {
		return nil, err
	}
	if a.Layout != nil {
		a.Assumptions = append(a.Assumptions, j.brief.assumedMarks()...)
	}
	a.Carrying = j.describeCarrying(a.Beds)
	a.Assumptions = append(a.Assumptions, j.assumedStart()...)
	if a.ToCome, err = j.toCome(ctx, k.light, a.Beds, decided); err != nil {
		return nil, err
	}
	a.Assumptions = append(a.Assumptions, assumedToCome(p)...)
	a.Water.Places = slices.Clone(k.places)
	placeNotes(a.Water.Places, relief.grid, a.Beds, decided)
	a.Water.Drains = append(j.drains(decided, burst), j.trenches(relief.grid, decided)...)
	a.heedChannels(decided)
	a.Water.Advice = j.advise(a, decided)
	if err := a.chances(ctx, j, k, decided); err != nil {
		return nil, err
	}
	a.Ground.NextHeight, a.Ground.NextHeightAt = nextHeight(p, fit, decided, !a.Ground.Determined && a.Ground.FallPercent.High >= terrain.LevelPercent)
	a.Ground.NextHeights = nextHeights(p, fit, decided, opt.Readings)
	a.OrderOfWork = j.orderOfWork(a, decided)
	if err := a.count(j, decided); err != nil {
		return nil, err
	}
	a.caution(j, decided)
	a.tellFindings(j, found, burst, decided)
	a.work(j, decided)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return a, nil
}

// newJudge gathers what every bed is judged by.
func newJudge(p *geodata.Plot, b Brief, fit *surface.Fit, burst rain.Burst, r reliefOf) judge {
	_, _, general := surface.FallInterval(fit.Plane.Gradient, fit.Plane.Covariance, fit.Plane.Quantile)
	cap, _ := caution.DepthCap(p)
	j := judge{plot: p, brief: b, fit: fit, general: general, rate: burst.Rate, cap: cap}
	bound := p.Boundary.Bound()
	cell := math.Max(slopeCell, math.Max(bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1])/100)
	j.field = terrain.NewSlopeField(bound.Pad(cell), cell, fit.GradientAt)
	j.above, j.aboveExtent = withHillside(p, j.field)
	j.quick, j.surveyed = j.lattices(), new(surveyed)
	j.gather = j.gathered()
	for i, h := range r.hollows {
		j.ponds = append(j.ponds, caution.Hollow{
			Name: fmt.Sprintf("hollow %d", i+1), Shape: h.Outline, At: h.Deepest, Depth: h.Depth,
		})
	}
	j.access = j.newAccess()
	return j
}

// place works out the beds drawn by hand and those wished for.
func (j judge) place(ctx context.Context) ([]decision, found, error) {
	beds := drawnBeds(j.plot)
	drawn := make([]decision, len(beds))
	err := shareOut(ctx, len(beds), func(i int) {
		if why := misplaced(j.plot, beds[i], beds[:i]); why != "" {
			drawn[i] = j.decide(beds[i], why)
			return
		}
		drawn[i] = j.settle(beds[i])
	})
	if err != nil {
		return nil, found{}, err
	}
	return j.arrange(ctx, drawn)
}

// groundFault tells a grower why no surface could be fitted.
func groundFault(p *geodata.Plot, err error) error {
	f := geodata.Fault{Code: "ground-not-fitted", Pos: geodata.Pos{File: "heights"}, Message: err.Error()}
	if len(p.Spots) > 0 {
		f.Pos = geodata.Pos{File: p.Spots[0].Source.File}
	}
	switch {
	case errors.Is(err, surface.ErrTooFewHeights) && p.Site.Ground.Surface != "":
		f.Code, f.Want = "heights-too-few", "leave ground.surface out of site.toml, or give more heights"
	case errors.Is(err, surface.ErrTooFewHeights):
		f.Code, f.Want = "heights-too-few", "give at least three heights, better nine or more spread over the plot"
	case errors.Is(err, surface.ErrHeightsInLine):
		f.Code, f.Want = "heights-in-line", "add heights well to one side of the line"
	}
	return geodata.Faults{f}
}

// count makes the buying list and the taping sheet of the beds that may be built.
func (a *Assessment) count(j judge, decided []decision) error {
	p, b := j.plot, j.brief
	var inputs []takeoff.BedInput
	for _, d := range decided {
		if d.chosen.Class == frame.DoNotBuild {
			continue
		}
		item := takeoffInput(d)
		item.Density = b.density()
		item.Cardboard, item.Cover = a.OrderOfWork.Layers(d.bed.Name)
		if rise, _, ok := d.rise(); ok {
			item.Way = &rise
		}
		inputs = append(inputs, item)
	}
	list, said, err := takeoff.Count(inputs, b.offered(p.Site))
	if err != nil {
		return boardFault(err)
	}
	a.Quantities = list
	a.Quantities.Notes = append([]string{}, said...)
	a.SettingOut = j.setOut(decided)
	return nil
}

// boardFault tells that the boards on sale cannot make the beds.
func boardFault(err error) error {
	all := []error{err}
	for i := 0; i < len(all); { // errors joined to errors joined
		if j, ok := all[i].(interface{ Unwrap() []error }); ok {
			all = slices.Replace(all, i, i+1, j.Unwrap()...)
			continue
		}
		i++
	}
	var faults geodata.Faults
	for _, e := range all {
		faults.Add(geodata.Fault{
			Code: "boards-too-short", Pos: geodata.Pos{File: "site.toml"}, Message: e.Error(),
			Want: "name longer or higher boards under boards.lengths_m and boards.heights_mm, or wish for smaller beds: " +
				"long sides are joined only over their pegs, because a joint opens where none stands behind it, and ends and cross boards are cut from one board",
		})
	}
	return faults
}

// takeoffInput is one bed as it will be built.
func takeoffInput(d decision) takeoff.BedInput {
	c := d.chosen
	in := takeoff.BedInput{
		Name: d.bed.Name, Length: d.bed.Length, Width: d.bed.Width, Volume: d.compost(),
		BaysAcross: c.BaysAcross, BaysAlong: c.BaysAlong, FallGradient: d.ground.Slope.Value,
	}
	if c.Boards != nil {
		in.BoardUphill, in.BoardDownhill = c.Boards.Uphill.Bought*1000, c.Boards.Downhill.Bought*1000
		in.CoursesUphill, in.CoursesDownhill = scaled(c.Boards.Uphill.Stack, 1000), scaled(c.Boards.Downhill.Stack, 1000)
		in.Thickness, in.BoardLife = c.Boards.Thickness*1000, c.Boards.Life
		in.CrossBoards = c.Boards.CrossBoards + max(0, c.BaysAcross-1)
	}
	if c.Pegs != nil {
		in.Pegs, in.PegSize, in.PegLife = c.Pegs.Count, c.Pegs.Size*1000, c.Pegs.Life
		in.PegLength = math.Max(c.Pegs.LengthDownhill, c.Pegs.LengthUphill) * 1000
		for _, x := range spread(d.bed.Length, c.Pegs.PerSide) {
			in.PegsAlong = append(in.PegsAlong, x+d.bed.Length/2)
		}
	}
	return in
}

// caution gathers the cautions of every bed and of the whole plot.
func (a *Assessment) caution(j judge, decided []decision) {
	all := []caution.Caution{}
	for _, d := range decided {
		all = append(all, d.cautions...)
	}
	all = append(all, caution.Unlocated(j.plot)...)
	all = append(all, j.weedCautions()...)
	all = append(all, caution.Ponding(j.ponds, nil)...)
	all = append(all, caution.General(conditions(a, j, decided))...)
	acknowledged, faults := caution.Acknowledge(all, j.plot.Site.Acknowledged)
	a.Cautions = acknowledged
	a.Findings = append(a.Findings, faults...)
	caution.Defer(a.Cautions)
	caution.Sort(a.Cautions)
}

// conditions says which cautions of the whole plot apply.
func conditions(a *Assessment, j judge, decided []decision) caution.Conditions {
	c := caution.Conditions{Country: j.plot.Site.Place.Country, Slope: a.Ground.GreatestFall.Percent.Value / 100}
	if a.Quantities.Push != nil {
		c.Push, c.PushOn = a.Quantities.Push.Value, a.Quantities.PushOn
	}
	for _, d := range a.Water.Drains {
		c.Digging = c.Digging || len(d.Points) > 0
	}
	for _, d := range decided {
		if d.chosen.Class == frame.DoNotBuild {
			continue
		}
		c.Compost = true
		if _, length, ok := d.rise(); ok {
			c.Way = math.Max(c.Way, length)
		}
		c.Boards = c.Boards || d.chosen.Boards != nil
		c.Digging = c.Digging || d.chosen.Pegs != nil
		c.Channel = c.Channel || d.chosen.Channel != ""
	}
	return c
}

// assumedRain names what was taken of rain because nothing was said.
func assumedRain(winter *rain.Winter, burst rain.Burst) []Assumption {
	var out []Assumption
	if burst.Default {
		out = append(out, Assumption{
			What:  "rain of 15 minutes met once in 10 years on average",
			Value: fmt.Sprintf("%.0f mm/h: %s", burst.Rate.Value, burst.Source),
			Set:   "site.toml: rain.m5_60_mm and rain.ratio_r, or depths for short durations in rain.csv",
		})
	}
	switch {
	case winter == nil:
		out = append(out, Assumption{
			What: "winter rain", Value: "not said: no total is given",
			Set: "rain.csv with twelve monthly means, or site.toml: rain.winter_half_mm",
		})
	case winter.Assumed:
		out = append(out, Assumption{What: "wet half-year", Value: winter.Months, Set: "site.toml: place.latitude"})
	}
	return out
}

// tellFindings adds what the work itself found worth telling.
func (a *Assessment) tellFindings(j judge, found found, burst rain.Burst, decided []decision) {
	note := func(severity geodata.Severity, code, text string) {
		a.Findings = append(a.Findings, geodata.Fault{Code: code, Severity: severity, Pos: geodata.Pos{File: "site.toml"}, Message: text})
	}
	if found.Short != "" {
		note(geodata.Warning, "beds-do-not-fit", found.Short)
	}
	a.Findings = append(a.Findings, j.brief.weedsOfNoBed(a.Beds)...)
	for _, t := range outOfReach(a.Beds) {
		note(geodata.Warning, "bed-out-of-reach", t)
	}
	for _, n := range burst.Notes {
		note(geodata.Note, "rain", n)
	}
	for _, d := range decided {
		if d.runOn.edge && d.runOn.length.Value > 0 {
			if j.plot.Hillside != nil {
				break
			}
			note(geodata.Note, "run-on-from-outside", "the ground still rises at the edge of the survey above some beds: "+
				"water from beyond it is counted only as far as ground.uphill_length_m says")
			break
		}
	}
	if a.Findings == nil {
		a.Findings = geodata.Faults{}
	}
}

// work records how the figures were come by.
func (a *Assessment) work(j judge, decided []decision) {
	var l ledger
	l.ground(j.plot, j.fit, a.Ground)
	l.water(j.plot, a.Water)
	l.storms(j, a.Water)
	l.toCome(j.plot, a.Light, a.ToCome)
	l.orderOfWork(j, a.OrderOfWork)
	l.buying(j, a.Quantities)
	for i, d := range decided {
		l.bed(j, d, a.Beds[i])
		l.bedWater(bedID(d.bed.Name), j, d, a.Beds[i].Water)
		l.bedLight(bedID(d.bed.Name), a.Light, a.Beds[i].Light)
		l.access(bedID(d.bed.Name), j, a.Beds[i].Access)
		l.marks(bedID(d.bed.Name), j, d, a.Beds[i])
	}
	l.carrying(a.Carrying)
	l.layout(a.Layout)
	l.setOut(a.SettingOut)
	a.Working = l.entries
}

// StandingStops counts the stop cautions that nobody has acknowledged.
func (a *Assessment) StandingStops() int {
	n := 0
	for _, c := range a.Cautions {
		if c.Severity == caution.Stop && c.AcknowledgedBy == "" {
			n++
		}
	}
	return n
}
