package rain

import (
	"fmt"
	"math"

	"crossfall/geodata"

	"gonum.org/v1/gonum/stat"
)

// Winter is the rain of the winter half-year.
type Winter struct {
	// Total is the mean of the six months together, mm, with the band in
	// which 19 single winters out of 20 lie.
	Total geodata.Estimate
	// Months names the six months: "October to March" or "April to September".
	Months string
	// Indices are the same months in their order, January 0.
	Indices [6]int
	// Assumed is true when the months were chosen without a latitude.
	Assumed bool
	Source  string // where the total comes from, and what its band is, in words
}

// The two winter half-years.
var (
	northWinter = [6]int{9, 10, 11, 0, 1, 2}
	southWinter = [6]int{3, 4, 5, 6, 7, 8}
)

const (
	// winterVariation is the coefficient of variation of the October to March
	// total from winter to winter: 0.215 over the 47 winters 1914-15 to
	// 1960-61 of the south-west England gauge published with Coles & Tawn
	// (1996) and in Coles, An Introduction to Statistical Modeling of Extreme
	// Values (2001). That other places vary alike is a default of ours.
	winterVariation = 0.215
	// normalYears is the record behind a mean that names none: a climate
	// normal of the World Meteorological Organization is 30 years.
	normalYears = 30
)

// WinterHalf adds up the winter half-year: October to March north of the
// equator, April to September south of it, October to March when latitude
// (degrees, north positive) is nil. wish.WinterHalf, written by hand, goes
// before the monthly means of r. The band holds 95 % of single winters, taken
// as normally distributed about the mean, and the uncertainty of a mean of
// r.Years winters (30 when not known); a daily record of ten winters or more
// says itself how they vary. It is nil without usable figures;
// depth-duration figures say nothing of a winter.
func WinterHalf(r geodata.Rain, wish geodata.RainWish, latitude *float64) *Winter {
	w := &Winter{Months: "October to March", Indices: northWinter, Assumed: latitude == nil}
	if latitude != nil && *latitude < 0 {
		w.Months, w.Indices = "April to September", southWinter
	}
	switch {
	case wish.WinterHalf != nil && depthOK(*wish.WinterHalf):
		w.Total = oneWinter(*wish.WinterHalf, winterVariation, 0)
		w.Source = "given by hand in site.toml (rain.winter_half_mm)"
	case monthsOK(r.Monthly):
		sum := 0.0
		for _, m := range w.Indices {
			sum += r.Monthly[m]
		}
		w.Source = fmt.Sprintf("%s, %s added up", named(r.From, "monthly means in rain.csv"), w.Months)
		if own, winters := ownVariation(r, latitude); winters >= LeastBlocks {
			w.Total = oneWinter(sum, own, float64(winters))
			w.Source += fmt.Sprintf("; 19 single winters out of 20 lie between %.0f and %.0f mm, as its %d winters vary",
				w.Total.Low, w.Total.High, winters)
			return w
		}
		w.Total = oneWinter(sum, winterVariation, r.Years)
	default:
		return nil
	}
	w.Source += fmt.Sprintf("; 19 single winters out of 20 lie between %.0f and %.0f mm"+
		" if they vary as in south-west England 1914 to 1961", w.Total.Low, w.Total.High)
	return w
}

// oneWinter is a mean with the 95 % band of a single winter: the variation of
// one winter and the error of a mean of so many winters, added in quadrature.
func oneWinter(mean, variation, years float64) geodata.Estimate {
	if !(years >= 1) {
		years = normalYears
	}
	half := 1.96 * variation * math.Sqrt(1+1/years)
	return geodata.Estimate{Value: mean, Low: math.Max(0, mean*(1-half)), High: mean * (1 + half)}
}

// ownVariation is the coefficient of variation of the winters of a daily record
// and their number; winters of which some days were not read are raised to their
// full length.
func ownVariation(r geodata.Rain, latitude *float64) (variation float64, winters int) {
	if r.Daily == nil {
		return 0, 0
	}
	var totals []float64
	for _, b := range Record(*r.Daily).WinterHalves(latitude) {
		if b.Counted {
			totals = append(totals, b.Total*float64(b.Days)/float64(b.Read))
		}
	}
	mean, sd := stat.MeanStdDev(totals, nil)
	if len(totals) < 2 || mean == 0 {
		return 0, 0
	}
	return sd / mean, len(totals)
}

// monthsOK is true for twelve depths.
func monthsOK(months []float64) bool {
	for _, m := range months {
		if !depthOK(m) {
			return false
		}
	}
	return len(months) == 12
}

// depthOK is true for a finite depth of 0 or more.
func depthOK(mm float64) bool { return mm >= 0 && !math.IsInf(mm, 1) }
