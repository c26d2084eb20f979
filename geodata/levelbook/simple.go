package levelbook

import (
	"fmt"
	"math"
)

// Rise is a height difference with its standard deviation, metres; Plan is the
// plan distance that goes with it, 0 when the method gives none.
type Rise struct {
	Rise  float64 `json:"rise"`
	Sigma float64 `json:"sigma"`
	Plan  float64 `json:"plan,omitempty"`
}

// WaterTube is the height of the second foot above the first from the staff
// readings of the water surface above each, metres: the water stands level, so
// a lower reading means higher ground (common practice). A bubble in the hose
// shifts a reading by its height; sun on one leg by WaterTubeWarmth.
func WaterTube(first, second float64) Rise { return Rise{first - second, waterTubeSigma, 0} }

// expansionOfWater is the volume expansion of water near 20 degrees, 1/K (from
// memory).
const expansionOfWater = 2.1e-4

// WaterTubeWarmth is the error, metres, of a water tube whose legs of a height,
// metres, differ in temperature by some kelvins.
func WaterTubeWarmth(height, kelvins float64) float64 { return height * expansionOfWater * kelvins }

// LineLevel is the height of the second foot above the first from the heights
// of the level string above each, metres, over one span (FAO, Irrigation Water
// Management, U3160E, appendix A.1: a string of 8 m with the level at its
// middle). Reversing the level on the string and taking the mean removes the
// error of its bubble.
func LineLevel(first, second float64) Rise { return Rise{first - second, lineLevelSigma, 0} }

// LineLevelOff is the error, metres, of a line level that hangs off the middle
// of the span, metres, on a string that sags by sag: 8 s u / L, from the slope
// of the parabola there.
func LineLevelOff(sag, off, span float64) float64 { return 8 * sag * off / span }

// AFrame is the height of the second foot above the first from the blocks put
// under each foot to bring the frame level, metres, summed over some steps, at
// least 1. The error grows with the root of the steps when the frame is turned
// end for end at every step; otherwise its own error adds up with every step
// (common practice).
func AFrame(first, second float64, steps int) Rise {
	return Rise{first - second, aFrameSigma * math.Sqrt(float64(max(steps, 1))), 0}
}

// Standard deviation of an angle read with a hand-held clinometer or Abney
// level: half a degree (common practice).
const clinometerSigma = 0.5 * math.Pi / 180

// Clinometer is the height of a point above the foot of the observer and its
// plan distance, from the distance along the line of sight (metres), the angle
// (radians, positive upwards), the height of the eye and of the target above
// the ground (metres), and the standard deviations of distance and angle; 0 for
// the angle's means half a degree. The variance follows by propagation.
func Clinometer(slope, angle, eye, target, slopeSigma, angleSigma float64) (Rise, error) {
	if !(slope > 0) || !(math.Abs(angle) < steepest) {
		return Rise{}, fmt.Errorf("a clinometer needs a distance over 0 and an angle under 60 degrees, not %.2f m and %.1f degrees", slope, degrees(angle))
	}
	if angleSigma == 0 {
		angleSigma = clinometerSigma
	}
	sin, cos := math.Sincos(angle)
	return Rise{
		Rise:  slope*sin + eye - target,
		Sigma: math.Hypot(sin*slopeSigma, slope*cos*angleSigma),
		Plan:  slope * cos,
	}, nil
}

// steepest is the steepest sight taken with a clinometer, radians (default of
// ours: beyond it the plan distance is too poor).
const steepest = 60 * math.Pi / 180

// BothWays is the angle and the index error of a clinometer from sights there
// and back, radians: half the difference and half the sum.
func BothWays(there, back float64) (angle, index float64) {
	return (there - back) / 2, (there + back) / 2
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }
func radians(degrees float64) float64 { return degrees * math.Pi / 180 }
