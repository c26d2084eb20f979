package frame

import "math"

// Screw is a wood screw in single shear: through one timber into another.
// Lengths mm, strengths N/mm2.
type Screw struct {
	Diameter   float64 // effective: 1.1 times that of the core
	Steel      float64 // tensile strength of the wire
	Board, Peg float64 // length in the board and in the peg
	Predrilled bool
}

// DefaultScrew is a 6 mm screw through a board of so many mm, 40 mm into the
// peg, in drilled holes; a default of ours.
func DefaultScrew(board float64) Screw {
	return Screw{Diameter: 4.4, Steel: 600, Board: board, Peg: 40, Predrilled: true}
}

// Sideways is the characteristic load, N, that the screw carries sideways in
// timber of a density in kg/m3: the least of Johansen's six failures of two
// timbers of one density, without the rope effect (EN 1995-1-1, 8.2.2; the
// hold of the timber 8.3.1.1, the bending of the screw 8.3.1.1; from memory).
func (s Screw) Sideways(density float64) float64 {
	d, t1, t2 := s.Diameter, s.Board, s.Peg
	hold := 0.082 * density * math.Pow(d, -0.3)
	if s.Predrilled {
		hold = 0.082 * (1 - 0.01*d) * density
	}
	bend := 0.3 * s.Steel * math.Pow(d, 2.6) // N mm
	r := t2 / t1
	single := func(t float64) float64 { // one hinge, in the timber of thickness t
		return 1.05 * hold * t * d / 3 * (math.Sqrt(4+12*bend/(hold*d*t*t)) - 1)
	}
	least := math.Min(hold*t1*d, hold*t2*d)
	least = math.Min(least, hold*t1*d/2*(math.Sqrt(1+2*(1+r+r*r)+r*r)-(1+r)))
	least = math.Min(least, math.Min(single(t1), single(t2)))
	return math.Min(least, 1.15*math.Sqrt(2*bend*hold*d))
}

// Withdrawal is the characteristic load, N, at which n screws of a diameter d
// are drawn out of the side of a timber, threaded over length (both mm):
// EN 1995-1-1, 8.7.2 (from memory), good for d of 6 to 12 and length of 6 d or
// more.
func Withdrawal(d, length, density float64, n int) float64 {
	f := 0.52 * math.Pow(d, -0.5) * math.Pow(length, -0.1) * math.Pow(density, 0.8)
	return math.Pow(float64(n), 0.9) * f * d * length * math.Min(d/8, 1)
}

// PermanentDesign is the design value of a characteristic load on a fastener in
// timber outdoors that never goes away.
func PermanentDesign(characteristic float64) float64 {
	return permanentOutdoors * characteristic / materialFactor
}
