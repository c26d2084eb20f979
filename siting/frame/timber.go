package frame

import "math"

// Grade is a strength class of softwood. Stresses and stiffness N/mm2.
type Grade struct {
	Word                       string
	Bending                    float64 // characteristic bending strength
	Stiffness, LeastStiffness  float64 // modulus of elasticity along the grain: mean, 5th percentile
	Density, LeastDensity      float64 // kg/m3: mean, 5th percentile
	Tension, Compression, Side float64 // along the grain, along the grain, across the grain
	Shear                      float64
}

// Grades lists softwood classes of EN 338:2016, Table 1.
func Grades() []Grade {
	return []Grade{
		{"C14", 14, 7000, 4700, 350, 290, 7.2, 16, 2.0, 3.0},
		{"C16", 16, 8000, 5400, 370, 310, 8.5, 17, 2.2, 3.2},
		{"C18", 18, 9000, 6000, 380, 320, 10.0, 18, 2.2, 3.4},
		{"C20", 20, 9500, 6400, 400, 330, 11.5, 19, 2.3, 3.6},
		{"C24", 24, 11000, 7400, 420, 350, 14.5, 21, 2.5, 4.0},
		{"C30", 30, 12000, 8000, 460, 380, 19.0, 24, 2.7, 4.0},
	}
}

// Ungraded is the strength taken for boards and pegs sold without a grade: the
// lowest class of EN 338, a default of ours.
func Ungraded() Grade { return Grades()[0] }

// Factors for solid timber outdoors (service class 3): EN 1995-1-1 Tables 3.1,
// 2.3 and, for creep, 3.2 (from memory).
const (
	permanentOutdoors = 0.50 // load that never goes away
	shortOutdoors     = 0.70 // load of days
	materialFactor    = 1.3
	creepOutdoors     = 2.0
	loadFactor        = 1.35 // on permanent load, EN 1990 (from memory)
)

// PermanentBending is the design bending strength outdoors under a load that
// never goes away, N/mm2.
func (g Grade) PermanentBending() float64 { return permanentOutdoors * g.Bending / materialFactor }

// ShortBending is the design bending strength outdoors for a load of days.
func (g Grade) ShortBending() float64 { return shortOutdoors * g.Bending / materialFactor }

// Beam holds the coefficients of a board over equal spans l under a line load
// w: greatest moment Moment w l^2, sag Sag w l^4/(E I), reactions at the ends
// End w l and at the most loaded inner peg Inner w l. Structural handbooks,
// from memory.
type Beam struct {
	Spans                   int
	Moment, Sag, End, Inner float64
}

// BeamOver is the beam over n spans, n at least 1; from 4 spans on it changes
// no more.
func BeamOver(n int) Beam {
	switch {
	case n <= 1:
		return Beam{1, 1.0 / 8, 5.0 / 384, 0.5, 0}
	case n == 2:
		return Beam{2, 1.0 / 8, 1 / 184.6, 0.375, 1.25}
	case n == 3:
		return Beam{3, 0.100, 0.00688, 0.40, 1.10}
	}
	return Beam{n, 0.107, 0.0065, 0.393, 1.143}
}

// Board is the section of a board that stands on edge and bends sideways.
type Board struct{ Height, Thickness float64 } // m

// Modulus is the section modulus about the upright axis, m3.
func (b Board) Modulus() float64 { return b.Height * sq(b.Thickness) / 6 }

// Inertia is the second moment of area about the upright axis, m4.
func (b Board) Inertia() float64 { return b.Height * math.Pow(b.Thickness, 3) / 12 }

// Stress is the design bending stress, N/mm2, under a line load w (kN/m) over
// spans of l metres, load factor 1.35 included.
func (b Board) Stress(beam Beam, w, l float64) float64 {
	return loadFactor * beam.Moment * w * l * l / b.Modulus() / 1000
}

// Deflection is the sag under w over spans l, m: at once, and in the end with
// creep (1 + 2.0, EN 1995-1-1 Table 3.2).
func (b Board) Deflection(beam Beam, w, l float64, g Grade) (first, final float64) {
	first = beam.Sag * w * math.Pow(l, 4) / (g.Stiffness * 1000 * b.Inertia())
	return first, first * (1 + creepOutdoors)
}

// LongestSpan is the spacing of pegs, m, at which the stress under w reaches
// the strength (N/mm2).
func (b Board) LongestSpan(beam Beam, w, strength float64) float64 {
	return math.Sqrt(strength * 1000 * b.Modulus() / (loadFactor * beam.Moment * w))
}

// thinnest is the thickness at which a board of that height just carries w.
func thinnest(height float64, beam Beam, w, l, strength float64) float64 {
	return math.Sqrt(6 * loadFactor * beam.Moment * w * l * l / (height * strength * 1000))
}

// pegBending is the design moment of a square peg, kNm.
func pegBending(size float64, g Grade) float64 {
	return g.PermanentBending() * 1000 * math.Pow(size, 3) / 6
}
