package rain

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// summerWeight is how much more a summer month's rain may wash than its square
// says where summer storms are thundery (May to September, 1.5 to 2.5); common
// practice, no source.
const summerWeight = 2.5

// WinterShare is the share of the year's erosivity that falls in the winter
// half (October to March, south of the equator April to September; October when
// latitude is nil), from twelve monthly means, mm: the squares of the months are
// their weights. The band reaches to the share of the plain depths, and to what
// it is when the five summer months weigh 2.5 times as much, for places with
// summer thunder. Where the ground is frozen or under
// snow in winter none of this holds. Refusals as FournierOf.
func WinterShare(months []float64, latitude *float64) (geodata.Estimate, error) {
	if _, err := FournierOf(months); err != nil {
		return geodata.Estimate{}, err
	}
	winter, summer := northWinter, [5]int{4, 5, 6, 7, 8}
	if latitude != nil && *latitude < 0 {
		winter, summer = southWinter, [5]int{10, 11, 0, 1, 2}
	}
	var weights [12]float64
	plain, total := 0.0, 0.0
	for i, m := range months {
		weights[i] = m * m
		total += m
	}
	for _, i := range winter {
		plain += months[i] / total
	}
	square := shareOf(weights, winter)
	for _, i := range summer {
		weights[i] *= summerWeight
	}
	thundery := shareOf(weights, winter)
	return geodata.Estimate{Value: square, Low: min(thundery, square, plain), High: max(square, plain)}, nil
}

// shareOf is the share of the months named in the sum of all.
func shareOf(weights [12]float64, months [6]int) float64 {
	sum, part := 0.0, 0.0
	for _, w := range weights {
		sum += w
	}
	for _, i := range months {
		part += weights[i]
	}
	return part / sum
}

// The power of a day's rain, and the least day that washes, mm (Richardson,
// Foster & Wright, Transactions of the ASAE 26, 1983).
const (
	dayPower = 1.81
	leastDay = 12.7
)

// DayWeights are the erosive weights of the days of a record.
type DayWeights struct {
	PerYear     float64 // sum of the 1.81th powers of the days of 12.7 mm or more, a year
	WinterShare float64 // share of them in the winter half, 0 to 1
}

// DayWeights work the weights by the power law of Richardson, Foster & Wright
// (1983). They share a known erosivity of the year out over its days: a day of
// P mm has R P^1.81/PerYear. The law explains 85 % of the differences between
// years but only 70 % of those between storms, and its factor is known for the
// United States only, so it gives no erosivity by itself. A record under ten
// years of days read, or without a day of 12.7 mm, is ErrTooFew.
func (r Record) DayWeights(latitude *float64) (DayWeights, error) {
	winter := northWinter
	if latitude != nil && *latitude < 0 {
		winter = southWinter
	}
	var months [12]float64
	sum := 0.0
	for i, v := range r.MM {
		if v >= leastDay {
			w := math.Pow(v, dayPower)
			months[r.date(i).Month()-1] += w
			sum += w
		}
	}
	years := float64(r.Read()) / 365.25
	if years < 10 || sum == 0 {
		return DayWeights{}, fmt.Errorf("%.1f years of days read: %w", years, ErrTooFew)
	}
	return DayWeights{PerYear: sum / years, WinterShare: shareOf(months, winter)}, nil
}

// winterShare adds the share of the winter half, from the days of the record
// where it has ten years or more, else from the months.
func (e *Erosivity) winterShare(r geodata.Rain, latitude *float64) {
	share, err := WinterShare(r.Monthly, latitude)
	if err != nil {
		return
	}
	e.WinterSource = "squares of the monthly rain"
	if r.Daily != nil {
		if w, err := Record(*r.Daily).DayWeights(latitude); err == nil {
			share = geodata.Estimate{Value: w.WinterShare, Low: min(share.Low, w.WinterShare), High: max(share.High, w.WinterShare)}
			e.WinterSource = "1.81th powers of the days of 12.7 mm or more (Richardson, Foster & Wright 1983)"
		}
	}
	e.WinterShare = &share
}
