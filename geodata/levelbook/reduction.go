package levelbook

import "crossfall/geodata"

// Verdict says what the closing of a section showed.
type Verdict string

// The verdicts on a section of a run.
const (
	Unchecked       Verdict = "unchecked"                           // it closes on nothing
	Closed          Verdict = "within the allowance"                // and spread
	NotClosed       Verdict = "beyond the allowance"                // and not spread
	ClosedByRequest Verdict = "beyond the allowance, spread anyway" // because the caller asked for it
)

// Level is one booked line with its results, metres.
type Level struct {
	Station     string      `json:"station"`
	Setup       int         `json:"setup"`       // stand of the instrument within the run, from 1
	Collimation float64     `json:"collimation"` // height of collimation above the datum, before the adjustment
	Rise        float64     `json:"rise"`        // from the line before; negative for a fall
	Raw         float64     `json:"raw"`         // reduced level before the adjustment
	Correction  float64     `json:"correction"`  // of the adjustment
	Level       float64     `json:"level"`       // reduced level
	Sigma       float64     `json:"sigma"`       // of the levelling alone, without the ground under the staff
	Inverted    bool        `json:"inverted,omitempty"`
	Known       bool        `json:"known,omitempty"` // the level was given
	At          geodata.Pos `json:"at"`
}

// Order is a rule of levelling with its allowance for the length levelled.
type Order struct {
	Rule      string  `json:"rule"`
	Source    string  `json:"source"`
	Allowance float64 `json:"allowance"` // metres
	OK        bool    `json:"ok"`
}

// Section is the part of a run between two known points, or the whole of a run
// that has fewer.
type Section struct {
	From       string      `json:"from"`
	To         string      `json:"to"`
	Setups     int         `json:"setups"`
	Length     float64     `json:"length,omitempty"` // levelled, metres; 0 not known
	Known      float64     `json:"known"`            // level of To, where it closes
	Computed   float64     `json:"computed"`         // the same by the book, from the level of From
	Misclosure float64     `json:"misclosure"`       // computed less known, metres
	Allowance  float64     `json:"allowance"`        // metres
	Orders     []Order     `json:"orders,omitempty"` // for comparison, where the length is known
	Verdict    Verdict     `json:"verdict"`
	Spread     string      `json:"spread"` // how the misclosure was spread, in words
	Suspects   []Suspect   `json:"suspects,omitempty"`
	At         geodata.Pos `json:"at"` // where it closes
}

// Repeat compares two levels of one station.
type Repeat struct {
	Station    string      `json:"station"`
	Before     float64     `json:"before"`
	Now        float64     `json:"now"`
	Difference float64     `json:"difference"`
	Allowance  float64     `json:"allowance"`
	OK         bool        `json:"ok"`
	At         geodata.Pos `json:"at"`
}

// Run is one reduced run with its checks.
type Run struct {
	Instrument Instrument `json:"instrument"`
	Datum      string     `json:"datum"` // where its levels come from, in words
	Setups     int        `json:"setups"`
	Open       bool       `json:"open"` // the last row is no foresight
	Sums       Sums       `json:"sums"`
	Checks     []Check    `json:"checks"`
	Sections   []Section  `json:"sections"`
	Repeats    []Repeat   `json:"repeats,omitempty"`
	Levels     []Level    `json:"levels"`
}

// StationLevel is the reduced level of one station.
type StationLevel struct {
	Station  string      `json:"station"`
	Level    float64     `json:"level"`
	Sigma    float64     `json:"sigma"` // with the ground under the staff, metres
	Readings int         `json:"readings"`
	Given    bool        `json:"given,omitempty"`    // known beforehand
	Inverted bool        `json:"inverted,omitempty"` // read on an inverted staff: no ground
	Failed   bool        `json:"failed,omitempty"`   // from a section whose misclosure was not spread
	Note     string      `json:"note,omitempty"`
	At       geodata.Pos `json:"at"`
	drift    float64     // sigma of the levelling alone
}

// Reduction is a reduced book.
type Reduction struct {
	Runs []Run `json:"runs"`
	// Stations holds one level for each station in order of booking: the given
	// one, else the mean of its readings.
	Stations []StationLevel `json:"stations"`
	// Assumed tells that the book had no known level and its first station was
	// taken as AssumedLevel.
	Assumed bool `json:"assumed,omitempty"`
	// PegTest is the test of the level that the book holds; nil without one.
	PegTest *PegTest `json:"two_peg_test,omitempty"`
}
