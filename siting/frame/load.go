package frame

import (
	"math"

	"crossfall/siting/soil"
)

// Active is the coefficient of the horizontal thrust of fill on a smooth
// upright board (Coulomb 1776), for fill of a friction angle in radians whose
// top rises away from the board by the ratio rise (negative when it falls
// away). Friction on the board, which lowers it by about a tenth, is left out.
// A top as steep as the friction angle cannot stand: the answer is +Inf.
func Active(friction, rise float64) float64 {
	beta := math.Atan(rise)
	if beta >= friction {
		return math.Inf(1)
	}
	root := math.Sqrt(math.Sin(friction) * math.Sin(friction-beta) / math.Cos(beta))
	return sq(math.Cos(friction) / (1 + root))
}

// Passive is the coefficient of the resistance of ground in front of a smooth
// upright board or peg, for a friction angle in radians and ground that falls
// away from it by the ratio fall (Coulomb 1776). Ground as steep as its
// friction angle has none: the answer is 0.
func Passive(friction, fall float64) float64 {
	beta := math.Atan(fall)
	if beta >= friction {
		return 0
	}
	root := math.Sqrt(math.Sin(friction) * math.Sin(friction-beta) / math.Cos(beta))
	return sq(math.Cos(friction) / (1 - root))
}

// Thrust is a horizontal push on a metre of board.
type Thrust struct {
	Force float64 // kN/m
	Arm   float64 // height of its line of action above the outside ground, m
}

// EarthThrust is the push of fill of height h (m) on a board, with water
// standing to height water (0 to h) behind it: earth pressure k times the
// weight on the grains, and the water's own. above and saturated are the unit
// weights over and under the water, kN/m3. Statics of the pressure diagram.
func EarthThrust(k, h, water, above, saturated float64) Thrust {
	if h <= 0 {
		return Thrust{}
	}
	dry := h - water
	under := saturated - soil.WaterWeight
	force := k*(above*dry*dry/2+above*dry*water+under*water*water/2) + soil.WaterWeight*water*water/2
	moment := k*(above*dry*dry/2*(water+dry/3)+above*dry*water*water/2+under*water*water*water/6) +
		soil.WaterWeight*water*water*water/6
	return Thrust{Force: force, Arm: moment / force}
}

// LoadCase is one state of the fill and of the ground under it.
type LoadCase struct {
	Word             string
	Above, Saturated float64 // unit weights over and under the water, kN/m3
	Friction         float64 // of the fill, radians
	Water            float64 // depth of water behind the board over the height of the fill
	// For sliding on the ground: weight of the fill, friction under the bed as
	// a ratio, and pore pressure as a part of that weight.
	Weight, BaseFriction, PorePressure float64
}

// Friction under a bed laid on cardboard over mown turf, 20 degrees, and when
// everything is sodden, 15 degrees: defaults of ours. Slimy dying grass may be
// near 0.2 (tyres on wet grass, Noon 1994).
var (
	moistBase  = math.Tan(20 * math.Pi / 180)
	soddenBase = math.Tan(15 * math.Pi / 180)
)

// Drained is fill as bought, with no water standing in it.
func Drained(f soil.Fill) LoadCase {
	return LoadCase{
		Word: "drained", Above: f.Moist, Saturated: f.Saturated, Friction: f.FrictionAngle,
		Weight: f.Moist, BaseFriction: moistBase,
	}
}

// Winter is wet fill with water standing to half its height behind boards that
// have gaps, and pore pressure 0.4 under the bed. Defaults of ours. Pegs and
// boards are designed for it.
func Winter(f soil.Fill) LoadCase {
	return LoadCase{
		Word: "winter", Above: f.Wet, Saturated: f.Saturated, Friction: f.FrictionAngle, Water: 0.5,
		Weight: f.Wet, BaseFriction: moistBase, PorePressure: 0.4,
	}
}

// Blocked is fill full of water behind sealed boards on a sodden, slippery
// base. Defaults of ours. It is told, and not designed for.
func Blocked(f soil.Fill) LoadCase {
	return LoadCase{
		Word: "blocked", Above: f.Wet, Saturated: f.Saturated, Friction: f.FrictionAngle, Water: 1,
		Weight: f.Wet, BaseFriction: soddenBase, PorePressure: 0.5,
	}
}

// Thrust is the push of fill of height h (m) whose top rises away from the
// board by the ratio rise.
func (lc LoadCase) Thrust(h, rise float64) Thrust {
	return EarthThrust(Active(lc.Friction, rise), h, lc.Water*h, lc.Above, lc.Saturated)
}

// lowerShare is the part of that push which meets the board below a joint at
// height y above the outside ground: pressure at a depth is the same whatever
// lies under it, so the upper board carries what fill of height h-y would.
func (lc LoadCase) lowerShare(h, y, rise float64) float64 {
	if y >= h {
		return 1
	}
	if y <= 0 {
		return 0
	}
	k := Active(lc.Friction, rise)
	upper := EarthThrust(k, h-y, math.Max(0, lc.Water*h-y), lc.Above, lc.Saturated)
	return 1 - upper.Force/lc.Thrust(h, rise).Force
}

// Knee is the push on a board, kN, of a load q (kN) set down x metres inside it
// on fill of height h and the given friction angle: Coulomb's wedge through the
// load, without its own weight. x under 0.05 m is taken as 0.05 m; from
// h/tan(friction) on, no wedge that carries the load slides, and the push is 0.
func Knee(q, x, h, friction float64) float64 {
	wedge := math.Atan2(h, math.Max(x, 0.05))
	return q * math.Max(0, math.Tan(wedge-friction))
}

func sq(v float64) float64 { return v * v }
