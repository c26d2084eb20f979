package siting

import (
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/siting/access"
	"crossfall/siting/bed"
	"crossfall/siting/caution"
	"crossfall/siting/frame"
	"crossfall/siting/soil"
	"crossfall/terrain"
	"crossfall/terrain/drainage"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
)

// decision is one bed with everything worked out about it.
type decision struct {
	bed    bed.Bed
	ground bed.Ground
	runOn  runOn
	// chosen is the design that stands; atValue, atLow and atHigh are those at
	// the fitted fall and at the ends of its band.
	chosen, atValue, atLow, atHigh frame.Design
	firm                           bool
	open                           bool   // the survey cannot tell: decided at the upper limit
	why                            string // why the survey cannot tell
	refused                        string // a reason of the place, not of the ground
	fill                           bed.Fill
	bend                           float64 // see judge.bend
	pegs                           []orb.Point
	way                            *access.Way // nil where no bed is built
	stopped                        bool        // stands under a stop caution
	cautions                       []caution.Caution
	raisedBy                       string  // the storm that made its class graver; empty: none
	stormDepth                     float64 // of water that this storm brings to it, m
}

// runOn is the water that reaches a bed's uphill edge.
type runOn struct {
	length geodata.Estimate // of slope above, m
	width  float64          // of the bed's upslope side, measured across the fall, m
	edge   bool             // the ground still rises at the plot's edge
	flow   soil.RunOn
}

// mildest and gravest are the ends of the range of classes over the fall's band.
func (d decision) mildest() frame.Class {
	return least(d.atLow.Class, d.atValue.Class, d.atHigh.Class)
}

func (d decision) gravest() frame.Class {
	return most(d.atLow.Class, d.atValue.Class, d.atHigh.Class)
}

// spread is how many classes apart the ends of that range are.
func (d decision) spread() int { return d.gravest().Severity() - d.mildest().Severity() }

func least(cs ...frame.Class) frame.Class {
	out := cs[0]
	for _, c := range cs[1:] {
		if c.Severity() < out.Severity() {
			out = c
		}
	}
	return out
}

func most(cs ...frame.Class) frame.Class {
	out := cs[0]
	for _, c := range cs[1:] {
		if c.Severity() > out.Severity() {
			out = c
		}
	}
	return out
}

// judge holds what every bed is judged by.
type judge struct {
	plot  *geodata.Plot
	brief Brief
	fit   *surface.Fit
	// general is the fall of the whole plot at its upper limit, the least that
	// may be assumed where the ground between the heights is not known.
	general     float64
	field       drainage.Field // quick gradients for tracing
	quick       quickGround
	surveyed    *surveyed      // places for beds, found once
	above       drainage.Field // over which water is followed uphill, and how far
	aboveExtent orb.Polygon
	rate        geodata.Estimate
	cap         float64 // embedment allowed, m
	ponds       []caution.Hollow
	access      *access.Ground
	gather      []caution.Runoff // where water runs together
	stormDepth  float64          // that a storm brings to a bed, m; 0: none was played
}

// decide works out one bed. refused is a reason of the place ("" for none).
func (j judge) decide(b bed.Bed, refused string) decision {
	d := decision{bed: b, ground: bed.Under(j.fit, j.fit.Quantile, b), refused: refused}
	d.why = j.cannotTell(d.ground)
	d.open = d.why != ""
	if d.open && (j.fit.Uneven || d.ground.Extrapolated) {
		d.ground = d.ground.AtLeast(j.general)
	}
	d.runOn = j.runOnTo(b, d.ground)
	g := d.ground
	d.bend = j.bend(b, g)
	d.atValue = frame.Decide(j.caseAt(d, g.Slope.Value, g.Across.Value, g.Along.Value))
	d.atLow = frame.Decide(j.caseAt(d, g.Slope.Low, g.Across.Low, g.Along.Low))
	d.atHigh = frame.Decide(j.caseAt(d, g.Slope.High, g.Across.High, g.Along.High))
	d.chosen = d.atValue
	if d.open {
		d.chosen = d.atHigh
	}
	d.firm = refused != "" || (!d.open && d.mildest() == d.gravest())
	if d.chosen.Class != frame.DoNotBuild {
		d.fill = b.FillOn(j.fit, g, topOf(d.chosen, g))
		d.pegs = pegPlaces(b, g, d.chosen)
	}
	return d
}

// settle decides a bed and then looks at what its pegs, cuts and fill would
// meet; a stop turns it into a bed that is not built, with the stop kept.
func (j judge) settle(b bed.Bed) decision {
	return j.surveyed.settled.of(bedJudged{b, j.stormDepth}, func() decision { return j.settleAnew(b) })
}

func (j judge) settleAnew(b bed.Bed) decision {
	d := j.decide(b, "")
	if d.chosen.Class == frame.DoNotBuild {
		return d
	}
	found := j.met(d)
	for _, c := range found {
		if c.Severity != caution.Stop {
			continue
		}
		stopped := j.decide(b, stopSaid(c))
		stopped.stopped, stopped.cautions = true, stopsOf(found)
		return stopped
	}
	d.cautions = found
	return d
}

// stopsOf are the stops alone: what to heed while building a bed that is not
// built is of no use.
func stopsOf(found []caution.Caution) []caution.Caution {
	return slices.DeleteFunc(found, func(c caution.Caution) bool { return c.Severity != caution.Stop })
}

// met are the cautions of one bed's place.
func (j judge) met(d decision) []caution.Caution {
	works := []caution.Work{workOf(d)}
	out := caution.Services(j.plot, works)
	out = append(out, caution.Trees(j.plot, works)...)
	out = append(out, caution.FoulGround(j.plot, works)...)
	out = append(out, j.crossed(works)...)
	for _, c := range caution.Ponding(j.ponds, works) {
		if c.Bed != "" { // the plot's own warning of standing water is given once, elsewhere
			out = append(out, c)
		}
	}
	return append(out, caution.Retained(j.plot, []caution.Wall{wallOf(d)})...)
}

// stopSaid is the short reason that a stop gives for not building.
func stopSaid(c caution.Caution) string {
	return fmt.Sprintf("it stands under a stop: %s (see the cautions)", c.Kind)
}

// cannotTell says why the survey cannot tell the fall under a bed, or "".
func (j judge) cannotTell(g bed.Ground) string {
	switch {
	case j.fit.Uneven:
		return "the ground is uneven and not enough of it is known"
	case g.Extrapolated:
		return "the heights are too far off, or too few, to tell the ground here"
	case !g.Determined && g.Slope.High*100 >= terrain.LevelPercent:
		return "the fall is under three times its standard error"
	}
	return ""
}

// caseAt is the bed's case at one state of the ground under it.
func (j judge) caseAt(d decision, slope, across, along float64) frame.Case {
	c := j.caseFor(d.bed, slope, across, along, max(d.runOn.flow.Depth.Value, j.stormDepth, d.stormDepth), d.refused)
	c.Bend, c.Flow, c.Above = d.bend, d.runOn.flow.Flow.Value, d.runOn.length.Value
	return c
}

// bend is how much deeper the compost of a bed in one piece stands at its worst
// place than it would on a plane of the same falls, m. Where the survey does not
// tell the ground it is not known, and the falls stand at their upper limits.
func (j judge) bend(b bed.Bed, g bed.Ground) float64 {
	if j.fit.Uneven || g.Extrapolated {
		return 0
	}
	w := frame.Wedge{
		Length: b.Length, Width: b.Width, Fill: j.brief.Fill,
		Across: g.Across.Value, Along: g.Along.Value, BaysAcross: 1, BaysAlong: 1,
	}
	w.TopAcross, w.TopAlong = frame.TopSlopes(w.Across, w.Along)
	top := bed.Top{MinDepth: w.Fill, Across: w.TopAcross, Along: w.TopAlong}
	return max(0, b.FillOn(j.fit, g, top).Deepest-w.Low())
}

// caseFor is a bed's case for the edge's decision. Slope may be greater than
// its parts make together: each may stand at its own unfavourable limit.
func (j judge) caseFor(at bed.Bed, slope, across, along, sheet float64, refused string) frame.Case {
	b := j.brief
	return frame.Case{
		Length: at.Length, Width: at.Width, Fill: b.Fill,
		Slope: slope, Across: across, Along: along,
		Ground: b.Ground, Turf: b.Turf, Cohesion: b.Cohesion,
		SheetDepth: sheet, Refused: refused, Material: b.Material,
		DepthCap: j.cap, PegSize: b.PegSize, PegSpacing: b.PegSpacing, Roughness: b.Roughness,
		BoardHeights: b.BoardHeights, BoardThicknesses: b.BoardThicknesses,
		LongestBoard: b.LongestBoard, Durability: b.Durability, LifeWished: b.BoardLife,
	}
}

// runOnTo measures the slope above a bed and the sheet of water it sends in
// the design burst.
func (j judge) runOnTo(b bed.Bed, g bed.Ground) runOn {
	outline := b.Outline(g.Axes)[0]
	above := j.surveyed.runOn.of(outline, func() drainage.RunOn {
		return drainage.RunOnLength(j.above, outline, j.aboveExtent, drainage.Options{})
	})
	r := runOn{
		edge:   above.RisesAtEdge,
		width:  above.Width,
		length: geodata.Estimate{Value: above.Mean, Low: above.Mean, High: math.Max(above.Mean, above.Longest)},
	}
	if r.edge {
		r.length.Value += j.brief.UphillLength
		r.length.Low += j.brief.UphillLength
		r.length.High += j.brief.UphillLength
	}
	r.flow = soil.RunOnTo(soil.RunOnInput{
		Rate: j.rate, Length: r.length, Slope: g.Slope, EdgeLength: r.width,
		Cover: j.brief.Cover, Ground: j.brief.Ground,
	})
	return r
}

// topOf is the shape of the compost of a design on the ground as fitted: the
// top falls no more than the ground does, also where the edge was decided at
// the upper limit of its fall.
func topOf(d frame.Design, g bed.Ground) bed.Top {
	t := bed.Top{MinDepth: d.Fill, BaysAcross: d.BaysAcross, BaysAlong: d.BaysAlong}
	t.Across, t.Along = frame.TopSlopes(g.Across.Value, g.Along.Value)
	return t
}

// bearingOf is the runoff bearing as an interval in degrees from the frame's
// north, or the reason why there is none.
func bearingOf(p *geodata.Plot, g terrain.Gradient, cov [2][2]float64, quantile float64, determined bool) Interval {
	low, high, ok := surface.BearingInterval(g, cov, quantile)
	if !ok || !determined {
		return Interval{Reason: "the fall is too small beside its error to tell"}
	}
	turn := p.Frame.NorthTurn
	deg := func(b terrain.Bearing) *float64 {
		v := terrain.Bearing(float64(b) + turn).Normal().Degrees()
		return &v
	}
	return Interval{Value: deg(g.Downhill()), Low: deg(low), High: deg(high)}
}
