package frame

import "crossfall/geodata"

// Design is the edge of one bed. Lengths m, slopes ratios.
type Design struct {
	Class   Class
	Because string // what decided the class
	// NextEdge is the next graver class and the fall at which it comes; "" when
	// there is none.
	NextEdge string
	// MilderEdge is what single change would give a milder class; "" when none
	// was found.
	MilderEdge string

	FillWished, Fill      float64 // depth at the highest corner of a bay
	TopAcross, TopAlong   float64 // fall left on the top
	BaysAcross, BaysAlong int     // 1 without steps; 0 where nothing is built
	RiseAcross, RiseAlong float64 // between the tops of neighbouring bays; 0 without steps
	Volume                float64 // of fill on plane ground, m3
	Retained              Sides   // greatest height that a board holds at each side of a bay; 0 without boards

	Edges  *Edges  // of an open bed; nil with boards
	Boards *Boards // nil without boards
	Pegs   *Pegs   // nil without pegs

	// Factors of safety against sliding in winter, by friction under the bed
	// alone and with sunken edges and pegs; 100 where it is that or more, as on
	// level ground.
	SlipFriction, SlipFactor float64

	Changes []string // what was changed from the wish and why, in order
	Notes   []string // what to know and to heed
	// FactorAtCap is the factor of safety that the greatest embedment allowed
	// would have left where it was first passed; 0 where it never was. Such a
	// depth is never given in Pegs.
	FactorAtCap float64
	// Advice is true where the bed is to be built only with the advice of a
	// competent person; PegsUnreliable where the ground is too soft to rely on
	// pegs.
	Advice, PegsUnreliable bool
	// Channel is why run-on is to be led round the bed, or "".
	Channel string
}

// Sides is one figure for each side of a bay.
type Sides struct{ Downhill, Uphill, LowEnd, HighEnd float64 }

// Boards are the boards of a bed.
type Boards struct {
	// Uphill is the long side; Downhill is the downhill board of every bay, and
	// the boards lying the short way are cut from the same.
	Uphill, Downhill BoardChoice
	Thickness        float64          // the thinnest on sale that carries and lasts, else the thickest
	Life             geodata.Estimate // years; the band is that of the durability class
	Faces            float64          // of a board that rot eats in from
	// Stress is the greatest bending stress in winter, N/mm2, load factor
	// included, in boards of that thickness when new, and Strength what they
	// bear. Sag is how far they bow between pegs under their drained load: at
	// once, and in the end.
	Stress, Strength   float64
	SagFirst, SagFinal float64
	// WidestSpacing is the spacing of pegs, m, at which the boards would just bear
	// their winter load.
	WidestSpacing float64
	// Screw is what one screw carries sideways, kN, and Withdrawal what two draw
	// out at, both design values of a load that never goes away.
	Screw, Withdrawal float64
	LastingThickness  float64 // what would last as long as wished
	Sunken            float64 // depth of every board in the ground; 0 without
	// Taper is how much more a long board's end would be in the ground at the
	// higher end of a bay if its lower edge did not follow the ground.
	Taper       float64
	CrossBoards int
	// CrossAt are distances of cross boards along the long side, from either
	// end, in every row of bays.
	CrossAt []float64
}

// BoardChoice is a board, or boards on one another, for one side.
type BoardChoice struct {
	Needed float64   // height, with freeboard and the part in the ground
	Stack  []float64 // heights of boards on sale, bottom first
	Bought float64   // their sum
}

// Pegs are the pegs of a bed; all go equally deep.
type Pegs struct {
	Size float64
	// Rows of pegs along the bed: the uphill side, then the downhill board of
	// every bay across; PerSide in each, Spacing apart, both ends included.
	Rows, PerSide int
	Spacing       float64
	// PerCross is between the ends of each cross board and of the low end
	// board, evenly in each bay; PerHighEnd the same of the high end board.
	PerCross, PerHighEnd int
	Count                int // of all
	// Embedment in the ground, rounded up to 20 mm. The value holds twice the
	// winter load at the default strength of the ground. Low and High are the
	// same at the strong and the weak end of the ground's band; High may be
	// more than is allowed to be driven.
	Embedment geodata.Estimate
	// Whole lengths beside the downhill and the uphill boards, PointAllowance
	// for the point included.
	LengthDownhill, LengthUphill float64
	// Load is the winter load of the worst peg, kN, and Arm its height above
	// the ground.
	Load, Arm float64
	// Key is true where the sunken edge takes the load in winter and the pegs
	// only keep the boards from turning.
	Key bool
	// Least factors of safety of the printed embedment at the default strength.
	FactorWinter, FactorDrained, FactorBlocked float64
	Life                                       geodata.Estimate // years
	// CodeDepth is what the building code's pole formula asks for the same load:
	// an upper bound that decides nothing.
	CodeDepth float64
}
