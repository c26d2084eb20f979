package rain

import (
	"fmt"

	"crossfall/geodata"
)

// Named defaults of ours where nothing is known of the place: the figures from
// which one of the two printed columns of Z1 comes.
const (
	DefaultHour  = 20.0 // mm, M5-60 minutes
	DefaultRatio = 0.40 // M5-60 minutes over M5-2 days
)

// Bands, each a factor either way; defaults of ours.
const (
	bandByHand  = 1.2  // M5-60 minutes and the ratio read from a map
	bandHour    = 1.3  // M5-60 minutes alone
	bandDefault = 1.5  // M5-60 minutes not known
	bandMemory  = 1.05 // rows of Z1 that no printed calculation confirms
)

// hourLaw works depths from M5-60 minutes by Z1 and growth.
type hourLaw struct {
	hour  float64 // mm
	given bool    // false: the default
	ratio *float64
	years float64
}

func (l hourLaw) at(minutes float64) reading {
	ratio, band := DefaultRatio, bandHour
	if l.ratio != nil {
		ratio, band = *l.ratio, bandByHand
	}
	if !l.given {
		band = bandDefault
	}
	z := z1(ratio, minutes)
	m5 := z * l.hour
	g := growth(l.years, m5)
	if l.years == 10 {
		g = geodata.Exactly(g.Value) // printed, and its rounding is within the band
	}
	var notes []string
	if l.ratio != nil && (ratio < 0.35-1e-9 || ratio > 0.40+1e-9) {
		band *= bandMemory
		notes = append(notes, fmt.Sprintf("rainfall ratio %.2f lies beyond the columns for 0.35 and 0.40"+
			" that could be compared with printed depths: band widened", ratio))
	}
	if _, inside := TenYearGrowth(m5); !inside {
		band *= 1.05
		notes = append(notes, growthNote(m5, l.years))
	}
	depth := widened(geodata.Estimate{Value: m5 * g.Value, Low: m5 * g.Low, High: m5 * g.High}, band)
	if l.ratio == nil { // whatever the ratio is
		depth.Low = min(depth.Low, l.hour*g.Low*min(z1(LeastRatio, minutes), z1(GreatestRatio, minutes)))
		depth.High = max(depth.High, l.hour*g.High*max(z1(LeastRatio, minutes), z1(GreatestRatio, minutes)))
	}
	return reading{depth: depth, notes: notes, how: l.source() +
		fmt.Sprintf("; times %.3f for %g minutes and %.2f from 5 to %g years"+
			" (Flood Studies Report 1975, tables of BRE Digest 365)", z, minutes, g.Value, l.years)}
}

// source says where hour and ratio come from.
func (l hourLaw) source() string {
	words := fmt.Sprintf("rainfall ratio %.2f", DefaultRatio)
	switch {
	case l.given && l.ratio != nil:
		words = fmt.Sprintf("rainfall ratio %.2f", *l.ratio)
	case l.given:
		words += " (default)"
	case l.ratio != nil:
		words = fmt.Sprintf("the rainfall ratio %.2f given by hand", *l.ratio)
	}
	if l.given {
		return fmt.Sprintf("%.1f mm in 60 minutes once in 5 years, given by hand, and %s", l.hour, words)
	}
	return fmt.Sprintf("no figure for this place: default of %.0f mm in 60 minutes once in 5 years and %s,"+
		" within a factor of %.1f either way", l.hour, words, bandDefault)
}

// growthNote says that a five-year depth lies beyond the printed growth factors.
func growthNote(m5, years float64) string {
	return fmt.Sprintf("growth from 5 years was compared with printed figures for 10.4 to 61 mm;"+
		" for %.1f mm brought to %g years the band is widened", m5, years)
}
