package frame

import "math"

// The short-pile formulas of Broms for a stiff peg free to lean. b is the width
// of the peg, d its embedment below the outside ground, e the height of the
// load above that ground, all m; loads kN, moments kNm.

// Neglected is the depth from the ground down over which a peg in clay gets no
// hold: one and a half widths (Broms 1964, Lateral resistance of piles in
// cohesive soils, ASCE J. Soil Mech. 90 SM2), and at least 50 mm where frost
// and summer cracks loosen the top (a default of ours).
func Neglected(b float64) float64 { return math.Max(1.5*b, 0.05) }

// ClayCapacity is the greatest horizontal load of a peg in clay of undrained
// strength cu (kPa): resistance 9 cu b below the neglected depth (Broms 1964).
// The closed form solves Broms' force and moment balance for the load.
func ClayCapacity(d, e, b, cu float64) float64 {
	below := d - Neglected(b)
	if below <= 0 {
		return 0
	}
	arm := 2*(e+Neglected(b)) + below
	// The plain difference of root and arm loses digits for a long arm.
	shear := below * below / (math.Sqrt(arm*arm+below*below) + arm)
	return 9 * cu * b * shear
}

// ClayDepth is the embedment at which ClayCapacity equals the load.
func ClayDepth(load, e, b, cu float64) float64 {
	z := Neglected(b)
	f := load / (9 * cu * b) // depth of no shear below z
	moment := load * (e + z + f/2)
	return z + f + math.Sqrt(moment/(2.25*cu*b))
}

// ClayMoment is the greatest moment in a peg in clay under a load.
func ClayMoment(load, e, b, cu float64) float64 {
	return load * (e + Neglected(b) + load/(9*cu*b)/2)
}

// ClayCouple is the greatest moment that a peg in clay resists without any
// sideways load, where a sunken edge takes the load.
func ClayCouple(d, b, cu float64) float64 {
	return 2.25 * cu * b * sq(math.Max(0, d-Neglected(b)))
}

// ClayCoupleDepth is the embedment at which ClayCouple equals the moment.
func ClayCoupleDepth(moment, b, cu float64) float64 {
	return Neglected(b) + math.Sqrt(moment/(2.25*cu*b))
}

// SandCapacity is the greatest horizontal load of a peg in sand of unit weight
// gamma (kN/m3) and passive coefficient kp: resistance 3 kp gamma z b, turning
// about the tip (Broms 1964, Lateral resistance of piles in cohesionless soils,
// ASCE J. Soil Mech. 90 SM3, from memory).
func SandCapacity(d, e, b, gamma, kp float64) float64 {
	if d <= 0 {
		return 0
	}
	return gamma * b * d * d * d * kp / (2 * (e + d))
}

// SandDepth is the embedment at which SandCapacity equals the load: the one
// positive root of d^3 = k (e + d).
func SandDepth(load, e, b, gamma, kp float64) float64 {
	return pairedCubic(2*load/(gamma*b*kp), e)
}

// SandMoment is the greatest moment in a peg in sand under a load, at the depth
// where the shear is nothing (Broms 1964, from memory).
func SandMoment(load, e, b, gamma, kp float64) float64 {
	return load * (e + 2.0/3*math.Sqrt(2*load/(3*gamma*b*kp)))
}

// sandCoupleShare is 1 - 1/sqrt 2: pressure reversed at the depth that leaves
// no sideways load in all.
var sandCoupleShare = 1 - 1/math.Sqrt2

// SandCouple is the greatest moment that a peg in sand resists without any
// sideways load, where a sunken edge takes the load.
func SandCouple(d, b, gamma, kp float64) float64 {
	return sandCoupleShare * kp * gamma * b * math.Pow(math.Max(0, d), 3)
}

// SandCoupleDepth is the embedment at which SandCouple equals the moment.
func SandCoupleDepth(moment, b, gamma, kp float64) float64 {
	return math.Cbrt(moment / (sandCoupleShare * kp * gamma * b))
}

// pairedCubic is the positive root of x^3 - k x - k e = 0 for k and e of 0 or
// more. Newton's steps from above the root only come down towards it, because
// the cubic is convex there; they end when they no longer do.
func pairedCubic(k, e float64) float64 {
	if k <= 0 {
		return 0
	}
	x := math.Sqrt(k) + math.Cbrt(k*e)
	for range 100 {
		next := x - (x*x*x-k*x-k*e)/(3*x*x-k)
		if next >= x {
			break
		}
		x = next
	}
	return x
}
