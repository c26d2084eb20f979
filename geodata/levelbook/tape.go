package levelbook

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// SlopeTape is the plan length of a tape of some length whose ends differ in
// height by rise, metres, by Pythagoras. The short form length less
// rise²/(2 length) of the texts (U.S. Navy, Engineering Aid Basic) is 13 mm out
// in 10 m at 1 in 3 and is not used.
func SlopeTape(length, rise float64) (float64, error) {
	if !(length > math.Abs(rise)) || math.IsInf(length, 0) {
		return 0, fmt.Errorf("a tape of %.3f m cannot span a rise of %.3f m", length, rise)
	}
	return math.Sqrt((length - rise) * (length + rise)), nil
}

// SlopeTapeAngle is the plan length of a tape of some length, metres, at an
// angle to the level, radians.
func SlopeTapeAngle(length, angle float64) float64 { return length * math.Cos(angle) }

// Pace is the length of one pace, metres, from a number of paces over a taped
// length (FAO Training Series 16/1, chapter 2: 100 steps on level ground; paces
// shorten uphill and are calibrated apart). A pace is 0.3 to 1.5 m.
func Pace(length, paces float64) (float64, error) {
	if p := length / paces; p >= 0.3 && p <= 1.5 {
		return p, nil
	}
	return 0, fmt.Errorf("%.2f m in %g paces is no pace of a person", length, paces)
}

// paceSigma is the error of a paced distance as a part of it: 1 to 2 m in 100 m
// (FAO Training Series 16/1, table 1).
const paceSigma = 0.02

// The error of a taped distance: 10 mm (common practice), and 0.05 m in 100 m
// for long ones (FAO Training Series 16/1, table 1).
const (
	tapeSigma    = 0.010
	tapeSigmaPer = 0.0005
)

// TapeSigma is the standard deviation of a taped distance, metres.
func TapeSigma(length float64) float64 { return math.Hypot(tapeSigma, tapeSigmaPer*length) }

// squareSigma is the error of a right angle set out by eye from a tape,
// radians: 1 degree (default of ours).
const squareSigma = math.Pi / 180

// longestOffset is the longest offset that is taken without a warning, metres
// (common practice 10 to 15 m).
const longestOffset = 15

// Offset is the place at a chainage along the line from a to b and an offset
// square to it, positive to the left, negative to the right, metres. ok is
// false when a and b are one place.
func Offset(a, b orb.Point, chainage, offset float64) (p orb.Point, ok bool) {
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	if !(length > 0) {
		return orb.Point{}, false
	}
	tx, ty := (b[0]-a[0])/length, (b[1]-a[1])/length
	return orb.Point{a[0] + chainage*tx - offset*ty, a[1] + chainage*ty + offset*tx}, true
}

// BearingDistance is the place at a bearing, radians clockwise from the +y
// axis, and a plan distance, metres, from a place.
func BearingDistance(from orb.Point, bearing, distance float64) orb.Point {
	sin, cos := math.Sincos(bearing)
	return orb.Point{from[0] + distance*sin, from[1] + distance*cos}
}
