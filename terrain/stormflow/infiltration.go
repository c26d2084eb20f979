package stormflow

import "math"

// GreenAmpt is how ground takes up water that stands or runs on it (Green & Ampt
// 1911; Mein & Larson 1973, Water Resources Research 9:384-394): a sharp wetting
// front, drawn by suction. The zero value takes up nothing.
type GreenAmpt struct {
	Conductivity float64 // m/s, 0 or more
	Suction      float64 // at the wetting front, m of water, 0 or more
	Deficit      float64 // water content that the front fills, 0 to 1
}

// pull is suction times deficit, m.
func (g GreenAmpt) pull() float64 { return g.Suction * g.Deficit }

// uptake is how much water ground that has taken up f so far can take up in dt
// seconds, m: the root of
//
//	x - s ln(1 + x/(f+s)) = k dt,  s = suction times deficit,
//
// in which the logarithm is expanded to its second power where x is small beside
// f+s, and the whole is solved by Newton's method where it is not.
func uptake(k, s, f, dt float64) float64 {
	kt := k * dt
	if s <= 0 {
		return kt
	}
	// x f/(f+s) + s x²/(2(f+s)²) = k dt
	fs := f + s
	x := 2 * kt * fs / (f + math.Sqrt(f*f+2*s*kt))
	if x <= 0.01*fs {
		// the third power of the expansion, as a correction
		return x + s*x*x*x/(3*fs*fs)/(f+s*x/fs)
	}
	for range 30 {
		// the left side curves upward, so from its far side it falls to the root
		d := (x - s*math.Log1p(x/fs) - kt) / (1 - s/(fs+x))
		x -= d
		if math.Abs(d) <= 1e-15*x {
			break
		}
	}
	return math.Max(x, kt)
}
