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

// uptake is how much of a depth of water d ground takes up while it could take up
// kt by its conductivity alone, m, having taken up f so far: the root of
//
//	x - s ln(1 + x/(f+s)) = kt,  s = suction times deficit,
//
// and at most d. The logarithm is expanded to its second power where x is small
// beside f+s, and the whole is solved by Newton's method where it is not.
func uptake(kt, s, f, d float64) float64 {
	fs := f + s
	// the expansion gives more than the left side, so this cannot be mistaken
	if d <= kt || d*(f*fs+s*d/2) <= kt*fs*fs {
		return d
	}
	return min(d, canTake(kt, s, f, fs))
}

// canTake is the root itself.
func canTake(kt, s, f, fs float64) float64 {
	if s <= 0 {
		return kt
	}
	// x f/(f+s) + s x²/(2(f+s)²) = kt
	x := 2 * kt * fs / (f + math.Sqrt(f*f+2*s*kt))
	if x <= 0.001*fs {
		return x
	}
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
