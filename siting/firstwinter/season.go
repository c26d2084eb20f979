package firstwinter

import (
	"fmt"
	"math"
	"time"
)

// Season is the part of the year in which the ground is wet.
type Season struct {
	First time.Month `json:"first_month"` // 1 is January
	Last  time.Month `json:"last_month"`
	// Share is the part of the year's rain that falls in it, percent; null without
	// twelve monthly means.
	Share *float64 `json:"share_of_rain_percent"`
	Why   string   `json:"why"`
}

// Months names a season or another span of months.
func Months(first, last time.Month) string {
	if first == last {
		return first.String()
	}
	return first.String() + " to " + last.String()
}

const (
	seasonLength = 6
	// marked is the share of the year's rain from which the wettest half-year is
	// called the wet season; a default of ours.
	marked = 0.55
	// tropic is the latitude of the tropics, degrees.
	tropic = 23.44
)

// WetSeason is the wettest six months in a row of twelve monthly means (mm,
// January first) where they bring 55 % of the year's rain or more. Where rain is
// spread evenly, or none is given, it is the winter half-year, in which little
// dries: October to March, and April to September at a latitude south of the
// equator. Within the tropics there is no winter: then the wettest six months
// count however even they are.
func WetSeason(monthly []float64, latitude *float64) Season {
	winter := Season{First: time.October, Last: time.March}
	switch {
	case latitude == nil:
		winter.Why = "taken as the winter half-year of the north: neither a latitude nor monthly rain tells it"
	case *latitude < 0:
		winter.First, winter.Last = time.April, time.September
		winter.Why = "the winter half-year south of the equator, when little dries; no monthly rain is given"
	default:
		winter.Why = "the winter half-year north of the equator, when little dries; no monthly rain is given"
	}
	year := 0.0
	for _, m := range monthly {
		year += m
	}
	if len(monthly) != 12 || !(year > 0) || math.IsInf(year, 1) {
		return winter
	}
	wettest, most := wettestHalf(monthly, winter.First)
	share := 100 * most / year
	out := Season{First: wettest, Last: later(wettest, seasonLength-1), Share: &share}
	if share >= 100*marked || (latitude != nil && math.Abs(*latitude) < tropic) {
		out.Why = fmt.Sprintf("the wettest six months in a row by the monthly rain, with %.0f %% of the year's", share)
		return out
	}
	own := 100 * sumFrom(monthly, winter.First) / year
	winter.Share = &own
	winter.Why = fmt.Sprintf("the winter half-year, when little dries: rain is spread over the year, and its wettest six months, %s, bring %.0f %% of it",
		Months(out.First, out.Last), share)
	return winter
}

// wettestHalf is the first month of the wettest six in a row; of equals the first
// one from a month on.
func wettestHalf(monthly []float64, from time.Month) (first time.Month, most float64) {
	most = math.Inf(-1)
	for i := range 12 {
		m := later(from, i)
		if s := sumFrom(monthly, m); s > most+1e-9 {
			first, most = m, s
		}
	}
	return first, most
}

func sumFrom(monthly []float64, first time.Month) float64 {
	sum := 0.0
	for i := range seasonLength {
		sum += monthly[later(first, i)-1]
	}
	return sum
}

// later is the month so many months after another; negative before it.
func later(m time.Month, by int) time.Month { return time.Month(((int(m)-1+by)%12+12)%12 + 1) }

// grows tells whether weeds grow in a month: from April to September in the north,
// the other half in the south, and always within the tropics; a default of ours.
func grows(m time.Month, latitude *float64) bool {
	if latitude != nil && math.Abs(*latitude) < tropic {
		return true
	}
	north := m >= time.April && m <= time.September
	return north == (latitude == nil || *latitude >= 0)
}
