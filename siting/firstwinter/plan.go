package firstwinter

import (
	"fmt"
	"slices"
	"time"

	"crossfall/geodata"
)

// Bed is a bed that is to be built.
type Bed struct {
	Name    string
	Boards  bool
	Sunken  bool // boards let into the ground
	Pegs    bool
	Channel bool     // a cut-off channel is to be dug above it
	Exposed bool     // loses enough of its compost over a winter to be worth a sheet
	Volume  float64  // of its compost as laid, m3
	Weeds   []Weed   // met in this bed and not all over
	Way     *float64 // steepest rise of the way by which it is filled, ratio; nil: not known
}

// Input is what the order of work depends on.
type Input struct {
	Monthly  []float64 // rain, mm, January first; nil: not given
	Latitude *float64  // degrees; nil: not given
	Turf     bool      // grass grows where the beds go
	Unasked  bool      // not every service is accounted for
	Soakaway bool      // one is to be dug
	Weeds    []Weed    // met all over
	Beds     []Bed     // in the order of the plot; those that are not built are left out
	Barrow   float64
	Litres   float64          // of compost as laid in one load, over 0
	Load     geodata.Estimate // mass of one load, kg
}

// Plan is the order of work.
type Plan struct {
	Season Season  `json:"wet_season"`
	Steps  []Step  `json:"steps"`
	Covers []Cover `json:"covers"` // one for each bed
	Weeds  []Met   `json:"weeds"`
	// Wet says when to leave off, and what may be carried on wet ground.
	Wet []WetLoad `json:"wet_ground"`
}

// Step is one piece of work with its months.
type Step struct {
	First time.Month `json:"first_month"` // 1 is January
	Last  time.Month `json:"last_month"`
	Year  int        `json:"year"` // 1: that of the first work, then 2, ...
	What  string     `json:"what"`
	Why   string     `json:"why"`
	Beds  []string   `json:"beds"` // empty: the whole plot
	// Source is where its figures come from; empty where there are none.
	Source string `json:"source,omitempty"`
}

// Met is a weed met when digging.
type Met struct {
	Common    string            `json:"common_name"`
	Botanical string            `json:"botanical_name"`
	Beds      []string          `json:"beds"` // empty: all over the plot
	Spreads   string            `json:"spreads"`
	First     string            `json:"first,omitempty"` // before it is covered
	Cardboard int               `json:"cardboard_layers"`
	Layers    int               `json:"cover_layers"`
	Months    *geodata.Estimate `json:"months_covered"` // null where it must not be covered
	Leave     string            `json:"leave,omitempty"`
	Source    string            `json:"source"`
}

// Cover is what lies under and over one bed.
type Cover struct {
	Bed       string            `json:"bed"`
	Cardboard int               `json:"cardboard_layers"`
	Layers    int               `json:"cover_layers"`   // of woven cover over the compost; 0: none
	Months    *geodata.Estimate `json:"months_covered"` // null without cover
	LiftMonth time.Month        `json:"lift_month"`     // 0 without cover
	LiftYear  int               `json:"lift_year"`      // counted as a step's
	Against   []string          `json:"against"`        // weeds, or rain on bare compost
}

// Make puts the work in order. No beds make a plan without steps.
func Make(in Input) Plan {
	p := Plan{Season: WetSeason(in.Monthly, in.Latitude), Steps: []Step{}, Covers: []Cover{}, Weeds: in.met(), Wet: wetLoads(in)}
	if len(in.Beds) == 0 {
		return p
	}
	for _, b := range in.Beds {
		p.Covers = append(p.Covers, coverOf(b, in, p.Season))
	}
	b := builder{in: in, season: p.Season, covers: p.Covers, weeds: p.Weeds}
	b.before()
	b.over()
	b.after()
	p.Steps = b.steps
	return p
}

// Layers are the sheets of cardboard under a bed and the layers of cover over it.
func (p Plan) Layers(bed string) (cardboard, cover int) {
	for _, c := range p.Covers {
		if c.Bed == bed {
			return c.Cardboard, c.Layers
		}
	}
	return 1, 0
}

// met is every weed once, those met all over first and then bed by bed.
func (in Input) met() []Met {
	out := []Met{}
	for _, w := range in.Weeds {
		out = append(out, metWeed(w))
	}
	for _, b := range in.Beds {
		for _, w := range b.Weeds {
			i := slices.IndexFunc(out, func(m Met) bool { return m.Common == w.Common })
			if i < 0 {
				i, out = len(out), append(out, metWeed(w))
			}
			out[i].Beds = append(out[i].Beds, b.Name)
		}
	}
	return out
}

func metWeed(w Weed) Met {
	m := Met{Common: w.Common, Botanical: w.Botanical, Beds: []string{}, Spreads: w.Spreads, First: w.First, Leave: w.Leave, Source: CommonPractice}
	if w.Leave == "" {
		m.Cardboard, m.Layers, m.Months = w.Cardboard, w.Layers(), &w.Months
	}
	return m
}

// begins is how many months before the season the work begins.
const begins = 5

// year is the year of a month so far from the season's first, 1 being that in
// which the work begins.
func (s Season) year(by int) int {
	floor := func(n int) int { return (n+12*10)/12 - 10 }
	first := int(s.First) - 1
	return floor(first+by) - floor(first-begins) + 1
}

// names lists the beds that a test picks.
func (in Input) names(pick func(Bed) bool) []string {
	out := []string{}
	for _, b := range in.Beds {
		if pick(b) {
			out = append(out, b.Name)
		}
	}
	return out
}

// builder lists steps as they are settled.
type builder struct {
	in     Input
	season Season
	covers []Cover
	weeds  []Met
	steps  []Step
}

// step adds work from so many months before the season's first month (negative)
// or after it, to another. It is left out where it is for no bed, unless beds is
// nil.
func (b *builder) step(from, to int, beds []string, source, what, why string, args ...any) {
	if beds != nil && len(beds) == 0 {
		return
	}
	if beds == nil || len(beds) == len(b.in.Beds) {
		beds = []string{}
	}
	b.steps = append(b.steps, Step{First: later(b.season.First, from), Last: later(b.season.First, to), Year: b.season.year(from),
		What: what, Why: fmt.Sprintf(why, args...), Beds: slices.Clone(beds), Source: source})
}
