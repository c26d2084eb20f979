package siting

import (
	"fmt"

	"crossfall/geodata"
	"crossfall/siting/layout"
)

// DefaultPairPath is the path inside a pair of rows, m: wide enough to kneel in,
// too narrow for a barrow (common practice, no source).
const DefaultPairPath = 0.45

// RowWish is how the beds that are placed are to stand, and what places are
// weighed by.
type RowWish struct {
	Most     bool // as many as fit
	RowMin   int
	Columns  bool
	Pairs    bool
	PairPath float64 // m
	// SunCounts and CarryingCounts multiply the marks for sun and carrying.
	SunCounts, CarryingCounts float64
}

// rows settles them.
func (s *settler) rows(b *Brief, w geodata.BedWish) {
	b.Most, b.Columns, b.Pairs = w.Most, w.Columns, w.Pairs
	if w.RowMin != nil {
		b.RowMin = *w.RowMin
	}
	if b.Pairs {
		b.PairPath = min(b.Path, s.number(w.PairPath, 1, DefaultPairPath, "path between the rows of a pair", "0.45 m (common practice)", "site.toml: beds.pair_path_m"))
	}
	b.SunCounts, b.CarryingCounts = 1, 1
	if w.Sun != nil {
		b.SunCounts = *w.Sun
	}
	if w.Carrying != nil {
		b.CarryingCounts = *w.Carrying
	}
}

// assumedMarks names what places for beds were weighed by.
func (b Brief) assumedMarks() []Assumption {
	return []Assumption{
		{
			What: "marks of a place for a bed",
			Value: fmt.Sprintf("%.0f, less %.0f for each class of edge graver than open, %.1f for each percent of fall and %.0f more for each percent along the long side, "+
				"%.0f for a long side over 15 degrees off the contour, %.0f where the survey does not tell the ground, "+
				"%.0f for each millimetre of water from above (at most %.0f) and %.0f on damp ground",
				layout.FullMarks, costClass, costFall/100, costAlong/100, costTurned, costUnknown, costRunOn, mostRunOn, costDamp),
			Set: "draw the beds yourself where you would weigh otherwise",
		},
		{
			What:  "marks for sun",
			Value: fmt.Sprintf("%.1f off for each hour of direct sun less than the whole day of the March equinox", b.SunCounts*costDark),
			Set:   "site.toml: beds.sun_counts",
		},
		{
			What: "marks for carrying",
			Value: fmt.Sprintf("%.1f off for each metre of a barrow's way from the gate or heap, %.1f for each metre up from it, and %.0f where no barrow gets to",
				b.CarryingCounts*costCarry, b.CarryingCounts*costClimb, b.CarryingCounts*costCutOff),
			Set: "site.toml: beds.carrying_counts",
		},
		{
			What: "rows of beds",
			Value: fmt.Sprintf("each row takes off %.0f marks, and rows in one direction are kept unless another layout is %.0f %% better or holds more beds (of as many as fit, over 5 in 100 more)",
				layout.DefaultRowCost, 100*layout.DefaultNeatGain),
			Set: "site.toml: beds.row_min, beds.columns, beds.pairs",
		},
	}
}
