package stormflow

import "math"

// Shape is the share of a storm's rain that has fallen by a share of its time.
type Shape func(time float64) float64

// Steady rain falls at one rate.
func Steady(time float64) float64 { return clamp(time) }

// Triangular rain rises to twice its mean in the middle and falls again.
func Triangular(time float64) float64 {
	t := clamp(time)
	if t <= 0.5 {
		return 2 * t * t
	}
	return 1 - 2*(1-t)*(1-t)
}

// Peaked is a profile of the Flood Studies Report (1975; Flood Estimation
// Handbook, volume 2; from memory): in the central share x of the time falls
//
//	(1 - a^z)/(1 - a),  z = x^b,
//
// of the rain. a lies over 0 and under 1, b over 0.
func Peaked(a, b float64) Shape {
	central := func(x float64) float64 { return (1 - math.Pow(a, math.Pow(x, b))) / (1 - a) }
	return func(time float64) float64 {
		if t := clamp(time); t < 0.5 {
			return (1 - central(1-2*t)) / 2
		} else {
			return (1 + central(2*t-1)) / 2
		}
	}
}

// WinterProfile is more peaked than three in four winter storms, SummerProfile
// than half the summer ones.
var (
	WinterProfile = Peaked(0.060, 1.026)
	SummerProfile = Peaked(0.100, 0.815)
)

// Hyetograph lays a depth of rain, m, out over a duration, s, in n steps.
func Hyetograph(shape Shape, depth, duration float64, n int) Series {
	s := Series{Step: duration / float64(n), Rates: make([]float64, n)}
	for i := range s.Rates {
		s.Rates[i] = depth * (shape(float64(i+1)/float64(n)) - shape(float64(i)/float64(n))) / s.Step
	}
	return s
}

func clamp(t float64) float64 { return math.Max(0, math.Min(1, t)) }
