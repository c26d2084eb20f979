package frame

import (
	"math"

	"crossfall/siting/soil"
)

// Practical limits of a peg, m: common practice for what a hand can drive, and
// defaults of ours.
const (
	pegSteps        = 50   // to a metre: embedments are rounded up to 20 mm
	leastPlain      = 0.15 // least embedment of a peg without a sunken edge
	leastWithSunken = 0.18 // and with one
	longestPeg      = 0.90
	PegBelowTop     = 0.025 // from the top of the board down to the top of the peg (common practice)
	safety          = 2.0   // factor of safety of every peg in the winter case
	safetySlip      = 1.5
	keySafety       = 1.5 // of a sunken edge that is to take the whole load
)

// PointAllowance is the part of a peg's length that is cut to a point, m. It is
// not counted as embedment and lies below it. A default of ours.
const PointAllowance = 0.06

// Peg is a square peg in sloping ground.
type Peg struct {
	Size   float64 // side, m
	Ground soil.Ground
	Slope  float64 // fall of the ground in front of it, ratio

	kp float64 // the passive coefficient where it is known already
}

// ease is what clay's resistance is divided by on falling ground: 1 + slope
// (the slope rule in Reese's work on piles in slopes, from memory).
func (p Peg) ease() float64 { return 1 + p.Slope }

func (p Peg) passive() float64 {
	if p.kp > 0 {
		return p.kp
	}
	return Passive(p.Ground.FrictionAngle, p.Slope)
}

// Capacity is the load, kN, that the peg holds at embedment d with the load e
// metres above the ground.
func (p Peg) Capacity(d, e float64) float64 {
	if p.Ground.Clay {
		return ClayCapacity(d, e, p.Size, p.Ground.Undrained) / p.ease()
	}
	return SandCapacity(d, e, p.Size, p.Ground.UnitWeight, p.passive())
}

// Depth is the embedment at which Capacity equals the load.
func (p Peg) Depth(load, e float64) float64 {
	if p.Ground.Clay {
		return ClayDepth(load*p.ease(), e, p.Size, p.Ground.Undrained)
	}
	return SandDepth(load, e, p.Size, p.Ground.UnitWeight, p.passive())
}

// Couple is the moment, kNm, that the peg holds at embedment d where a sunken
// edge takes the load.
func (p Peg) Couple(d float64) float64 {
	if p.Ground.Clay {
		return ClayCouple(d, p.Size, p.Ground.Undrained) / p.ease()
	}
	return SandCouple(d, p.Size, p.Ground.UnitWeight, p.passive())
}

// CoupleDepth is the embedment at which Couple equals the moment.
func (p Peg) CoupleDepth(moment float64) float64 {
	if p.Ground.Clay {
		return ClayCoupleDepth(moment*p.ease(), p.Size, p.Ground.Undrained)
	}
	return SandCoupleDepth(moment, p.Size, p.Ground.UnitWeight, p.passive())
}

// Bending is the greatest moment in the peg, kNm, under a load e metres above
// the ground.
func (p Peg) Bending(load, e float64) float64 {
	if p.Ground.Clay {
		return ClayMoment(load*p.ease(), e, p.Size, p.Ground.Undrained) / p.ease()
	}
	return SandMoment(load, e, p.Size, p.Ground.UnitWeight, p.passive())
}

// pegLoad is what one peg is asked to hold.
type pegLoad struct {
	force float64 // kN
	arm   float64 // height above the outside ground, m
}

// factor is the factor of safety of embedment d. With key, a sunken edge of
// depth sunken takes the load and the peg only keeps the board from turning:
// moment force times (arm + half the sunken depth), a lower bound of plastic
// resistance.
func (p Peg) factor(l pegLoad, d, sunken float64, key bool) float64 {
	if key {
		return p.Couple(d) / (l.force * (l.arm + sunken/2))
	}
	return p.Capacity(d, l.arm) / l.force
}

// depthFor is the embedment at which factor reaches fs.
func (p Peg) depthFor(l pegLoad, fs, sunken float64, key bool) float64 {
	if key {
		return p.CoupleDepth(fs * l.force * (l.arm + sunken/2))
	}
	return p.Depth(fs*l.force, l.arm)
}

// roundUp brings an embedment up to the next 20 mm, with no tolerance: a depth
// a hair over a step goes to the next one, so that the factor never falls short.
func roundUp(d float64) float64 { return math.Ceil(d*pegSteps) / pegSteps }
