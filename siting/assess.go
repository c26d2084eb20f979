// Package siting settles where beds can go on a plot and how each must be
// edged: one function, Assess, composes what the ground, the rain, the frame
// and the cautions say into one Assessment with its working.
package siting

import (
	"cmp"
	"context"
	"slices"

	"crossfall/geodata"
	"crossfall/siting/caution"
	"crossfall/terrain"
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
	j := k.judge
	j.plot, j.brief = p, brief // of this drawing and this number of beds
	tell(2)
	decided, found, err := j.place(ctx)
	if err != nil {
		return nil, err
	}
	j.raise(decided, opt.Storm)
	j.reach(decided)
	tell(3)
	a := newAssessment(j, k, opt)
	a.followWater(j, k, decided, opt)
	if err := a.describeBeds(ctx, j, k, decided); err != nil {
		return nil, err
	}
	if err := a.describeLayout(ctx, j, k, found, decided); err != nil {
		return nil, err
	}
	a.lead(j, k, decided)
	if err := a.chances(ctx, j, k, decided); err != nil {
		return nil, err
	}
	a.planReadings(j, decided, opt.Readings)
	a.OrderOfWork = j.orderOfWork(a, decided)
	if err := a.count(j, decided); err != nil {
		return nil, err
	}
	a.caution(j, decided)
	a.tellFindings(j, found, k.burst(), decided)
	a.work(j, decided)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return a, nil
}

// newAssessment is what is known before any bed: the ground, the rain, the sun
// and what is drawn.
func newAssessment(j judge, k *known, opt Options) *Assessment {
	p := j.plot
	a := &Assessment{
		SchemaVersion: SchemaVersion, Name: p.Name, Frame: frameOf(p),
		Ground: describeGround(p, k.fit, j.brief, k.relief), Water: describeWater(p, k.winter, k.burst()),
		Features: drawnFeatures(p), Findings: p.Notes,
		Assumptions: append(append([]Assumption{}, j.brief.Assumptions...), assumedRain(k.winter, k.burst())...),
	}
	a.Ground.contour(k.relief, k.fit, j.brief.Precision, cmp.Or(opt.Units, geodata.Units(p.Site.Units)))
	if a.Water.Storm = opt.Storm.State(p); a.Water.Storm == StormCurrent {
		a.Water.Played = opt.Storm
	}
	a.Light = k.light.said
	return a
}

// followWater says what winter rain does on the plot.
func (a *Assessment) followWater(j judge, k *known, decided []decision, opt Options) {
	a.Water.Storms, a.Water.Days = j.describeStorms(k.bursts), k.days
	a.Water.YearlyLoss, a.Water.LossNote = j.yearlyLoss()
	a.Water.Inflow, a.Water.Outflow = j.inflows(), j.outflows(k.relief.grid, opt.Breach)
	a.Water.Paths, a.Water.PathsWithBeds = j.runoffPaths(decided)
}

// describeBeds says all that concerns one bed by itself.
func (a *Assessment) describeBeds(ctx context.Context, j judge, k *known, decided []decision) error {
	a.Beds = make([]Bed, len(decided))
	frames := turning(decided)
	return shareOut(ctx, len(decided), func(i int) {
		b := &a.Beds[i]
		*b = describeBed(j, decided[i])
		b.Water = j.bedWater(decided[i], k.bursts, frames)
		b.Light = k.light.light(decided[i])
		b.Access = j.bedAccess(decided[i])
		if m, ok := j.marksOf(decided[i].bed); ok {
			total := m.total()
			b.Marks = &total
		}
		b.compare(j, decided[i])
	})
}

// describeLayout says how the beds lie together, how compost comes to them, and
// where something tall may come.
func (a *Assessment) describeLayout(ctx context.Context, j judge, k *known, found found, decided []decision) (err error) {
	if a.Layout, err = j.layout(ctx, found, decided); err != nil {
		return err
	}
	if a.Layout != nil {
		a.Assumptions = append(a.Assumptions, j.brief.assumedMarks()...)
	}
	a.Carrying = j.describeCarrying(a.Beds)
	a.Assumptions = append(a.Assumptions, j.assumedStart()...)
	if a.ToCome, err = j.toCome(ctx, k.light, a.Beds, decided); err != nil {
		return err
	}
	a.Assumptions = append(a.Assumptions, assumedToCome(j.plot)...)
	return nil
}

// lead says where water stays and what to do about it.
func (a *Assessment) lead(j judge, k *known, decided []decision) {
	a.Water.Places = slices.Clone(k.places)
	placeNotes(a.Water.Places, k.relief.grid, a.Beds, decided)
	a.Water.Drains = append(j.drains(decided, k.burst()), j.trenches(k.relief.grid, decided)...)
	a.heedChannels(decided)
	a.Water.Advice = j.advise(a, decided)
}

// planReadings names the heights most worth taking next.
func (a *Assessment) planReadings(j judge, decided []decision, readings int) {
	groundOpen := !a.Ground.Determined && a.Ground.FallPercent.High >= terrain.LevelPercent
	a.Ground.NextHeight, a.Ground.NextHeightAt = nextHeight(j.plot, j.fit, decided, groundOpen)
	a.Ground.NextHeights = nextHeights(j.plot, j.fit, decided, readings)
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
