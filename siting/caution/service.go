package caution

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/near"

	"github.com/paulmach/orb"
)

// OverheadReach is the plan distance, m, from an overhead service within which
// a bed gets a warning: long boards are carried and set up round a bed.
// Default of ours.
const OverheadReach = 6.0

// Work is what is built and cut at one bed.
type Work struct {
	Bed     string
	Outline orb.Polygon
	// Cuts are sunken edges, trenches and channels: lines or areas.
	Cuts []orb.Geometry
	Pegs []orb.Point // middle of each peg
	Fill float64     // greatest depth of compost, m
	// OnlyDug is true of a channel, a trench or a soakaway, which can be left out.
	OnlyDug bool
}

// instead is what to do where a work must not be.
func (w Work) instead(bed, dug string) string {
	if w.OnlyDug {
		return dug
	}
	return bed
}

// site is one Work made ready for measuring.
type site struct {
	Work
	outline near.Shape
	cuts    []near.Shape
	pegs    []near.Shape
}

func prepare(works []Work) []site {
	out := make([]site, len(works))
	for i, w := range works {
		out[i] = site{Work: w, outline: near.Of(w.Outline)}
		for _, c := range w.Cuts {
			out[i].cuts = append(out[i].cuts, near.Of(c))
		}
		for _, p := range w.Pegs {
			out[i].pegs = append(out[i].pegs, near.Of(p))
		}
	}
	return out
}

// closest is the least distance from any of the parts to o and its place on
// the part. A distance that cannot be told is the least of all, so that it is
// never passed over.
func closest(parts []near.Shape, o near.Shape) (float64, orb.Point) {
	best, at := math.Inf(1), orb.Point{}
	for _, p := range parts {
		d, place := p.Distance(o)
		if math.IsNaN(d) {
			return d, p.Bound.Min
		}
		if d < best {
			best, at = d, place
		}
	}
	return best, at
}

// under is true when a distance falls short of what is needed, or cannot be
// told. A hair (1e-9 m) is left for rounding.
func under(d, needed float64) bool { return !(d >= needed-1e-9) }

// Services checks every bed against every drawn service. A peg, sunken edge or
// trench, whatever its depth, within the clearance of a buried service is a
// Stop: one for each bed and service, at the nearest point. A bed that drives
// and cuts nothing there but lies within the clearance gets a Warning, and so
// does a bed within OverheadReach of an overhead service.
func Services(plot *geodata.Plot, works []Work) []Caution {
	var out []Caution
	sites := prepare(works)
	for _, s := range name(plot.OfKind(geodata.ServiceKind)) {
		shape := near.Of(s.Shape)
		for _, w := range sites {
			if s.Overhead {
				out = append(out, overhead(s, shape, w)...)
			} else {
				out = append(out, buried(s, shape, w, plot.Site.Place.Country)...)
			}
		}
	}
	return out
}

func buried(s named, shape near.Shape, w site, country string) []Caution {
	c := Around(s.Fixture, country)
	needed := c.Needed()
	what := "a peg"
	d, at := closest(w.pegs, shape)
	if cut, place := closest(w.cuts, shape); under(cut, d) && !math.IsNaN(d) {
		what, d, at = "a sunken edge or trench", cut, place
	}
	if under(d, needed) {
		return []Caution{{
			ID: id("service-conflict", w.Bed, s.key), Severity: Stop, Kind: "service", Bed: w.Bed, At: &at,
			Text: fmt.Sprintf("%s: %s comes %s %s; keep %s away (%s, widened by %s %s). Do not %s.",
				w.Bed, what, howNear(d), s.said, metresUp(needed), metresUp(c.Rule), metresUp(c.Error), c.ErrorSaid,
				w.instead("drive or dig here: move the bed, or ask the service's owner and have the service located",
					"dig it before the service's owner has agreed")),
			Source: c.RuleSource,
		}}
	}
	d, at = w.outline.Distance(shape)
	if !under(d, needed) {
		return nil
	}
	return []Caution{{
		ID: id("service-near", w.Bed, s.key), Severity: Warning, Kind: "service", Bed: w.Bed, At: &at,
		Text: fmt.Sprintf("%s: the bed comes %s %s, inside the %s kept free round it. Nothing may be driven or cut there. "+
			"Keep access for repair, and add no cover over the service without its owner's word.",
			w.Bed, howNear(d), s.said, metresUp(needed)),
		Source: c.RuleSource,
	}}
}

// howNear says a distance so that "comes ... the service" reads well.
func howNear(d float64) string {
	switch {
	case math.IsNaN(d):
		return "at a distance that cannot be told from"
	case d < 0.005:
		return "on to"
	}
	return "within " + metresDown(d) + " of"
}

func overhead(s named, shape near.Shape, w site) []Caution {
	d, at := w.outline.Distance(shape)
	if !under(d, OverheadReach) {
		return nil
	}
	return []Caution{{
		ID: id("service-overhead", w.Bed, s.key), Severity: Warning, Kind: "service", Bed: w.Bed, At: &at,
		Text: fmt.Sprintf("%s: overhead, %s is within %s. Carry long boards and poles low and level, stack none beneath it, "+
			"and ask its operator before working under it.", w.Bed, s.said, metresUp(OverheadReach)),
		Source: "distance: default of ours; keeping away and asking the operator: HSE GS6 (from memory)",
	}}
}
