package rain

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/geodata"
)

// Erosivity is the erosive power of the rain of a mean year.
type Erosivity struct {
	R      geodata.Estimate // MJ mm/(ha h) a year, with the range in which it may lie
	Source string           // what it was worked from and how, in words
	Notes  []string
	// WinterShare is the share of R that falls in the winter half, 0 to 1; nil
	// where no month's rain is known.
	WinterShare  *geodata.Estimate
	WinterSource string
}

// ErosivityOf works the erosivity of a mean year by the first of these that
// serves: the figure given by hand (wish.Erosivity, in a band of 1.5 either
// way); the storms of a record of short intervals of a year or more (Agriculture
// Handbook 703, 1997); by a rule for the country (place.Country) where there is one and the
// rain lies in its range, which is so in the United States and, for 500 to 1000
// mm a year, in Germany; 0.65 MJ/(ha h) a millimetre of the year's rain, 0.4 to
// 1.0, which is meant for the oceanic north-west of Europe and reaches to 1.5
// elsewhere outside the tropics. Without a figure by hand, no twelve months of
// rain are ErrTooFew; a year of under 100 or over 4000 mm, and the default
// within 35 degrees of the equator, are ErrRange.
func ErosivityOf(r geodata.Rain, wish geodata.RainWish, place geodata.Place) (Erosivity, error) {
	e, err := yearErosivity(r, wish, place)
	if err != nil {
		return Erosivity{}, err
	}
	e.winterShare(r, place.Latitude)
	return e, nil
}

func yearErosivity(r geodata.Rain, wish geodata.RainWish, place geodata.Place) (Erosivity, error) {
	if wish.Erosivity != nil {
		return erosivityByHand(*wish.Erosivity)
	}
	if r.Intervals != nil && r.Daily != nil {
		if e, err := erosivityByIntervals(*r.Intervals, float64(Record(*r.Daily).Read())/365.25); err == nil {
			return e, nil
		}
	}
	x, err := indexOf(r)
	if err != nil {
		return Erosivity{}, err
	}
	if x.Annual < leastAnnual || x.Annual > mostAnnual {
		return Erosivity{}, fmt.Errorf("%.0f mm of rain in a year, not %d to %d: give rain.erosivity in site.toml: %w",
			x.Annual, leastAnnual, mostAnnual, ErrRange)
	}
	switch word := strings.ToLower(strings.TrimSpace(place.Country)); {
	case word == "us" || strings.HasPrefix(word, "us-") || slices.Contains([]string{"usa", "united states"}, word):
		return unitedStates(x), nil
	case (word == "de" || word == "germany") && x.Annual >= 500 && x.Annual <= 1000:
		return germany(x), nil
	}
	return byDensity(x, place.Latitude)
}

// indexOf are the Fournier indices of the mean year: the mean over single years
// where a daily record has ten or more, since mean months even years out.
func indexOf(r geodata.Rain) (Fournier, error) {
	if !monthsOK(r.Monthly) {
		return Fournier{}, fmt.Errorf("no rain of twelve months: give rain.csv, or rain.erosivity in site.toml: %w", ErrTooFew)
	}
	if r.Daily != nil {
		if years := Record(*r.Daily).CalendarYears(); len(years) >= 10 {
			return FournierYears(years)
		}
	}
	return FournierOf(r.Monthly)
}

// Bands of the year's erosivity; defaults of ours but for the first pair, which
// are those of the density.
const (
	density      = 0.65
	leastDensity = 0.4
	mostDensity  = 1.0

	elsewhereDensity = 1.5 // upper end outside the oceanic north-west of Europe
	bandR            = 1.5 // a figure given by hand, regressions, and the way down from the German rule
	bandRWide        = 2.0 // the way up from the German rule
)

// The rain of a year for which any of this is meant, mm.
const (
	leastAnnual = 100
	mostAnnual  = 4000
)

// byDensity takes 0.65 MJ/(ha h) a millimetre of the year's rain: the country
// means of Panagos and others, Science of the Total Environment 511 (2015), from
// memory, over the rain of the countries (United Kingdom 747 over 1150) for the
// oceanic north-west of Europe. From plain to western mountain it runs from 0.4
// to 1.0, in the Alps and about the Mediterranean to 1.5.
func byDensity(x Fournier, latitude *float64) (Erosivity, error) {
	e := Erosivity{
		R: geodata.Estimate{Value: density * x.Annual, Low: leastDensity * x.Annual, High: mostDensity * x.Annual},
		Source: fmt.Sprintf("%.0f mm of rain in a year at 0.65 MJ/(ha h) a millimetre, 0.4 to 1.0"+
			" (default for the oceanic north-west of Europe)", x.Annual),
		Notes: []string{fmt.Sprintf("modified Fournier index of %.0f mm, %s", x.Modified, x.Class())},
	}
	switch {
	case latitude == nil || *latitude >= 47 && *latitude <= 65:
	case math.Abs(*latitude) < 35:
		return Erosivity{}, fmt.Errorf("the default erosivity does not serve within 35 degrees of the equator:"+
			" give rain.erosivity in site.toml: %w", ErrRange)
	default:
		e.R.High = elsewhereDensity * x.Annual
		e.Notes = append(e.Notes, "the default erosivity is meant for 47 to 65 degrees north in Europe: its upper end was raised to 1.5 a millimetre")
	}
	return e, nil
}

// germany is 0.788 P - 28.2 for 500 to 1000 mm a year (DIN 19708, in the line of
// Rogler & Schwertmann 1981; from memory).
func germany(x Fournier) Erosivity {
	r := 0.788*x.Annual - 28.2
	return Erosivity{
		R:      geodata.Estimate{Value: r, Low: r / bandR, High: r * bandRWide},
		Source: fmt.Sprintf("%.0f mm of rain in a year by the rule of DIN 19708 for Germany", x.Annual),
		Notes:  []string{"newer work in Germany finds about 1.6 times as much erosivity"},
	}
}

// unitedStates takes the two regressions of Renard & Freimund, Journal of
// Hydrology 157 (1994; from memory), made for the continental United States, in
// north-west Europe 2.4 to 7 times too high: by the modified Fournier index the
// value, by both the band.
func unitedStates(x Fournier) Erosivity {
	index, annual := renardIndex(x.Modified), renardAnnual(x.Annual)
	return Erosivity{
		R: geodata.Estimate{Value: index, Low: min(index, annual) / bandR, High: max(index, annual) * bandR},
		Source: fmt.Sprintf("modified Fournier index of %.0f mm and %.0f mm of rain in a year by Renard & Freimund (1994)"+
			" for the continental United States", x.Modified, x.Annual),
	}
}

// renardIndex is the erosivity by a modified Fournier index in mm. The factor
// is often misprinted as 0.07397, with which the two branches do not meet.
func renardIndex(f float64) float64 {
	if f < 55 {
		return 0.7397 * math.Pow(f, 1.847)
	}
	return 95.77 - 6.081*f + 0.4770*f*f
}

// renardAnnual is the erosivity by the rain of the year in mm.
func renardAnnual(p float64) float64 {
	if p <= 850 {
		return 0.0483 * math.Pow(p, 1.610)
	}
	return 587.8 - 1.219*p + 0.004105*p*p
}

// erosivityByHand is a figure given by a person, MJ mm/(ha h) a year, in a band
// of 1.5 either way, a default of ours. Outside 10 to 20 000 it is ErrRange.
func erosivityByHand(r float64) (Erosivity, error) {
	if !(r >= 10 && r <= 20000) {
		return Erosivity{}, fmt.Errorf("erosivity of %g MJ mm/(ha h) a year, not 10 to 20 000: %w", r, ErrRange)
	}
	return Erosivity{R: widened(geodata.Exactly(r), bandR), Source: "given by hand"}, nil
}
