package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/siting/bed"
	"crossfall/siting/near"
)

// named puts the beds in order, from the gate or, without one, from the top of
// the slope, and names them "bed 1" on, leaving out names of pinned beds. It
// gives the marks of each beside it.
func (p *Places) named(chosen []int, pinned []bed.Bed) ([]bed.Bed, []float64) {
	taken := map[string]bool{}
	for _, b := range pinned {
		taken[nameKey(b.Name)] = true
	}
	gated := p.s.gates.Measurable()
	// Micrometres from the plot's corner, so that the order hangs on no rounding.
	corner := p.s.plot.Boundary.Bound().Min
	micrometres := func(v float64) float64 { return math.Round(v * 1e6) }
	key := func(s site) float64 {
		if gated {
			d, _ := near.Of(p.bedAt(s).Centre).Distance(p.s.gates)
			return micrometres(d)
		}
		return -micrometres((s.x-corner[0])*p.up.East + (s.y-corner[1])*p.up.North)
	}
	order := slices.Clone(chosen)
	slices.SortStableFunc(order, func(i, j int) int {
		a, b := p.field.sites[i], p.field.sites[j]
		return cmp.Or(cmp.Compare(key(a), key(b)),
			cmp.Compare(micrometres(a.x-corner[0]), micrometres(b.x-corner[0])), cmp.Compare(a.y, b.y))
	})
	beds, marks := make([]bed.Bed, len(order)), make([]float64, len(order))
	n := 0
	for i, c := range order {
		for n++; taken[nameKey(fmt.Sprintf("bed %d", n))]; n++ {
		}
		beds[i], marks[i] = p.bedAt(p.field.sites[c]), p.field.sites[c].weight
		beds[i].Name = fmt.Sprintf("bed %d", n)
	}
	return beds, marks
}

func nameKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// Hindrance is what stops beds, and the share of the places looked at that it
// stops, 0 to 1. One place may be stopped by several.
type Hindrance struct {
	Why   string
	Share float64
}

// What stops a bed beside boundary and keepouts.
const (
	byPlaced = "the beds placed and the paths between them"
	bySurvey = "ground that was not surveyed"
	byWeigh  = "ground on which a bed must not be built"
)

// hindranceSamples is about how many places are looked at for what is in the way.
const hindranceSamples = 3000

// inTheWay looks at places in the direction of the beds placed, or of the first
// direction, for what stops another bed there.
func (p *Places) inTheWay(a arranger, added []barrier) []Hindrance {
	d := 0
	if len(a.chosen) > 0 {
		d = p.field.sites[a.chosen[0]].direction
	}
	bearing := p.field.directions[d].bearing
	l := p.s.latticeOf(bearing)
	every := max(1, l.rows*l.cols/hindranceSamples)
	count := map[string]int{}
	looked := 0
	for n := 0; n < l.rows*l.cols; n += every {
		b := bed.New("", l.at(l.lowU+float64(n%l.cols)*l.du, l.lowV+float64(n/l.cols)*l.dv), bearing, p.field.length, p.field.width)
		if !p.s.inside.Covers(b.Centre) {
			continue
		}
		looked++
		for _, why := range p.against(b, a.chosen, added) {
			count[why]++
		}
	}
	var out []Hindrance
	for why, n := range count {
		out = append(out, Hindrance{why, float64(n) / float64(looked)})
	}
	slices.SortFunc(out, func(a, b Hindrance) int {
		return cmp.Or(cmp.Compare(b.Share, a.Share), cmp.Compare(a.Why, b.Why))
	})
	return out
}

// against is all that stops a bed at a place; the beds placed count only where
// nothing else does.
func (p *Places) against(b bed.Bed, chosen []int, added []barrier) []string {
	var out []string
	shape := near.Of(b.Footprint())
	for _, k := range slices.Concat([]barrier{p.s.boundary()}, p.s.barriers, added) {
		if !slices.Contains(out, k.why) && k.stops(b, shape) {
			out = append(out, k.why)
		}
	}
	if p.s.unsurveyed(b) {
		out = append(out, bySurvey)
	}
	if len(out) > 0 {
		return out
	}
	if w, ok := p.s.weigh(b); !ok || math.IsNaN(w) {
		return []string{byWeigh}
	}
	for _, c := range chosen {
		if near.Of(p.bedAt(p.field.sites[c]).Footprint()).Closer(shape, p.field.path+hair) {
			return []string{byPlaced}
		}
	}
	return nil
}

// reasonsTold is the number of reasons that Short names.
const reasonsTold = 3

// short says how many fit and what stops most of the other places.
func (p *Places) short(r Result) string {
	head := fmt.Sprintf("%d of %d beds fit", r.Fits, r.Wished)
	switch {
	case r.Wished == 1:
		head = "the bed does not fit"
	case r.Fits == 0:
		head = fmt.Sprintf("none of the %d beds fits", r.Wished)
	case r.MostBeds <= r.Fits:
		head += ", and no layout of the places looked at holds more"
	}
	var told []string
	for _, h := range r.InTheWay[:min(len(r.InTheWay), reasonsTold)] {
		told = append(told, h.Why)
	}
	if len(told) == 0 {
		w := p.s.wish
		return fmt.Sprintf("%s: the plot is too small for a bed of %.2f by %.2f m with %.2f m round it", head, w.Length, w.Width, p.s.opt.Margin)
	}
	return fmt.Sprintf("%s: most other places are stopped by %s", head, listed(told))
}

// listed joins words as "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
