// Package setout puts beds and their pegs on the ground with a tape, a string
// and a level: beds in rows along a string whose two ends are taped from marks,
// squared by their diagonals, and boards brought to height from one peg.
package setout

import (
	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// Sheet is how to put every bed that may be built on the ground. Places are
// plan metres. Where it says left and right of a bed or a row, look uphill.
type Sheet struct {
	Marks []Mark `json:"marks"`
	Rows  []Row  `json:"rows"` // from the top of the ground down
	Beds  []Bed  `json:"beds"`
	Datum *Datum `json:"datum_peg"` // null where no bed has boards
	Steps []Step `json:"steps"`
	// Minutes is all steps together: a default of ours.
	Minutes geodata.Estimate `json:"minutes"`
	// Left are beds that are not set out because they must not be built.
	Left []string `json:"not_set_out"`
	Note string   `json:"note,omitempty"` // what is missing, such as a second mark
}

// Mark is a point to tape from.
type Mark struct {
	Name   string    `json:"name"`
	At     orb.Point `json:"at"`
	Height float64   `json:"ground_m"` // of the fitted ground
	// Proposed marks are not there yet: a cane is to be set first. Where says
	// where, Ties fixes it from other marks where nothing that stays does, and
	// Apart is how far the other marks stand from it.
	Proposed bool   `json:"to_be_set,omitempty"`
	Where    string `json:"where,omitempty"`
	Ties     []Tie  `json:"ties,omitempty"`
	Side     string `json:"side,omitempty"` // as in Corner
	Apart    []Tie  `json:"apart,omitempty"`

	cov Covariance
}

// Taped is one distance as a tape held level reads it, and as one pulled tight
// along the fitted ground does.
type Taped struct {
	Distance float64 `json:"distance_m"`
	OnSlope  float64 `json:"on_slope_m"`
}

// Tie is one taped distance from a mark.
type Tie struct {
	Mark string `json:"mark"`
	Taped
}

// Check is a tape that shows whether a point stands right.
type Check struct {
	Tie
	Allowed float64 `json:"allowed_mm"` // off, 95 times in 100
}

// Corner is one point taped from two marks.
type Corner struct {
	Name   string    `json:"name"`
	At     orb.Point `json:"at"`
	Height float64   `json:"ground_m"` // of the fitted ground
	Ties   []Tie     `json:"ties"`     // two, or none without a sound pair of marks
	// Side of the line from the first mark to the second, for someone who stands
	// at the first and looks to the second: "left" or "right".
	Side    string           `json:"side,omitempty"`
	Error   geodata.Estimate `json:"error_mm"`      // one standard deviation of the position
	Ellipse *Ellipse         `json:"error_ellipse"` // null without ties

	cov Covariance
}

// Row is beds whose uphill sides lie along one string.
type Row struct {
	Name string    `json:"name"`
	Ends [2]Corner `json:"ends"` // left and right end of the uphill line
	// Checks are tapes to the two ends from a third mark; null without one.
	Checks  [2]*Check `json:"checks"`
	String  Taped     `json:"string"`            // between the ends
	Allowed float64   `json:"string_allowed_mm"` // off, 95 times in 100
	Beds    []Along   `json:"beds"`              // from the left
}

// Along is one bed along the string of its row.
type Along struct {
	Bed string `json:"bed"`
	// From and To are the running distances of its uphill left and uphill right
	// corners from the left end of the string.
	From Taped `json:"from"`
	To   Taped `json:"to"`
	// Off is how far those two corners lie downhill of the string (negative:
	// uphill), square to it, mm.
	Off [2]float64 `json:"downhill_of_the_string_mm"`
}

// Bed is the set-out of one bed.
type Bed struct {
	Name     string   `json:"name"`
	Corners  []Corner `json:"corners"` // clockwise from the uphill left
	Pegs     []Corner `json:"pegs"`    // each taped from two marks, for who wants it so
	Length   float64  `json:"length_m"`
	Width    float64  `json:"width_m"`
	Diagonal float64  `json:"diagonal_m"` // level, both alike
	OnSlope  Sloped   `json:"on_slope"`
	// OnFrame are the diagonals over the board tops, from the uphill left and from
	// the uphill right corner; where a top falls both ways they differ.
	OnFrame [2]float64 `json:"diagonals_over_the_tops_m"`
	// Slide is how far a long side must be slid along, towards the shorter
	// diagonal, where the two measure 10 mm apart.
	Slide float64 `json:"slide_for_10_mm_between_diagonals_mm"`
	// Boards are the boards with their pegs and heights; empty for an open bed.
	Boards []Board `json:"boards"`
	// GroundKnownTo is half the 95 % interval of the ground at this bed against
	// that at the datum peg, mm.
	GroundKnownTo float64 `json:"ground_known_to_mm"`
}

// Sloped are the lengths about a bed by a tape pulled tight along the ground, m.
type Sloped struct {
	Left      float64 `json:"left_side_m"`
	Right     float64 `json:"right_side_m"`
	FromLeft  float64 `json:"diagonal_from_uphill_left_m"`
	FromRight float64 `json:"diagonal_from_uphill_right_m"`
}

// Board is one board of a bed, or boards on one another.
type Board struct {
	Name string `json:"name"`
	// Pegs are distances along it from the frame's uphill left corner, or for a
	// board that lies down the slope from its uphill end, m.
	Pegs []float64 `json:"pegs_along_m"`
	Side string    `json:"pegs_stand"` // on which side of the board
	// Tops are the heights of its top at its ends over the datum peg, mm; below
	// it negative. Left end first, of a board down the slope the uphill end.
	Tops [2]float64 `json:"top_over_datum_mm"`
}

// Datum is the one peg from which all boards are brought to height.
type Datum struct {
	Bed string    `json:"bed"` // it stands at this bed's uphill left corner
	At  orb.Point `json:"at"`
	// Ground is the height of the fitted ground there.
	Ground float64 `json:"ground_m"`
	// AboveGround is its top over the ground, mm.
	AboveGround float64 `json:"top_above_ground_mm"`

	height float64 // of its top, m
}

// Step is one thing to do, in order.
type Step struct {
	Do      string           `json:"do"`
	Minutes geodata.Estimate `json:"minutes"` // with a helper; a default of ours
}
