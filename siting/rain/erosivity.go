package rain

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// ErosivityMethod says how the erosivity of the year is worked from depths of rain.
type ErosivityMethod int

const (
	// ByDensity takes 0.65 MJ/(ha h) a millimetre of the year's rain, the
	// default: the country means of Panagos and others, Science of the Total
	// Environment 511 (2015), from memory, over the rain of the countries
	// (United Kingdom 747 over 1150) for the oceanic north-west of Europe.
	// From plain to western mountain it runs from 0.4 to 1.0.
	ByDensity ErosivityMethod = iota
	// ByGermanRule is 0.788 P - 28.2 for 500 to 1000 mm a year in Germany (DIN
	// 19708, in the line of Rogler & Schwertmann 1981; from memory). Newer work
	// there finds 1.6 times as much.
	ByGermanRule
	// ByIndexUnitedStates is 0.7397 F^1.847 below a modified Fournier index F of
	// 55 mm, 95.77 - 6.081 F + 0.4770 F^2 from there (Renard & Freimund, Journal
	// of Hydrology 157, 1994; from memory). The factor is often misprinted as
	// 0.07397, with which the two do not meet at 55.
	ByIndexUnitedStates
	// ByAnnualUnitedStates is 0.0483 P^1.610 to 850 mm a year, 587.8 - 1.219 P +
	// 0.004105 P^2 above (Renard & Freimund 1994; from memory).
	ByAnnualUnitedStates
)

// Erosivity is the erosive power of the rain of a mean year.
type Erosivity struct {
	R      geodata.Estimate // MJ mm/(ha h) a year, with the range in which it may lie
	Source string           // what it was worked from and how, in words
	Notes  []string
}

// Bands of the year's erosivity; defaults of ours but for the first pair, which
// are those of the density.
const (
	density      = 0.65
	leastDensity = 0.4
	mostDensity  = 1.0
	bandR        = 1.5 // a figure given by hand, and the way down from the German rule
	bandRWide    = 2.0 // regressions, and the way up from the German rule
)

// The rain of a year for which any of this is meant, mm.
const (
	leastAnnual = 100
	mostAnnual  = 4000
)

const usNote = "made for the continental United States: in north-west Europe it gives 2.4 to 7 times too much"

// AnnualErosivity works the erosivity of a mean year from twelve monthly means
// of rain, mm, January first. A year of under 100 or over 4000 mm, for the
// German rule under 500 or over 1000, is ErrRange, and so are months that are
// not twelve depths and an unknown method.
func AnnualErosivity(months []float64, by ErosivityMethod) (Erosivity, error) {
	x, err := FournierOf(months)
	if err != nil {
		return Erosivity{}, err
	}
	p := x.Annual
	if p < leastAnnual || p > mostAnnual {
		return Erosivity{}, fmt.Errorf("%.0f mm of rain in a year, not %d to %d: %w", p, leastAnnual, mostAnnual, ErrRange)
	}
	e := Erosivity{Source: fmt.Sprintf("%.0f mm of rain in a year", p)}
	switch by {
	case ByDensity:
		e.R = geodata.Estimate{Value: density * p, Low: leastDensity * p, High: mostDensity * p}
		e.Source += " at 0.65 MJ/(ha h) a millimetre, 0.4 to 1.0 (default for the oceanic north-west of Europe)"
	case ByGermanRule:
		if p < 500 || p > 1000 {
			return Erosivity{}, fmt.Errorf("%.0f mm of rain in a year, where the German rule serves 500 to 1000: %w", p, ErrRange)
		}
		r := 0.788*p - 28.2
		e.R = geodata.Estimate{Value: r, Low: r / bandR, High: r * bandRWide}
		e.Source += " by the rule of DIN 19708 for Germany"
		e.Notes = []string{"newer work in Germany finds about 1.6 times as much"}
	case ByIndexUnitedStates:
		e.R = widened(geodata.Exactly(renardIndex(x.Modified)), bandRWide)
		e.Source = fmt.Sprintf("modified Fournier index of %.0f mm by Renard & Freimund (1994)", x.Modified)
		e.Notes = []string{usNote}
	case ByAnnualUnitedStates:
		e.R = widened(geodata.Exactly(renardAnnual(p)), bandRWide)
		e.Source += " by Renard & Freimund (1994)"
		e.Notes = []string{usNote}
	default:
		return Erosivity{}, fmt.Errorf("erosivity method %d: %w", int(by), ErrRange)
	}
	return e, nil
}

func renardIndex(f float64) float64 {
	if f < 55 {
		return 0.7397 * math.Pow(f, 1.847)
	}
	return 95.77 - 6.081*f + 0.4770*f*f
}

func renardAnnual(p float64) float64 {
	if p <= 850 {
		return 0.0483 * math.Pow(p, 1.610)
	}
	return 587.8 - 1.219*p + 0.004105*p*p
}

// ErosivityByHand is a figure given by a person, MJ mm/(ha h) a year, in a band
// of 1.5 either way, a default of ours. Outside 10 to 20 000 it is ErrRange.
func ErosivityByHand(r float64) (Erosivity, error) {
	if !(r >= 10 && r <= 20000) {
		return Erosivity{}, fmt.Errorf("erosivity of %g MJ mm/(ha h) a year, not 10 to 20 000: %w", r, ErrRange)
	}
	return Erosivity{R: widened(geodata.Exactly(r), bandR), Source: "given by hand"}, nil
}

// Hourly depths hide the peaks of a storm. 1.73 times as much with the peaks is
// the mean of 456 storms in China (Yin, Xie, Nearing & Wang, Catena 71, 2007);
// 1.5 to 1.7 for the year is a default of ours after it.
const (
	hourLow   = 1.5
	hourValue = 1.6
	hourHigh  = 1.73
)

// ErosivityByIntervals works the erosivity of the mean year from a record of
// intervals over so many years (Agriculture Handbook 703, 1997): the EI30 of all
// storms that count (ErosiveStorms), added up and shared out. The value is by
// the equation asked for, the band by the lowest and the highest of the three.
// A record of intervals of one length over 30 to 60 minutes is raised for the
// peaks it hides; one with longer intervals, under a year, or without a storm
// is ErrRange.
func ErosivityByIntervals(record []Interval, years float64, e EnergyEquation) (Erosivity, error) {
	if !(years >= 1 && years <= 1000) {
		return Erosivity{}, fmt.Errorf("a record of %g years, not 1 to 1000: %w", years, ErrRange)
	}
	var all [3]float64
	count := 0
	for q := BrownFoster; q <= McGregor; q++ {
		storms, err := ErosiveStorms(record, q)
		if err != nil {
			return Erosivity{}, err
		}
		count = len(storms)
		for _, s := range storms {
			all[q] += s.EI30 / years
		}
	}
	if e < BrownFoster || e > McGregor || count == 0 {
		return Erosivity{}, fmt.Errorf("%d storms, %v: %w", count, e, ErrRange)
	}
	out := Erosivity{
		R:      geodata.Estimate{Value: all[e], Low: min(all[0], all[1], all[2]), High: max(all[0], all[1], all[2])},
		Source: fmt.Sprintf("%d storms in %.1f years, energy by %v", count, years, e),
	}
	switch step := oneLength(record); {
	case step > 60:
		return Erosivity{}, fmt.Errorf("depths in %g minutes, where 60 are the longest that tell a storm: %w", step, ErrRange)
	case step > 30:
		out.R = geodata.Estimate{Value: out.R.Value * hourValue, Low: out.R.Low * hourLow, High: out.R.High * hourHigh}
		out.Notes = append(out.Notes, "times 1.6 (1.5 to 1.73) for the peaks that depths in 60 minutes hide")
	}
	if years < 20 {
		out.Notes = append(out.Notes, fmt.Sprintf("%.0f years of record: 20 or more are common practice, since years differ widely", years))
	}
	return out, nil
}

// oneLength is the length of intervals that are all as long; 0 where they are
// not, for then they follow the rain.
func oneLength(record []Interval) float64 {
	for _, v := range record {
		if v.Minutes != record[0].Minutes {
			return 0
		}
	}
	return record[0].Minutes
}
