package rain

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/geodata"
)

// Durations that are taken at all, minutes: under 1 no gauge tells, and the
// tables end at 4 days.
const (
	leastMinutes    = 1
	greatestMinutes = 5760
)

// fixedDay is what a day read at a fixed hour misses: the greatest 24 hours
// are 1.13 times the greatest fixed day on average (Hershfield 1961; World
// Meteorological Organization practice, from memory).
const fixedDay = 1.13

// tenYear is the ten-year depth of one duration.
type tenYear struct {
	minutes float64
	depth   geodata.Estimate
	how     string // how it was brought to ten years; empty when it was given
}

// saysWinter is true when the words about a record say that its extremes come
// from winter days.
func saysWinter(from string) bool { return strings.Contains(strings.ToLower(from), "winter") }

// fromFigures works the burst from depth-duration figures; false when there
// are none that can be used.
func (b *Burst) fromFigures(r geodata.Rain, ratio *float64) bool {
	points := b.tenYears(r.Bursts)
	if len(points) == 0 {
		return false
	}
	if saysWinter(r.From) {
		b.Said = winterOnly
	}
	b.checkRising(points)
	var how string
	b.Depth, how = b.atDesign(points, ratio)
	b.Depth = widened(b.Depth, bandFigures)
	b.Source = named(r.From, "depth-duration figures in rain.csv") + ": " + how
	return true
}

// tenYears brings the figures to ten years, one for each duration, shortest
// first. Figures out of range are left out with a note.
func (b *Burst) tenYears(rows []geodata.DepthDuration) []tenYear {
	var kept []geodata.DepthDuration
	for _, row := range rows {
		if row.Depth > 0 && depthOK(row.Depth) && row.ReturnYears > 0 && !math.IsInf(row.ReturnYears, 1) &&
			row.Minutes >= leastMinutes && row.Minutes <= greatestMinutes {
			kept = append(kept, row)
			continue
		}
		b.note("%g mm in %g minutes once in %g years was left out: not a believable figure for 1 to 5760 minutes",
			row.Depth, row.Minutes, row.ReturnYears)
	}
	slices.SortStableFunc(kept, func(p, q geodata.DepthDuration) int {
		return cmp.Or(cmp.Compare(p.Minutes, q.Minutes), cmp.Compare(p.ReturnYears, q.ReturnYears),
			cmp.Compare(p.Depth, q.Depth))
	})
	var out []tenYear
	for len(kept) > 0 {
		n := 1
		for n < len(kept) && kept[n].Minutes == kept[0].Minutes {
			n++
		}
		if p, ok := b.oneDuration(kept[:n]); ok {
			out = append(out, p)
		}
		kept = kept[n:]
	}
	return out
}

// oneDuration brings rows of one duration, in order of return period, to ten
// years: as given, between two return periods linearly in the logarithm of T,
// or by growth from the nearest one. Of two figures for the same return period
// the greater counts.
func (b *Burst) oneDuration(rows []geodata.DepthDuration) (tenYear, bool) {
	p := tenYear{minutes: rows[0].Minutes}
	var below, above *geodata.DepthDuration
	for i := range rows {
		switch row := &rows[i]; {
		case row.ReturnYears <= designYears:
			below = row
		case above == nil || row.ReturnYears == above.ReturnYears:
			above = row
		}
	}
	switch {
	case below != nil && below.ReturnYears == designYears:
		p.depth = geodata.Exactly(below.Depth)
		return p, true
	case below != nil && above != nil:
		f := math.Log(designYears/below.ReturnYears) / math.Log(above.ReturnYears/below.ReturnYears)
		p.depth = geodata.Estimate{
			Value: below.Depth + f*(above.Depth-below.Depth),
			Low:   math.Min(below.Depth, above.Depth), High: math.Max(below.Depth, above.Depth),
		}
		p.how = fmt.Sprintf("between once in %g and once in %g years", below.ReturnYears, above.ReturnYears)
		return p, true
	}
	nearest := below
	if nearest == nil {
		nearest = above
	}
	if nearest.ReturnYears < leastYears || nearest.ReturnYears > greatestYears {
		b.note("%g mm in %g minutes once in %g years was left out: ten years cannot be told from it alone",
			nearest.Depth, nearest.Minutes, nearest.ReturnYears)
		return p, false
	}
	p.depth = toTenYears(nearest.Depth, nearest.ReturnYears)
	m5 := nearest.Depth / growth(nearest.ReturnYears, nearest.Depth).Value
	if _, inside := TenYearGrowth(m5); !inside {
		b.noteGrowth(m5)
	}
	p.how = fmt.Sprintf("brought from once in %g years by the growth factors of the Flood Studies Report", nearest.ReturnYears)
	return p, true
}

// checkRising notes a longer duration with less rain than a shorter one.
func (b *Burst) checkRising(points []tenYear) {
	for i := 1; i < len(points); i++ {
		if points[i].depth.Value < points[i-1].depth.Value {
			b.note("the figures disagree: less rain in %g minutes than in %g", points[i].minutes, points[i-1].minutes)
		}
	}
}

// atDesign reads the ten-year depths at 15 minutes.
func (b *Burst) atDesign(points []tenYear, ratio *float64) (geodata.Estimate, string) {
	i := slices.IndexFunc(points, func(p tenYear) bool { return p.minutes >= designMinutes })
	switch {
	case i >= 0 && points[i].minutes == designMinutes:
		return points[i].depth, saidOf(points[i])
	case i > 0:
		return between(points[i-1], points[i])
	case i == 0:
		return b.past(points[0], ratio)
	}
	return b.past(points[len(points)-1], ratio)
}

// between reads 15 minutes between two durations linearly in the logarithm of
// the duration. The straight line on two logarithmic scales makes the other
// end of the band: depth-duration curves run mostly between the two.
func between(p, q tenYear) (geodata.Estimate, string) {
	f := math.Log(designMinutes/p.minutes) / math.Log(q.minutes/p.minutes)
	line := func(a, c float64) float64 { return a + f*(c-a) }
	power := func(a, c float64) float64 { return a * math.Pow(c/a, f) }
	e := geodata.Estimate{
		Value: line(p.depth.Value, q.depth.Value),
		Low:   power(p.depth.Low, q.depth.Low),
		High:  line(p.depth.High, q.depth.High),
	}
	return e, fmt.Sprintf("%s; %s; 15 minutes read between them, linearly in the logarithm of the duration",
		saidOf(p), saidOf(q))
}

// past reads 15 minutes from the nearest duration when all are longer or all
// are shorter: by Z1 where the ratio is known, else by the cube-root rule with
// its error of a quarter.
func (b *Burst) past(p tenYear, ratio *float64) (geodata.Estimate, string) {
	said := saidOf(p)
	low, high := 0.75, 1.25
	f := FromLonger(1, p.minutes, designMinutes)
	how := "by the cube root of the duration (India Meteorological Department), good to a quarter either way"
	if ratio != nil {
		if z, err := Z1(*ratio, p.minutes); err == nil {
			zd, _ := Z1(*ratio, designMinutes)
			// The two tables differ by 13 % in the step from a day to 15 minutes.
			f, low, high = zd/z, 1/1.15, 1.15
			how = fmt.Sprintf("by the tables of BRE Digest 365 at rainfall ratio %.2f", *ratio)
			if past := math.Max(0.35-*ratio, *ratio-0.40); past > 1e-9 {
				low, high = low/(1+past), high*(1+past)
				how += ", read on beyond 0.35 to 0.40"
			}
		} else {
			b.note("the tables for the rainfall ratio do not reach %g minutes: the cube-root rule was used", p.minutes)
		}
	}
	if p.minutes >= 1440 {
		high *= fixedDay
		b.note("if the daily depths were read at a fixed hour, the greatest 24 hours are about 1.13 times as much: the upper end of the band allows for it")
	}
	e := geodata.Estimate{Value: p.depth.Value * f, Low: p.depth.Low * f * low, High: p.depth.High * f * high}
	return e, said + "; brought to 15 minutes " + how
}

// saidOf says a ten-year depth and how it came about.
func saidOf(p tenYear) string {
	s := fmt.Sprintf("%.1f mm in %g minutes once in 10 years", p.depth.Value, p.minutes)
	return s + " (" + named(p.how, "as given") + ")"
}
