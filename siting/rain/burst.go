package rain

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// The burst that edges are judged by: a default of ours. On a plot water
// gathers within minutes, and shorter figures than 15 minutes are rarely to hand.
const (
	designMinutes = 15
	designYears   = 10
)

// Named defaults of ours where nothing is known of the place: the figures from
// which one of the two tables of Z1 is printed.
const (
	DefaultHour  = 20.0 // mm, M5-60 minutes
	DefaultRatio = 0.40 // M5-60 minutes over M5-2 days
)

// Bands, each a factor either way; defaults of ours but for the first. A
// ten-year daily depth from 48 years of the south-west England record (Coles
// 2001) has a standard error of 7 % by a parametric bootstrap: two of them.
const (
	bandFigures = 1.15 // published or measured depths
	bandByHand  = 1.2  // M5-60 minutes and the ratio read from a map
	bandHour    = 1.3  // M5-60 minutes alone
	bandDefault = 1.5  // M5-60 minutes not known
)

// Short-duration figures are figures of the whole year, and here they fall on
// winter's wet ground; only a record that says so holds winter storms.
const (
	allYear    = "all-year storm, wet-ground losses"
	winterOnly = "winter storm, wet-ground losses"
)

// Burst is the design burst: the 15-minute rain met once in 10 years on average.
type Burst struct {
	Rate        geodata.Estimate // mm/h, mean over the burst
	Depth       geodata.Estimate // mm
	Minutes     float64          // 15
	ReturnYears float64          // 10
	Source      string           // what it was worked from and how, in words
	Said        string           // which storm on which ground
	Default     bool             // true when no figure for the place went in
	Notes       []string         // figures left out, and ranges stretched
}

// DesignRate works the design burst from the best figures there are: the
// depth-duration figures of r; else wish.M5Hour and wish.Ratio by
// M15min = Z1 M5-60 and the ten-year growth factor; else the same with the
// defaults, in a band of 1.5 either way. Monthly means never make a burst.
//
// Figures are brought to ten years first (growth factors of the Flood Studies
// Report), then to 15 minutes: between two durations linearly in the logarithm
// of the duration, past the shortest or longest by Z1 where wish.Ratio is given
// and by the cube-root rule where it is not. Figures outside 1 to 5760 minutes
// or 2 to 100 years (unless two return periods lie about ten years), ratios
// outside 0.20 to 0.45 and hours outside 3 to 150 mm are left out with a note.
func DesignRate(r geodata.Rain, wish geodata.RainWish) Burst {
	b := Burst{Minutes: designMinutes, ReturnYears: designYears, Said: allYear}
	ratio := b.ratio(wish.Ratio)
	hour := b.hour(wish.M5Hour)
	switch {
	case b.fromFigures(r, ratio):
		if hour != nil {
			b.note("rain.m5_60_mm in site.toml was not used: rain.csv gives depths for short durations")
		}
	case hour != nil:
		b.fromHour(*hour, ratio)
	default:
		b.fromDefault(ratio)
		if len(r.Monthly) > 0 {
			b.note("monthly means say nothing of a short burst: the default stands")
		}
	}
	b.Rate = b.Depth.Times(60.0 / designMinutes)
	return b
}

func (b *Burst) note(format string, args ...any) {
	b.Notes = append(b.Notes, fmt.Sprintf(format, args...))
}

// ratio is the grower's rainfall ratio, or nil with a note when it lies
// outside the range of the method.
func (b *Burst) ratio(given *float64) *float64 {
	if given == nil {
		return nil
	}
	if !(*given >= LeastRatio && *given <= GreatestRatio) {
		b.note("rainfall ratio %g was not used: the tables serve %.2f to %.2f", *given, LeastRatio, GreatestRatio)
		return nil
	}
	return given
}

// hour is the grower's M5-60 minutes, or nil with a note when no place has it.
func (b *Burst) hour(given *float64) *float64 {
	if given == nil {
		return nil
	}
	if !(*given >= 3 && *given <= 150) {
		b.note("%g mm in 60 minutes once in 5 years was not used: 3 to 150 mm are believable", *given)
		return nil
	}
	return given
}

// fromHour works the burst from M5-60 minutes, with or without the ratio.
func (b *Burst) fromHour(hour float64, ratio *float64) {
	r, band, words := DefaultRatio, bandHour, fmt.Sprintf("rainfall ratio %.2f (default)", DefaultRatio)
	if ratio != nil {
		r, band, words = *ratio, bandByHand, fmt.Sprintf("rainfall ratio %.2f", *ratio)
	}
	b.scale(hour, r, band)
	b.Source = fmt.Sprintf("%.1f mm in 60 minutes once in 5 years, given by hand, and %s", hour, words) + b.steps(hour, r)
}

// fromDefault works the burst where M5-60 minutes is not known.
func (b *Burst) fromDefault(ratio *float64) {
	r, words := DefaultRatio, fmt.Sprintf("rainfall ratio %.2f", DefaultRatio)
	if ratio != nil {
		r, words = *ratio, fmt.Sprintf("the rainfall ratio %.2f given by hand", *ratio)
	}
	b.Default = true
	b.scale(DefaultHour, r, bandDefault)
	b.Source = fmt.Sprintf("no figure for this place: default of %.0f mm in 60 minutes once in 5 years and %s,"+
		" within a factor of %.1f either way", DefaultHour, words, bandDefault) + b.steps(DefaultHour, r)
}

// scale sets the depth by Z1 and growth, in a band widened where r lies beyond
// the two tables: by the distance to the nearer one, which covers the columns
// for other ratios in Bettess, Infiltration drainage, CIRIA Report 156 (1996),
// from memory (r 0.21 gives 0.54 where the line gives 0.57).
func (b *Burst) scale(hour, r, band float64) {
	z, _ := Z1(r, designMinutes) // r was checked, and 15 minutes is in both tables
	m5 := z * hour
	if past := math.Max(0.35-r, r-0.40); past > 1e-9 {
		band *= 1 + past
		b.note("rainfall ratio %.2f lies beyond the tables for 0.35 and 0.40: read on along their line, band widened", r)
	}
	g, inside := TenYearGrowth(m5)
	if !inside {
		band *= 1.05
		b.noteGrowth(m5)
	}
	b.Depth = widened(geodata.Exactly(m5*g), band)
}

// noteGrowth says that a five-year depth lies beyond the printed growth factors.
func (b *Burst) noteGrowth(m5 float64) {
	b.note("growth from 5 to 10 years is printed for 10.4 to 61 mm; for %.1f mm the nearest factor was taken, band widened", m5)
}

// steps says how the hour became the burst.
func (b *Burst) steps(hour, r float64) string {
	z, _ := Z1(r, designMinutes)
	g, _ := TenYearGrowth(z * hour)
	return fmt.Sprintf("; times %.3f for 15 minutes and %.2f from 5 to 10 years"+
		" (Flood Studies Report 1975, tables of BRE Digest 365)", z, g)
}

// widened spreads both ends of a band by a factor.
func widened(e geodata.Estimate, factor float64) geodata.Estimate {
	return geodata.Estimate{Value: e.Value, Low: e.Low / factor, High: e.High * factor}
}
