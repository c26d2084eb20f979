package setout

import "math"

// SquareMarks are four marks along one tape: held together at the first and
// the last, and by hand at the two between, the tape makes a triangle with
// sides of 3, 5 and 4 units, whose right angle is where first and last meet
// (Food and Agriculture Organization, R7021E, section 4.1).
func SquareMarks(unit float64) [4]float64 { return [4]float64{0, 3 * unit, 8 * unit, 12 * unit} }

// SquareError is the standard deviation of the right angle that SquareMarks make
// when each side is off by sigma (in the unit's own unit), radians:
// sigma c sqrt(2) / (a b) for sides a and b about it and c across, here 3, 4 and
// 5 units (first-order propagation through the law of cosines).
func SquareError(unit, sigma float64) float64 { return sigma * 5 * math.Sqrt2 / (12 * unit) }

// OutOfSquare is how far a frame with equal opposite sides is from square,
// radians, by its two measured diagonals: (d1^2 - d2^2) / (4 w l), w and l its
// sides, all in one unit and over 0. Positive where the corners that d1 joins
// are the sharp ones. It is the sine of the angle, which up to 5 degrees is
// within 0.2 % of it; times a side it is how far that side must be pushed over.
// (Law of cosines for both diagonals of a parallelogram.)
func OutOfSquare(d1, d2, w, l float64) float64 { return (d1*d1 - d2*d2) / (4 * w * l) }

// diagonalStep is the difference of diagonals for which the slide is given, m.
const diagonalStep = 0.010
