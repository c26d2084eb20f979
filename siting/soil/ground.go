// Package soil says what ground and fill are worth: the words a person can
// choose by touch, the strengths and weights that stand behind each word, and
// where those come from.
//
// Strengths are kilopascals, unit weights kilonewtons per cubic metre, angles
// radians. The strengths are defaults of ours for the wettest month; a band
// goes with each, because a thumb is not a vane.
package soil

import "math"

// DefaultWord is the ground word used when nothing was said.
const DefaultWord = "soft wet turf topsoil"

// Ground is what pegs and sunken edges push against.
type Ground struct {
	Word string
	// Clay is true where wet strength is undrained shear strength, false where
	// it is friction.
	Clay bool
	// Undrained shear strength in the wettest month with its band, kPa; 0 in sand.
	Undrained, UndrainedLow, UndrainedHigh float64
	// Friction angle with its band, radians.
	FrictionAngle, FrictionLow, FrictionHigh float64
	// UnitWeight is what presses on the grains at peg depth, kN/m3: buoyant in
	// ground that stands full of water in winter, bulk in ground that drains.
	UnitWeight float64
	// Creep is Lane's weighted creep ratio: the creep path under a board, in
	// times the head of water behind it, that keeps water from washing grains
	// out (Lane 1935, Security from under-seepage, ASCE Transactions 100). The
	// cautious end for the word; topsoil is taken as silt.
	Creep     float64
	FieldTest string // what a thumb or a heel does in the wettest month
	Source    string
}

const (
	feltSource = "field words after BS 5930 (finger and thumb tests); " +
		"strength bands under 20, 20 to 40, 40 to 75 kPa as in CP 2004, from memory; strength for the word is a default of ours"
	sandSource = "friction angle and unit weight: defaults of ours in the usual range for the word; band 2 degrees each way, a default of ours"
)

// grounds are in order of the words shown to people. All strengths are
// defaults of ours for the wettest month of the year.
var grounds = []Ground{
	clay("very soft wet topsoil", 7.5, 5, 10, 26, 8, 8.5,
		"dug or boggy: a finger pushes in 25 mm or more with no effort"),
	clay(DefaultWord, 15, 10, 20, 28, 8, 8.5,
		"under turf: a finger pushes in about 10 mm, a heel leaves a clear print"),
	clay("firm turf or clay subsoil", 40, 30, 50, 28, 9, 3.0,
		"a thumb leaves a mark when pressed, but cannot be pushed in"),
	sand("loose sandy soil", 30, 16, 7.0,
		"gritty, never sticky, drained: a 12 mm bar is pushed in by hand"),
	sand("medium dense sand or gravel", 34, 18, 5.0,
		"gritty, drained: a 12 mm bar has to be knocked in"),
}

func clay(word string, cu, low, high, friction, weight, creep float64, test string) Ground {
	return Ground{
		Word: word, Clay: true, Undrained: cu, UndrainedLow: low, UndrainedHigh: high,
		FrictionAngle: radians(friction), FrictionLow: radians(friction - 2), FrictionHigh: radians(friction + 2),
		UnitWeight: weight, Creep: creep, FieldTest: test, Source: feltSource,
	}
}

func sand(word string, friction, weight, creep float64, test string) Ground {
	return Ground{
		Word: word, FrictionAngle: radians(friction),
		FrictionLow: radians(friction - 2), FrictionHigh: radians(friction + 2),
		UnitWeight: weight, Creep: creep, FieldTest: test, Source: sandSource,
	}
}

// Named is the ground of a word, exactly as Words gives it.
func Named(word string) (Ground, bool) {
	for _, g := range grounds {
		if g.Word == word {
			return g, true
		}
	}
	return Ground{}, false
}

// Words lists the ground words, softest first, then the sands.
func Words() []string {
	words := make([]string, len(grounds))
	for i, g := range grounds {
		words[i] = g.Word
	}
	return words
}

// Weak is the ground at the low end of its band.
func (g Ground) Weak() Ground {
	g.Undrained, g.FrictionAngle = g.UndrainedLow, g.FrictionLow
	return g
}

// Strong is the ground at the high end of its band.
func (g Ground) Strong() Ground {
	g.Undrained, g.FrictionAngle = g.UndrainedHigh, g.FrictionHigh
	return g
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }
