package levelbook

import (
	"math"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// Mark is a fixed place to tape from.
type Mark struct {
	Name      string
	At        orb.Point
	Sigma     float64 // of its place, metres; 0 for exact
	Height    float64
	HasHeight bool
}

// TieOptions say how ties are solved. The zero value works.
type TieOptions struct {
	// Turn is added to every bearing, radians, to count it from the +y axis.
	Turn         float64
	CompassSigma float64 // standard deviation of a bearing, radians; default 1 degree, a hand compass (a telephone has 5)
	TapeSigma    float64 // of a taped distance, metres; default by TapeSigma
	AngleSigma   float64 // of a clinometer, radians; default half a degree
	GroundSigma  float64 // of the ground under a foot, metres; default DefaultGroundSigma
}

// compassSigma is the error of a bearing of a hand compass, radians (common
// practice: 1 degree).
const compassSigma = math.Pi / 180

func (o TieOptions) resolved() TieOptions {
	if o.CompassSigma == 0 {
		o.CompassSigma = compassSigma
	}
	if o.AngleSigma == 0 {
		o.AngleSigma = clinometerSigma
	}
	if o.GroundSigma == 0 {
		o.GroundSigma = DefaultGroundSigma
	}
	return o
}

// tape is the standard deviation of a taped distance.
func (o TieOptions) tape(length float64) float64 {
	if o.TapeSigma > 0 {
		return o.TapeSigma
	}
	return TapeSigma(length)
}

// Place is a station with its place in plan.
type Place struct {
	Station string      `json:"station"`
	Where   orb.Point   `json:"where"` // metres
	Sigma   float64     `json:"sigma"` // of the position: root of the sum of both variances, metres
	Mark    bool        `json:"mark,omitempty"`
	At      geodata.Pos `json:"at"`
}

// TieResult is what one row or group of rows gave. Lengths are metres, angles
// radians; what a method does not give is zero or absent.
type TieResult struct {
	Station     string      `json:"station"`
	Method      Method      `json:"method"`
	From        []string    `json:"from"`
	Where       *orb.Point  `json:"where,omitempty"`
	Sigma       float64     `json:"sigma,omitempty"`     // of the position
	Plan        []float64   `json:"plan,omitempty"`      // plan lengths of the tapes
	Angle       float64     `json:"angle,omitempty"`     // at which the tapes meet
	OnLine      bool        `json:"on_line,omitempty"`   // just missed: put on the line of the marks
	Residuals   []float64   `json:"residuals,omitempty"` // of three tapes or more
	Apart       *float64    `json:"apart,omitempty"`     // from the place that the station already had
	Rise        *Rise       `json:"rise,omitempty"`
	Staff       []float64   `json:"staff,omitempty"`      // readings of a water tube
	Misclosure  *float64    `json:"misclosure,omitempty"` // of heights: rise measured less rise known
	Allowance   float64     `json:"allowance,omitempty"`
	Spread      bool        `json:"spread,omitempty"` // the misclosure was spread over the loop that it closes
	Index       *float64    `json:"index,omitempty"`  // index error of a clinometer sighted both ways
	Closing     *Closing    `json:"closing,omitempty"`
	Reversed    []int       `json:"reversed,omitempty"` // lines of a grid, from 1, that look booked backwards
	WithinLimit bool        `json:"within_limit"`       // every check of this result was passed, or there was none
	At          geodata.Pos `json:"at"`
}

// Closing is how a traverse closed.
type Closing struct {
	East      float64 `json:"east"`
	North     float64 `json:"north"`
	Linear    float64 `json:"linear"`
	Perimeter float64 `json:"perimeter"`
	Expected  float64 `json:"expected"` // standard deviation of the linear misclosure
	Spread    bool    `json:"spread"`
}

// Precision is n in the closing precision of 1 in n; +Inf when it closes
// exactly.
func (c Closing) Precision() float64 { return c.Perimeter / c.Linear }

// Solution is what ties gave.
type Solution struct {
	// Places holds the marks in their order, then the stations in the order in
	// which they could be placed.
	Places []Place `json:"places"`
	// Levels are the levels of stations that only the ties gave, in the order in
	// which they could be worked out.
	Levels  []StationLevel `json:"levels"`
	Results []TieResult    `json:"results"`           // in the order of the file
	Assumed bool           `json:"assumed,omitempty"` // AssumedLevel was taken for the first station
}
