package rain

import (
	"math"

	"crossfall/geodata"
)

// growthTen is M10/M5 by the depth of M5 in mm: the ten-year depths over the
// five-year depths that a soakaway calculation to BRE Digest 365 prints for
// England and Wales (Flood Studies Report 1975 lineage).
var growthTen = [][2]float64{
	{10.4, 1.22}, {12.6, 1.23}, {16.0, 1.24}, {20.0, 1.24}, {24.2, 1.24}, {29.0, 1.22},
	{32.0, 1.21}, {35.8, 1.20}, {44.8, 1.18}, {52.4, 1.17}, {61.0, 1.15},
}

// TenYearGrowth is M10/M5 for a five-year depth in mm, linear between the
// printed depths of 10.4 to 61 mm. Outside these the nearest printed factor is
// given and inside is false.
func TenYearGrowth(m5 float64) (factor float64, inside bool) {
	return along(growthTen, m5), m5 >= growthTen[0][0] && m5 <= growthTen[len(growthTen)-1][0]
}

// Growth factors of the Flood Studies Report (1975) for England and Wales by
// the five-year depth in mm, from memory of table 2 of BRE Digest 365 (1991).
// Its column for ten years agrees with growthTen to the hundredth, but for 0.007
// at 61 mm.
var (
	growthTwo = [][2]float64{{5, 0.79}, {10, 0.79}, {15, 0.80}, {20, 0.81}, {25, 0.82}, {30, 0.83},
		{40, 0.84}, {50, 0.85}, {75, 0.87}, {100, 0.88}, {200, 0.88}}
	growthTwenty = [][2]float64{{5, 1.36}, {10, 1.41}, {15, 1.44}, {20, 1.45}, {25, 1.44}, {30, 1.42},
		{40, 1.38}, {50, 1.34}, {75, 1.28}, {100, 1.25}, {150, 1.21}, {200, 1.19}}
	growthFifty = [][2]float64{{5, 1.56}, {10, 1.65}, {15, 1.70}, {20, 1.73}, {25, 1.72}, {30, 1.70},
		{40, 1.64}, {50, 1.58}, {75, 1.47}, {100, 1.40}, {150, 1.33}, {200, 1.30}}
	growthHundred = [][2]float64{{5, 1.79}, {10, 1.91}, {15, 1.99}, {20, 2.03}, {25, 2.01}, {30, 1.97},
		{40, 1.89}, {50, 1.81}, {75, 1.64}, {100, 1.54}, {150, 1.45}, {200, 1.40}}
)

// along reads a table linearly; outside it the nearest figure stands.
func along(table [][2]float64, x float64) float64 {
	for i, b := range table {
		if x <= b[0] {
			if i == 0 {
				break
			}
			a := table[i-1]
			return a[1] + (x-a[0])/(b[0]-a[0])*(b[1]-a[1])
		}
	}
	if x > table[len(table)-1][0] {
		return table[len(table)-1][1]
	}
	return table[0][1]
}

// The return periods from which and to which depths are brought, years.
const (
	leastYears    = 2
	greatestYears = 100
)

// growth is MT/M5 with its range for a return period of 2 to 100 years, linear
// in the logarithm of T between 2, 5, 10, 20, 50 and 100 years. The ranges are
// defaults of ours. Half a printed step and the spread of regions make that of
// ten years. That of two years holds the 0.74 and 0.80 which the 10-minute
// maxima of Uccle 1938-1972 (Sneyers 1977) give by a Gumbel and a generalised
// extreme value fit; those of the rarer ones reach down to M30/M5 of 1.45 and
// M100/M5 of 1.8, which are in use too.
func growth(years, m5 float64) geodata.Estimate {
	ten, inside := TenYearGrowth(m5)
	spread := 0.02
	if !inside {
		spread = 0.05
	}
	about := func(v, less, more float64) geodata.Estimate {
		return geodata.Estimate{Value: v, Low: v - less, High: v + more}
	}
	knots := []struct {
		years float64
		g     geodata.Estimate
	}{
		{2, about(along(growthTwo, m5), 0.10, 0.03)},
		{5, geodata.Exactly(1)},
		{10, about(ten, spread, spread)},
		{20, about(along(growthTwenty, m5), 0.06, 0.04)},
		{50, about(along(growthFifty, m5), 0.20, 0.10)},
		{100, about(along(growthHundred, m5), 0.20, 0.15)},
	}
	i := 1
	for i < len(knots)-1 && years > knots[i].years {
		i++
	}
	a, b := knots[i-1], knots[i]
	at := func(v, w float64) float64 { return alongLog(years, a.years, v, b.years, w) }
	return geodata.Estimate{Value: at(a.g.Value, b.g.Value), Low: at(a.g.Low, b.g.Low), High: at(a.g.High, b.g.High)}
}

// fiveYear is the five-year depth behind the depth of another return period.
func fiveYear(depth, years float64) float64 {
	m5 := depth
	for range 3 { // the factor depends little on the depth
		m5 = depth / growth(years, m5).Value
	}
	return m5
}

// toYears brings the depth of one return period to another.
func toYears(depth, years, wanted float64) geodata.Estimate {
	m5 := fiveYear(depth, years)
	from, to := growth(years, m5), growth(wanted, m5)
	if years == wanted {
		return geodata.Exactly(depth)
	}
	return geodata.Estimate{
		Value: depth * to.Value / from.Value,
		Low:   depth * math.Min(to.Low/from.High, to.Value/from.Value),
		High:  depth * math.Max(to.High/from.Low, to.Value/from.Value),
	}
}
