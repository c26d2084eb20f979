package access

import (
	"math"

	"github.com/paulmach/orb"
)

// Means is how compost gets to a bed.
type Means string

// The ways to get to a bed.
const (
	ByBarrow Means = "barrow"  // a barrow can be wheeled up to it
	OnFoot   Means = "on foot" // the last of the way is too narrow for the barrow
	NoWay    Means = "none"    // nobody gets there
)

// Way is how one bed is reached.
type Way struct {
	Bed   string
	Means Means
	Start int // index of Ground.Starts

	// Points lead from the start to beside the bed, or to where the barrow is left;
	// empty where there is no way. Heights are those of the ground.
	Points  []orb.Point
	Heights []float64
	Length  float64 // plan, m
	Climb   float64 // all that is climbed on the way to the bed, m
	Descent float64 // and gone down again
	Up      Steep   // the steepest rise on the way to the bed
	Down    Steep   // the steepest fall
	// CrossFall is the greatest fall across the way, and CrossFallOver the length
	// on which it is over the constant CrossFall, m.
	CrossFall     float64
	CrossFallOver float64
	// OverLimit is the length that rises or falls more than the greatest gradient,
	// m, taken over Stretch, and LongestOver the longest such piece.
	OverLimit   float64
	LongestOver float64
	Hairpins    int // places where the way turns back by more than a right angle

	ByHand float64 // on foot: metres carried past the barrow

	// InTheWay names what stands in the way where Means is not ByBarrow, and Gap is
	// the width between them, m: 0 where they leave none.
	InTheWay []string
	Gap      float64
}

// Steep is the steepest stretch of a way.
type Steep struct {
	Gradient float64 // over the stretch; 0 where there is none
	From, To orb.Point
}

// hairpin is the turn from which a way is said to turn back, radians.
const hairpin = 1.6

// onTheSpot is the turn from which a barrow is lifted round and not steered, radians;
// a default of ours.
const onTheSpot = math.Pi / 6

// Within is how far over a limit a gradient is still called within it, a part of
// the limit: a default of ours, less than the heights of a good survey leave in
// doubt. The search itself gives away less.
const (
	Within = 1.05
	gentle = 1.02
)
