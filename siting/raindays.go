package siting

import (
	"crossfall/geodata"
	"crossfall/siting/rain"
)

// RainDays is how deep the greatest days of the daily record are, by three ways
// of counting that stand beside each other.
type RainDays struct {
	From    string     `json:"from"`
	Winters []DayLevel `json:"greatest_day_of_a_winter"`
	Years   []DayLevel `json:"greatest_day_of_a_year"`
	Storms  []DayLevel `json:"days_over_a_threshold"` // empty, with StormsWhy, where they are too few
	// StormsWhy says why there are none over a threshold.
	StormsWhy string   `json:"days_over_a_threshold_why,omitempty"`
	Models    []string `json:"models"` // what was fitted, and the bands, in words
	// Greatest is the greatest day of each winter that was fitted, in their order.
	Greatest []float64 `json:"greatest_days_of_winters_mm"`
}

// DayLevel is the depth of one return period, as read at a fixed hour.
type DayLevel struct {
	ReturnYears  float64          `json:"return_period_years"`
	Depth        geodata.Estimate `json:"depth_mm"`
	Extrapolated bool             `json:"extrapolated"` // the record is too short for it
}

// dayYears are the return periods that the greatest days are told for.
var dayYears = []float64{2, 10, 30, 100}

// rainDays are the greatest days of the record; nil without one of ten years, when
// the design storms have said why.
func rainDays(p *geodata.Plot) *RainDays {
	f, err := rain.FrequencyOfDays(p.Rain, p.Site.Place.Latitude, rain.FrequencyOptions{Years: dayYears})
	if err != nil {
		return nil
	}
	out := &RainDays{From: p.Rain.From, Winters: dayLevels(f.Winters), Years: dayLevels(f.Years), Storms: []DayLevel{}, StormsWhy: f.StormsWhy}
	out.Greatest = rain.Maxima(rain.Record(*p.Rain.Daily).WinterHalves(p.Site.Place.Latitude))
	out.Models = append(out.Models, "winters: "+f.Winters.Model, "years: "+f.Years.Model)
	if f.Storms != nil {
		out.Storms = dayLevels(*f.Storms)
		out.Models = append(out.Models, "over a threshold: "+f.Storms.Model)
	}
	return out
}

func dayLevels(f rain.Frequency) []DayLevel {
	var out []DayLevel
	for _, l := range f.Levels {
		out = append(out, DayLevel{ReturnYears: l.Years, Depth: l.Depth, Extrapolated: l.Extrapolated})
	}
	return out
}
