// Package takeoff counts what to buy and carry.
package takeoff

import "crossfall/geodata"

// List is the buying list of every bed that may be built.
type List struct {
	Compost      geodata.Estimate  `json:"compost_m3"`       // laid
	CompostOrder geodata.Estimate  `json:"compost_order_m3"` // loose, to order
	Loads        geodata.Estimate  `json:"loads"`
	Mass         geodata.Estimate  `json:"mass_kg"` // moist
	Cardboard    int               `json:"cardboard_sheets"`
	CoverArea    float64           `json:"cover_m2"` // woven ground cover, all layers
	CoverPins    int               `json:"cover_pins"`
	Boards       []BoardLine       `json:"boards"`
	Pegs         []PegLine         `json:"pegs"`
	Screws       int               `json:"screws"`
	YearlyTopUp  geodata.Estimate  `json:"yearly_top_up_m3"`
	Renewal      *Renewal          `json:"ten_years"` // null without beds
	Push         *geodata.Estimate `json:"push_newtons"`
	PushOn       string            `json:"push_on"` // where that is
	Cost         *Cost             `json:"cost"`    // null without prices
	// Notes say what was assumed and what the buyer should know.
	Notes []string `json:"notes"`
}

// BoardLine is boards of one section and length. A section may be cut from boards
// of several lengths: then it has a line for each.
type BoardLine struct {
	Height    float64 `json:"height_mm"`
	Thickness float64 `json:"thickness_mm"`
	Length    float64 `json:"length_mm"` // of each board
	Count     int     `json:"count"`
	// Proved is true where no boards of the lengths on sale, of this section, are
	// of less length in all; Bound is a length that they cannot be under.
	Proved bool    `json:"least_length_proved"`
	Bound  float64 `json:"least_possible_mm"`
	Waste  float64 `json:"waste_mm"` // of all of them, saw cuts not counted
	Cuts   []Cut   `json:"cuts"`     // one entry for each board bought
}

// Cut is how one board is cut.
type Cut struct {
	Board  float64 `json:"board_mm"`
	Pieces []Piece `json:"pieces"`
	Waste  float64 `json:"waste_mm"`
}

// Piece is one length cut from a board.
type Piece struct {
	For    string  `json:"for"` // bed and side
	Length float64 `json:"length_mm"`
}

// PegLine is pegs of one length, point included, and how they come out of
// stakes; zeros where no stake on sale is long enough.
type PegLine struct {
	Length    float64 `json:"length_mm"`
	Size      float64 `json:"size_mm"`
	Count     int     `json:"count"`
	Stake     float64 `json:"stake_mm"`
	FromStake int     `json:"pegs_from_a_stake"`
	Stakes    int     `json:"stakes"`
}

// Cost is what the list costs at the prices given; parts without a price are
// left out and named.
type Cost struct {
	Total    float64    `json:"total"`
	Currency string     `json:"currency"`
	Parts    []CostPart `json:"parts"`
	Missing  []string   `json:"without_price"`
}

// CostPart is one line of the cost.
type CostPart struct {
	What   string  `json:"what"`
	Amount float64 `json:"amount"`
}
