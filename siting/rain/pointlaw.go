package rain

import (
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
)

// point is the depth of one duration at the return period of its law.
type point struct {
	minutes float64
	depth   geodata.Estimate
	how     string // how it was brought to its return period; empty when it was given
}

// pointLaw reads depths along known durations, shortest first, and past them by
// Z1 or the cube-root rule.
type pointLaw struct {
	points []point
	ratio  *float64
	years  float64
	from   string  // what the points come from, in words
	band   float64 // factor either way on every depth
	winter bool    // true: the points are winter days
	fixed  bool    // true: a day may have been read at a fixed hour
}

func (l pointLaw) at(minutes float64) reading {
	r := l.along(minutes)
	r.depth = widened(r.depth, l.band)
	r.how = l.from + ": " + r.how
	return r
}

func (l pointLaw) along(minutes float64) reading {
	i := slices.IndexFunc(l.points, func(p point) bool { return p.minutes >= minutes })
	switch {
	case i >= 0 && l.points[i].minutes == minutes:
		return reading{depth: l.points[i].depth, how: l.said(l.points[i])}
	case i > 0:
		return l.between(l.points[i-1], l.points[i], minutes)
	case i == 0:
		return l.past(l.points[0], minutes)
	}
	return l.past(l.points[len(l.points)-1], minutes)
}

// between reads between two durations linearly in the logarithm of the
// duration. The straight line on two logarithmic scales makes the other end of
// the band: depth-duration curves run mostly between the two.
func (l pointLaw) between(p, q point, minutes float64) reading {
	f := math.Log(minutes/p.minutes) / math.Log(q.minutes/p.minutes)
	line := func(a, c float64) float64 { return a + f*(c-a) }
	power := func(a, c float64) float64 { return a * math.Pow(c/a, f) }
	e := geodata.Estimate{
		Value: line(p.depth.Value, q.depth.Value),
		Low:   power(p.depth.Low, q.depth.Low),
		High:  line(p.depth.High, q.depth.High),
	}
	return reading{depth: e, how: fmt.Sprintf("%s; %s; %g minutes read between them, linearly in the logarithm of the duration",
		l.said(p), l.said(q), minutes)}
}

// past reads a duration from the nearest one when all are longer or all are
// shorter: by Z1 where the ratio is known, else by the cube-root rule with its
// error of a quarter.
func (l pointLaw) past(p point, minutes float64) reading {
	low, high := 0.75, 1.25
	f := FromLonger(1, p.minutes, minutes)
	r := reading{how: l.said(p)}
	how := "by the cube root of the duration (India Meteorological Department), good to a quarter either way"
	switch {
	case l.ratio != nil && p.minutes >= LeastMinutes:
		// The two printed columns differ by 13 % in the step from a day to 15 minutes.
		f, low, high = z1(*l.ratio, minutes)/z1(*l.ratio, p.minutes), 1/1.15, 1.15
		how = fmt.Sprintf("by the tables of BRE Digest 365 at rainfall ratio %.2f", *l.ratio)
	case l.ratio == nil && p.minutes >= LeastMinutes && !l.winter:
		least, most := ratioSpread(p.minutes, minutes)
		low, high = min(low, least/f), max(high, most/f)
		how = "by the cube root of the duration (India Meteorological Department), in a band that holds every rainfall ratio"
	case l.ratio != nil:
		r.notes = append(r.notes, fmt.Sprintf("the tables for the rainfall ratio do not reach %g minutes: the cube-root rule was used", p.minutes))
	}
	if p.minutes >= 1440 && minutes < 1440 {
		slow, fast := stormSpread(minutes)
		if l.winter {
			low = min(low, slow)
			how += "; the low end is the slow rain of a winter day (Type IA storm of Technical Paper 149)"
		} else {
			high = max(high, fast)
		}
	}
	if p.minutes >= 1440 && l.fixed {
		high *= FixedDay
		r.notes = append(r.notes, "if the daily depths were read at a fixed hour, the greatest 24 hours are about 1.13 times as much:"+
			" the upper end of the band allows for it")
	}
	r.depth = geodata.Estimate{Value: p.depth.Value * f, Low: p.depth.Low * f * low, High: p.depth.High * f * high}
	r.how += fmt.Sprintf("; brought to %g minutes %s", minutes, how)
	return r
}

// ratioSpread is the least and the greatest step from one duration to another
// over the rainfall ratios of the tables, which run one way.
func ratioSpread(from, to float64) (least, most float64) {
	a, b := z1(LeastRatio, to)/z1(LeastRatio, from), z1(GreatestRatio, to)/z1(GreatestRatio, from)
	return min(a, b), max(a, b)
}

// stormSpread is what the slow and the fast storms of Technical Paper 149 make
// of a day in so many minutes, over what the cube-root rule makes of it: Type IA
// for an oceanic winter, told for an hour or more, and Type II for summer
// thunder, told for a quarter of an hour or more. Shorter times are not tabled.
func stormSpread(minutes float64) (slow, fast float64) {
	over := func(s StormType, m float64) float64 { return s.greatest(m/60) / FromLonger(1, 1440, m) }
	return over(StormIA, max(minutes, 60)), over(StormII, max(minutes, 15))
}

// said says a depth and how it came about.
func (l pointLaw) said(p point) string {
	s := fmt.Sprintf("%.1f mm in %g minutes once in %g years", p.depth.Value, p.minutes, l.years)
	if l.winter && !l.fixed {
		s = fmt.Sprintf("%.1f mm in %g minutes once in %g winters", p.depth.Value, p.minutes, l.years)
	}
	return s + " (" + named(p.how, "as given") + ")"
}
