package rain

import (
	"math"

	"crossfall/geodata"
)

// growthTen is M10/M5 by the depth of M5 in mm: the ten-year depths over the
// five-year depths that a soakaway calculation to BRE Digest 365 prints for
// England and Wales (Flood Studies Report 1975 lineage).
var growthTen = []struct{ depth, factor float64 }{
	{10.4, 1.22}, {12.6, 1.23}, {16.0, 1.24}, {20.0, 1.24}, {24.2, 1.24}, {29.0, 1.22},
	{32.0, 1.21}, {35.8, 1.20}, {44.8, 1.18}, {52.4, 1.17}, {61.0, 1.15},
}

// TenYearGrowth is M10/M5 for a five-year depth in mm, linear between the
// printed depths of 10.4 to 61 mm. Outside these the nearest printed factor is
// given and inside is false.
func TenYearGrowth(m5 float64) (factor float64, inside bool) {
	first, last := growthTen[0], growthTen[len(growthTen)-1]
	switch {
	case !(m5 >= first.depth):
		return first.factor, false
	case m5 > last.depth:
		return last.factor, false
	}
	for i := 1; i < len(growthTen); i++ {
		a, b := growthTen[i-1], growthTen[i]
		if m5 <= b.depth {
			return a.factor + (m5-a.depth)/(b.depth-a.depth)*(b.factor-a.factor), true
		}
	}
	return last.factor, true
}

// The return periods from which a ten-year depth is worked, years.
const (
	leastYears    = 2
	greatestYears = 100
)

// growth is MT/M5 with its range for a return period of 2 to 100 years, linear
// in the logarithm of T between 2, 5, 10, 30 and 100 years. M10/M5 is printed
// (TenYearGrowth; half a printed step and the spread of regions make the
// range); M30/M5 of 1.45 to 1.5 and M100/M5 of 1.8 to 2.0 are the Flood Studies
// Report's from memory. M2/M5 of 0.68 to 0.82 is a default of ours: the
// 10-minute maxima of Uccle 1938-1972 (Sneyers 1977) give 0.74 by a Gumbel and
// 0.80 by a generalised extreme value fit.
func growth(years, m5 float64) geodata.Estimate {
	ten, inside := TenYearGrowth(m5)
	spread := 0.02
	if !inside {
		spread = 0.05
	}
	knots := []struct {
		years float64
		g     geodata.Estimate
	}{
		{2, geodata.Estimate{Value: 0.77, Low: 0.68, High: 0.82}},
		{5, geodata.Exactly(1)},
		{10, geodata.Estimate{Value: ten, Low: ten - spread, High: ten + spread}},
		{30, geodata.Estimate{Value: 1.475, Low: 1.45, High: 1.5}},
		{100, geodata.Estimate{Value: 1.9, Low: 1.8, High: 2.0}},
	}
	for i := 1; i < len(knots); i++ {
		a, b := knots[i-1], knots[i]
		if years > b.years && i < len(knots)-1 {
			continue
		}
		f := math.Log(years/a.years) / math.Log(b.years/a.years)
		return geodata.Estimate{
			Value: a.g.Value + f*(b.g.Value-a.g.Value),
			Low:   a.g.Low + f*(b.g.Low-a.g.Low),
			High:  a.g.High + f*(b.g.High-a.g.High),
		}
	}
	return geodata.Exactly(1)
}

// toTenYears brings the depth of another return period to ten years.
func toTenYears(depth, years float64) geodata.Estimate {
	m5 := depth / growth(years, depth).Value
	from, to := growth(years, m5), growth(designYears, m5)
	return geodata.Estimate{
		Value: depth * to.Value / from.Value,
		Low:   depth * to.Low / from.High,
		High:  depth * to.High / from.Low,
	}
}
