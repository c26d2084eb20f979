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
const leastMinutes = 1

// bandFigures is the band of published or measured depths, a factor either way.
// A ten-year daily depth from 48 years of the south-west England record (Coles
// 2001) has a standard error of 7 % by a parametric bootstrap: two of them.
const bandFigures = 1.15

// saysWinter is true when the words about a record say that its extremes come
// from winter days.
func saysWinter(from string) bool { return strings.Contains(strings.ToLower(from), "winter") }

// fromFigures makes the law of depth-duration figures.
func (b *Burst) fromFigures(r geodata.Rain, points []point, ratio *float64) pointLaw {
	l := pointLaw{points: points, ratio: ratio, years: b.ReturnYears, band: bandFigures, winter: saysWinter(r.From), fixed: true,
		from: named(r.From, "depth-duration figures in rain.csv")}
	if l.winter {
		b.Said = winterOnly
	}
	for i := 1; i < len(points); i++ {
		if points[i].depth.Value < points[i-1].depth.Value {
			b.note("the figures disagree: less rain in %g minutes than in %g", points[i].minutes, points[i-1].minutes)
		}
	}
	return l
}

// brought brings the figures to the burst's return period, one for each
// duration, shortest first. Figures out of range are left out with a note.
func (b *Burst) brought(rows []geodata.DepthDuration) []point {
	var kept []geodata.DepthDuration
	for _, row := range rows {
		if row.Depth > 0 && depthOK(row.Depth) && row.ReturnYears > 0 && !math.IsInf(row.ReturnYears, 1) &&
			row.Minutes >= leastMinutes && row.Minutes <= GreatestMinutes {
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
	var out []point
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

// oneDuration brings rows of one duration, in order of return period, to that
// of the burst: as given, between two return periods linearly in the logarithm
// of T, or by growth from the nearest one. Of two figures for the same return
// period the greater counts, and so does a more frequent one that is greater.
func (b *Burst) oneDuration(rows []geodata.DepthDuration) (point, bool) {
	p := point{minutes: rows[0].Minutes}
	var below, above *geodata.DepthDuration
	for i := range rows {
		row := &rows[i]
		if i > 0 && row.Depth < rows[i-1].Depth {
			b.note("the figures disagree: in %g minutes less rain once in %g years than once in %g; the greater was taken",
				row.Minutes, row.ReturnYears, rows[i-1].ReturnYears)
			row.Depth = rows[i-1].Depth
		}
		switch {
		case row.ReturnYears <= b.ReturnYears:
			below = row
		case above == nil || row.ReturnYears == above.ReturnYears:
			above = row
		}
	}
	switch {
	case below != nil && below.ReturnYears == b.ReturnYears:
		p.depth = geodata.Exactly(below.Depth)
		return p, true
	case below != nil && above != nil:
		p.depth = geodata.Estimate{
			Value: alongLog(b.ReturnYears, below.ReturnYears, below.Depth, above.ReturnYears, above.Depth),
			Low:   below.Depth, High: above.Depth,
		}
		p.how = fmt.Sprintf("between once in %g and once in %g years", below.ReturnYears, above.ReturnYears)
		return p, true
	}
	return b.grown(p, cmp.Or(below, above))
}

// grown brings the depth of one return period to that of the burst by growth
// factors.
func (b *Burst) grown(p point, row *geodata.DepthDuration) (point, bool) {
	if row.ReturnYears < leastYears || row.ReturnYears > greatestYears {
		b.note("%g mm in %g minutes once in %g years was left out: once in %g years cannot be told from it alone",
			row.Depth, row.Minutes, row.ReturnYears, b.ReturnYears)
		return p, false
	}
	p.depth = toYears(row.Depth, row.ReturnYears, b.ReturnYears)
	m5 := fiveYear(row.Depth, row.ReturnYears)
	if _, inside := TenYearGrowth(m5); !inside {
		b.given = append(b.given, growthNote(m5, b.ReturnYears))
	}
	p.how = fmt.Sprintf("brought from once in %g years by the growth factors of the Flood Studies Report", row.ReturnYears)
	return p, true
}
