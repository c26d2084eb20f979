package levelbook

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// Tape is one taped tie: the plan distance from a mark.
type Tape struct {
	From   orb.Point
	Length float64 // metres, level
	Sigma  float64 // metres; 0: TapeSigma
}

// Side is the side of a line, looking along it.
type Side int8

// The sides. SideUnknown lets a third tie decide.
const (
	SideUnknown Side = iota
	LeftSide
	RightSide
)

// Tie is a place found from tapes.
type Tie struct {
	At             orb.Point `json:"at"`
	Angle          float64   `json:"angle"` // at which the best two tapes meet, radians
	SigmaX, SigmaY float64   // metres; for two tapes along their base and square to it
	Sigma          float64   `json:"sigma"`               // of the position: root of the sum of both variances
	Residuals      []float64 `json:"residuals,omitempty"` // taped less fitted, metres, for three ties or more
	OnLine         bool      `json:"on_line,omitempty"`   // the tapes just missed each other: taken on the line of the marks
}

// The angles at which two tapes may meet, radians: beyond 30 to 150 degrees the
// place is too poorly fixed (common practice).
const (
	leastCut = 30 * math.Pi / 180
	mostCut  = 150 * math.Pi / 180
)

// TieError says why tapes fix no place.
type TieError struct {
	Code    string // "tie-marks-together", "tie-too-short", "tie-too-long", "tie-angle", "tie-side", "tie-few", "tie-length"
	Message string
	Want    string
}

// Error gives the message and what would be right.
func (e *TieError) Error() string { return e.Message + "; " + e.Want }

// Trilaterate finds the place from the tapes of two marks or more. side is that
// of the place seen from the first mark towards the second; three tapes from
// marks that are not in line need none. Two tapes must meet at 30 to 150
// degrees, and of three or more at least one pair must. When two tapes miss
// each other by no more than their errors the place is put on the line of the
// marks and OnLine is set. Three tapes or more are fitted by least squares,
// weighted by their standard deviations. The error is a *TieError.
//
// With base c and tapes a, b: x = (a²-b²+c²)/2c along the base, y = ±√(a²-x²);
// for equal tapes the position error is √2 sigma / sin(angle).
func Trilaterate(tapes []Tape, side Side) (Tie, error) {
	tapes = append([]Tape(nil), tapes...)
	for i, t := range tapes {
		if !(t.Length > 0) || math.IsInf(t.Length, 0) {
			return Tie{}, &TieError{"tie-length", "a tape has no length", "write the taped distance"}
		}
		if t.Sigma == 0 {
			tapes[i].Sigma = TapeSigma(t.Length)
		}
	}
	switch len(tapes) {
	case 0, 1:
		return Tie{}, &TieError{"tie-few", "one tape fixes no place", "tape from a second mark"}
	case 2:
		return twoTapes(tapes[0], tapes[1], side)
	}
	return manyTapes(tapes, side)
}

// twoTapes intersects two circles.
func twoTapes(a, b Tape, side Side) (Tie, error) {
	if side == SideUnknown {
		return Tie{}, &TieError{"tie-side", "two tapes leave two places", "say on which side of the line from the first mark to the second it lies: left or right"}
	}
	c := math.Hypot(b.From[0]-a.From[0], b.From[1]-a.From[1])
	if !(c > 0) {
		return Tie{}, &TieError{"tie-marks-together", "both tapes are from one place", "tape from two different marks"}
	}
	x := (a.Length*a.Length - b.Length*b.Length + c*c) / (2 * c)
	y2 := (a.Length - x) * (a.Length + x)
	if y2 < 0 {
		return missed(a, b, c, x, y2)
	}
	y := math.Sqrt(y2)
	tie := Tie{Angle: cut(a.Length, b.Length, c)}
	if err := angleError(tie.Angle); err != nil {
		return tie, err
	}
	tie.SigmaX = math.Hypot(a.Length*a.Sigma, b.Length*b.Sigma) / c
	tie.SigmaY = math.Hypot(a.Length/y*(1-x/c)*a.Sigma, b.Length/y*x/c*b.Sigma)
	tie.Sigma = math.Hypot(tie.SigmaX, tie.SigmaY)
	if side == RightSide {
		y = -y
	}
	tie.At, _ = Offset(a.From, b.From, x, y)
	return tie, nil
}

// missed judges two tapes that do not meet: a miss of two standard deviations
// is taken for the error of the tapes.
func missed(a, b Tape, c, x, y2 float64) (Tie, error) {
	if y2 > -2*a.Sigma*a.Length {
		tie := Tie{OnLine: true, Angle: math.Pi}
		if math.Abs(a.Length-b.Length) > c {
			tie.Angle = 0
		}
		tie.At, _ = Offset(a.From, b.From, x, 0)
		tie.SigmaX = math.Hypot(a.Length*a.Sigma, b.Length*b.Sigma) / c
		// So far from the line the tapes could not tell it from the line.
		tie.SigmaY = math.Sqrt(2 * a.Sigma * a.Length)
		tie.Sigma = math.Hypot(tie.SigmaX, tie.SigmaY)
		return tie, nil
	}
	if a.Length+b.Length < c {
		return Tie{}, &TieError{"tie-too-short", fmt.Sprintf("the tapes of %.2f m and %.2f m do not meet: the marks are %.2f m apart", a.Length, b.Length, c), "measure again, or check the places of the marks"}
	}
	return Tie{}, &TieError{"tie-too-long", fmt.Sprintf("the tapes of %.2f m and %.2f m differ by more than the %.2f m between the marks", a.Length, b.Length, c), "measure again, or check the places of the marks"}
}

// cut is the angle at which two tapes meet, by the law of cosines.
func cut(a, b, c float64) float64 {
	return math.Acos(max(-1, min(1, (a*a+b*b-c*c)/(2*a*b))))
}

func angleError(angle float64) error {
	if angle >= leastCut-1e-9 && angle <= mostCut+1e-9 {
		return nil
	}
	return &TieError{"tie-angle", fmt.Sprintf("the tapes meet at %.0f degrees, which fixes the place too poorly", degrees(angle)), "tape from marks where they meet at 30 to 150 degrees, or add a third tape"}
}
