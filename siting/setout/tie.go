package setout

import (
	"cmp"
	"math"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// LongestTape is the longest tape that garden sets run to, m (common practice,
// no source).
const LongestTape = 30.0

// The standard deviation of one taped distance, mm: 10 mm on 10 m of ground
// (common practice, no source); half of it with care and twice of it in wind
// or over grass are the ends of the band, defaults of ours.
const (
	tapeSigma     = 10.0
	tapeSigmaLow  = 5.0
	tapeSigmaHigh = 20.0
)

// squareEnough is the least angle at which two tapes may meet, radians: 30
// degrees, and as much short of a straight line (common practice, no source).
const squareEnough = 30 * math.Pi / 180

// pair is two marks and how their tapes meet at a corner.
type pair struct {
	first, second Mark
	angle         float64 // at the corner, radians
	tape          float64 // both tapes together, m
}

// tied is a corner with the ties of the best pair of marks, or without ties.
func tied(marks []Mark, name string, at orb.Point) Corner {
	c := Corner{Name: name, At: at, Ties: []Tie{}}
	best, ok := bestPair(marks, at)
	if !ok {
		return c
	}
	for _, m := range []Mark{best.first, best.second} {
		c.Ties = append(c.Ties, Tie{Mark: m.Name, Distance: distance(m.At, at)})
	}
	c.Side = side(best.first.At, best.second.At, at)
	c.Error = geodata.Estimate{
		Value: PositionError(tapeSigma, best.angle),
		Low:   PositionError(tapeSigmaLow, best.angle),
		High:  PositionError(tapeSigmaHigh, best.angle),
	}
	return c
}

// bestPair is the pair whose tapes meet nearest to a right angle.
func bestPair(marks []Mark, at orb.Point) (best pair, ok bool) {
	for i, a := range marks {
		for _, b := range marks[i+1:] {
			p, sound := meet(a, b, at)
			if sound && (!ok || better(p, best)) {
				best, ok = p, true
			}
		}
	}
	return best, ok
}

// meet is how the tapes from two marks meet at a point; sound is false where
// they are too long or meet too flat or too sharp.
func meet(a, b Mark, at orb.Point) (p pair, sound bool) {
	ra, rb := distance(a.At, at), distance(b.At, at)
	if min(ra, rb) < 1e-3 || max(ra, rb) > LongestTape {
		return pair{}, false
	}
	cross := (a.At[0]-at[0])*(b.At[1]-at[1]) - (a.At[1]-at[1])*(b.At[0]-at[0])
	dot := (a.At[0]-at[0])*(b.At[0]-at[0]) + (a.At[1]-at[1])*(b.At[1]-at[1])
	angle := math.Atan2(math.Abs(cross), dot)
	return pair{a, b, angle, ra + rb}, math.Abs(angle-math.Pi/2) <= math.Pi/2-squareEnough+1e-9
}

// better compares angles to a millionth of a radian and tapes to a millimetre,
// so that rounding does not choose between pairs that are alike.
func better(p, q pair) bool {
	off := func(x pair) float64 { return math.Round(math.Abs(x.angle-math.Pi/2) * 1e6) }
	tape := func(x pair) float64 { return math.Round(x.tape * 1e3) }
	return cmp.Or(cmp.Compare(off(p), off(q)), cmp.Compare(tape(p), tape(q))) < 0
}

// side says on which side of the line from one mark to another a point lies,
// walking from the first to the second.
func side(a, b, at orb.Point) string {
	if (b[0]-a[0])*(at[1]-a[1])-(b[1]-a[1])*(at[0]-a[0]) > 0 {
		return "left"
	}
	return "right"
}

// PositionError is the standard deviation of a point fixed by two tapes that
// meet at an angle (radians), in the unit of sigma, the standard deviation of
// each tape: sqrt(2) sigma / sin(angle), the root of the sum of the variances
// along any two axes (first-order propagation for two distances; plane
// surveying). angle is over 0 and under pi.
func PositionError(sigma, angle float64) float64 {
	return math.Sqrt2 * sigma / math.Sin(angle)
}

// SquareMarks are four marks along one tape: held together at the first and
// the last, and by hand at the two between, the tape makes a triangle with
// sides of 3, 5 and 4 units, whose right angle is where first and last meet
// (Food and Agriculture Organization, R7021E, section 4.1).
func SquareMarks(unit float64) [4]float64 { return [4]float64{0, 3 * unit, 8 * unit, 12 * unit} }

// OutOfSquare is how far a frame with equal opposite sides is from square,
// radians, by its two measured diagonals: (d1^2 - d2^2) / (4 w l), w and l its
// sides, all in one unit and over 0. Positive where the corners that d1 joins
// are the sharp ones. It is the sine of the angle, which up to 5 degrees is
// within 0.2 % of it; times a side it is how far that side must be pushed over.
// (Law of cosines for both diagonals of a parallelogram.)
func OutOfSquare(d1, d2, w, l float64) float64 { return (d1*d1 - d2*d2) / (4 * w * l) }
