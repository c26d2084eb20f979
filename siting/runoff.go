package siting

import (
	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// DesignStorm is what one return period brings: a burst that edges are judged
// by, and a wet day that hollows and soakaways are.
type DesignStorm struct {
	ReturnYears float64           `json:"return_period_years"`
	Minutes     float64           `json:"burst_minutes"`
	Depth       geodata.Estimate  `json:"burst_mm"`
	Rate        geodata.Estimate  `json:"burst_mm_per_h"`
	Day         *geodata.Estimate `json:"day_mm"`        // null: beyond the figures
	DayRunoff   *geodata.Estimate `json:"day_runoff_mm"` // what runs off the plot of it; null: cannot be told
	DayRunoffOf string            `json:"day_runoff_said"`
	Source      string            `json:"source"`
}

// Crossing is a stretch of the boundary where water comes in or goes out.
type Crossing struct {
	Side  string           `json:"side"`
	At    orb.Point        `json:"at"`
	Width float64          `json:"width_m"`          // of the stretch, across the way of the water; 0: not told
	Area  geodata.Estimate `json:"draining_area_m2"` // that reaches it
	Share float64          `json:"share"`            // of all that crosses the same way; 0: not told
}

// CoverLoss is the yearly soil loss of the plot under one cover.
type CoverLoss struct {
	Cover   string           `json:"cover"`
	Loss    geodata.Estimate `json:"t_per_ha"`
	Said    string           `json:"said"` // beside what soil forms in a year
	Because string           `json:"because"`
}

// EdgeWater is the sheet of water that one design storm sends to a bed's upper
// edge.
type EdgeWater struct {
	ReturnYears float64          `json:"return_period_years"`
	Flow        geodata.Estimate `json:"run_on_litres_per_s"`
	Depth       geodata.Estimate `json:"depth_mm"`
	Speed       geodata.Estimate `json:"speed_m_per_s"`
	Shear       geodata.Estimate `json:"shear_pa"`           // on the ground and what grows there
	Pull        geodata.Estimate `json:"pull_on_compost_pa"` // on loose compost that it meets
	Moves       string           `json:"loose_compost"`      // Moves, LikelyMoves, MayMove or LiesStill
}

// AtRisk is the compost that one way of edging a bed puts at risk in a winter.
type AtRisk struct {
	Edge    string           `json:"edge"`
	Lost    geodata.Estimate `json:"compost_kg"`
	Litres  geodata.Estimate `json:"compost_litres"`
	Share   geodata.Estimate `json:"share_of_fill_percent"`
	Because string           `json:"because"`
}

// DrainingArea is the ground that drains on to a bed.
type DrainingArea struct {
	InPlot    geodata.Estimate `json:"in_plot_m2"`
	Hillside  geodata.Estimate `json:"on_hillside_m2"`
	Outside   geodata.Estimate `json:"outside_survey_m2"` // assumed
	Said      string           `json:"said"`
	Outline   [][]orb.Point    `json:"outline,omitempty"`
	RisesOver bool             `json:"goes_on_beyond_survey"`
}

// BedWater is what winter rain does at one bed.
type BedWater struct {
	Area DrainingArea `json:"draining_area"`
	// RunOnWithBeds is the slope above that still drains on to the bed when the
	// framed beds above it are built.
	RunOnWithBeds geodata.Estimate `json:"run_on_length_with_beds_m"`
	Edge          []EdgeWater      `json:"at_upper_edge"`
	// MovesFrom is the length of slope above at which the one-in-ten storm
	// begins to move loose compost; null where the ground is too flat to tell.
	MovesFrom *geodata.Estimate `json:"compost_moves_from_m"`
	AtRisk    []AtRisk          `json:"compost_at_risk"`
}

// Advice is one thing to do about winter water, with the figures it rests on.
type Advice struct {
	What string `json:"what"`
	Why  string `json:"why"`
	Bed  string `json:"bed,omitempty"`
}

// What loose compost does under a sheet of water.
const (
	Moves       = "moves"        // over the whole band of the pull
	LikelyMoves = "likely moves" // at the value
	MayMove     = "may move"     // at the upper end of the band
	LiesStill   = "lies still"
)

// Meets are the beds whose place a path runs over.
func (p Path) Meets() []string { return p.Crosses }

// Turns are the beds whose boards turn a path.
func (p Path) Turns() []string { return p.TurnedBy }
