package rain

import (
	"cmp"

	"crossfall/geodata"
)

// stormYears are the return periods of the design storms.
var stormYears = [3]float64{2, 10, 30}

// DesignStorms are the 15-minute bursts met once in 2, 10 and 30 years on
// average, in this order; other durations of each are had from In, DepthIn and
// Hyetograph. They are worked from the best figures there are: the
// depth-duration figures of r; else wish.M5Hour and wish.Ratio by Z1 and
// growth; else the greatest winter days of the daily record of r, from ten
// winters on (the latitude, degrees, north positive, tells the winter half;
// October to March when nil), and then a return period is that of winters;
// else M5-60 minutes and ratio by default, in a band of 1.5 either way.
// Monthly means never make a burst.
//
// Figures are brought to the return period first (growth factors of the Flood
// Studies Report), then to the duration: between two durations linearly in the
// logarithm of the duration, past the shortest or longest by Z1 where
// wish.Ratio is given and by the cube-root rule where it is not. Figures outside
// 1 to 5760 minutes or 2 to 100 years (unless two return periods lie about the
// one wanted), ratios outside 0.20 to 0.45 and hours outside 3 to 150 mm are
// left out with a note. The band is wider the further a figure was brought.
func DesignStorms(r geodata.Rain, wish geodata.RainWish, latitude *float64) [3]Burst {
	days := designDays(r, latitude)
	var out [3]Burst
	for i, years := range stormYears {
		out[i] = designStorm(r, wish, days, years)
	}
	return out
}

// designStorm works one return period.
func designStorm(r geodata.Rain, wish geodata.RainWish, days dayLevels, years float64) Burst {
	b := Burst{ReturnYears: years, Said: allYear}
	ratio := b.ratio(wish.Ratio)
	hour := b.hour(wish.M5Hour)
	winter := days.law(years, ratio)
	switch points := b.brought(r.Bursts); {
	case len(points) > 0:
		b.law = b.fromFigures(r, points, ratio)
		if hour != nil {
			b.note("rain.m5_60_mm in site.toml was not used: rain.csv gives depths for short durations")
		}
	case hour != nil:
		b.law = hourLaw{hour: *hour, given: true, ratio: ratio, years: years}
	case winter != nil:
		b.law, b.Said = *winter, winterOnly
	default:
		b.law, b.Default = hourLaw{hour: DefaultHour, ratio: ratio, years: years}, true
		if len(r.Monthly) > 0 && r.Daily == nil {
			b.note("monthly means say nothing of a short burst: the default stands")
		}
	}
	if days.why != "" {
		b.note("%s", days.why)
	}
	day := b.law.at(1440)
	if winter != nil {
		day = winter.at(1440)
	}
	b.Day, b.DaySource = day.depth, day.how
	return b.in(DesignMinutes)
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

// named is a text, or another one where it is empty.
func named(text, otherwise string) string { return cmp.Or(text, otherwise) }
