// Package setout puts corners and pegs on the ground with tapes.
package setout

import (
	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// Sheet is how to put every bed that may be built on the ground. Distances are
// horizontal metres: hold the tape level, with a plumb line at the low end.
type Sheet struct {
	Marks []Mark `json:"marks"`
	Beds  []Bed  `json:"beds"`
	Note  string `json:"note,omitempty"` // what is missing, such as a second mark
}

// Mark is a fixed point to tape from.
type Mark struct {
	Name string    `json:"name"`
	At   orb.Point `json:"at"`
}

// Bed is the set-out of one bed.
type Bed struct {
	Name     string   `json:"name"`
	Corners  []Corner `json:"corners"` // clockwise from the uphill left
	Diagonal float64  `json:"diagonal_m"`
	// Slide is how far a long side must be slid along, towards the shorter
	// diagonal, where the two measure 10 mm apart.
	Slide float64 `json:"slide_for_10_mm_between_diagonals_mm"`
	// PegsAlong are running distances of the pegs along the long side from its
	// uphill-left corner, m.
	PegsAlong []float64 `json:"pegs_along_m"`
}

// Corner is one corner taped from two marks.
type Corner struct {
	Name  string           `json:"name"`
	At    orb.Point        `json:"at"`
	Ties  []Tie            `json:"ties"`           // two, or none without a sound pair of marks
	Side  string           `json:"side,omitempty"` // of the line from the first mark to the second: "left" or "right"
	Error geodata.Estimate `json:"error_mm"`       // one standard deviation of the position
}

// Tie is one taped distance.
type Tie struct {
	Mark     string  `json:"mark"`
	Distance float64 `json:"distance_m"`
}
