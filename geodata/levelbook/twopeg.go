package levelbook

import "math"

// PegTest is the outcome of a two-peg test. Heights are metres.
type PegTest struct {
	True     float64 `json:"true"`     // height of the second peg above the first
	Apparent float64 `json:"apparent"` // the same from unequal sights
	E        float64 `json:"e"`        // rise of the line of sight, metres in a metre; negative when it dips
}

// TwoPeg finds the error of collimation of a level. a1 and b1 are the readings
// on two pegs from half way between them, where the error cancels; a2 and b2
// those from a stand at the distances da and db from the pegs, metres, on their
// line. The distances must differ by a metre at least; ok is false when they do
// not. This is the two-peg test of the surveying texts (common practice).
func TwoPeg(a1, b1, a2, b2, da, db float64) (test PegTest, ok bool) {
	if !(math.Abs(da-db) >= 1) {
		return PegTest{}, false
	}
	test = PegTest{True: a1 - b1, Apparent: a2 - b2}
	test.E = (test.Apparent - test.True) / (da - db)
	return test, true
}

// Corrected is a reading, metres, freed from the error of collimation over the
// length of sight, metres. With equal sights back and fore it cancels anyway.
func (p PegTest) Corrected(reading, length float64) float64 { return reading - p.E*length }
