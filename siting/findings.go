package siting

import (
	"errors"
	"fmt"

	"crossfall/geodata"
	"crossfall/siting/rain"
	"crossfall/terrain/surface"
)

// groundFault tells a grower why no surface could be fitted.
func groundFault(p *geodata.Plot, err error) error {
	f := geodata.Fault{Code: "ground-not-fitted", Pos: geodata.Pos{File: "heights"}, Message: err.Error()}
	if len(p.Spots) > 0 {
		f.Pos = geodata.Pos{File: p.Spots[0].Source.File}
	}
	switch {
	case errors.Is(err, surface.ErrTooFewHeights) && p.Site.Ground.Surface != "":
		f.Code, f.Want = "heights-too-few", "leave ground.surface out of site.toml, or give more heights"
	case errors.Is(err, surface.ErrTooFewHeights):
		f.Code, f.Want = "heights-too-few", "give at least three heights, better nine or more spread over the plot"
	case errors.Is(err, surface.ErrHeightsInLine):
		f.Code, f.Want = "heights-in-line", "add heights well to one side of the line"
	}
	return geodata.Faults{f}
}

// assumedRain names what was taken of rain because nothing was said.
func assumedRain(winter *rain.Winter, burst rain.Burst) []Assumption {
	var out []Assumption
	if burst.Default {
		out = append(out, Assumption{
			What:  "rain of 15 minutes met once in 10 years on average",
			Value: fmt.Sprintf("%.0f mm/h: %s", burst.Rate.Value, burst.Source),
			Set:   "site.toml: rain.m5_60_mm and rain.ratio_r, or depths for short durations in rain.csv",
		})
	}
	switch {
	case winter == nil:
		out = append(out, Assumption{
			What: "winter rain", Value: "not said: no total is given",
			Set: "rain.csv with twelve monthly means, or site.toml: rain.winter_half_mm",
		})
	case winter.Assumed:
		out = append(out, Assumption{What: "wet half-year", Value: winter.Months, Set: "site.toml: place.latitude"})
	}
	return out
}

// tellFindings adds what the work itself found worth telling.
func (a *Assessment) tellFindings(j judge, found found, burst rain.Burst, decided []decision) {
	note := func(severity geodata.Severity, code, text string) {
		a.Findings = append(a.Findings, geodata.Fault{Code: code, Severity: severity, Pos: geodata.Pos{File: "site.toml"}, Message: text})
	}
	if found.Short != "" {
		note(geodata.Warning, "beds-do-not-fit", found.Short)
	}
	a.Findings = append(a.Findings, j.brief.weedsOfNoBed(a.Beds)...)
	for _, t := range outOfReach(a.Beds) {
		note(geodata.Warning, "bed-out-of-reach", t)
	}
	for _, n := range burst.Notes {
		note(geodata.Note, "rain", n)
	}
	for _, d := range decided {
		if d.runOn.edge && d.runOn.length.Value > 0 {
			if j.plot.Hillside != nil {
				break
			}
			note(geodata.Note, "run-on-from-outside", "the ground still rises at the edge of the survey above some beds: "+
				"water from beyond it is counted only as far as ground.uphill_length_m says")
			break
		}
	}
	if a.Findings == nil {
		a.Findings = geodata.Faults{}
	}
}
