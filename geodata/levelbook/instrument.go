package levelbook

import (
	"math"
	"strings"
)

// Instrument is what height differences were measured with.
type Instrument string

// The instruments of a level book and of height ties.
const (
	ByLevel      Instrument = "builders' level"
	ByWaterTube  Instrument = "water tube"
	ByLineLevel  Instrument = "line level"
	ByAFrame     Instrument = "A-frame"
	ByClinometer Instrument = "clinometer"
	// TwoPegTest marks the stands of a test of the level; see Reduce.
	TwoPegTest Instrument = "two-peg test"
)

// Standard deviations of one height difference, metres. Common practice, no
// source; of each range the unfavourable end is taken, since a grower's first
// book is meant:
// builders' level and hand-held staff 2 to 3 mm a reading, two readings a
// difference; water tube 3 to 5 mm; line level 10 mm a span untrained (3 to
// 5 mm when the level is reversed on the string); A-frame of 2 m 5 to 10 mm a
// step.
const (
	levelReadingSigma = 0.003
	waterTubeSigma    = 0.005
	lineLevelSigma    = 0.010
	aFrameSigma       = 0.010
)

// DefaultGroundSigma is the standard deviation of the height of the ground
// under a staff's foot, metres: the staff put down a hand's breadth away would
// read so much differently (default of ours).
const DefaultGroundSigma = 0.010

// Allowances for a misclosure, metres for one set-up; they grow with the root
// of the number of set-ups. Common practice, no source: 5 mm for a builders'
// level, 10 mm for a line level or water tube, 20 mm for an A-frame.
const (
	levelAllowance  = 0.005
	stringAllowance = 0.010
	aFrameAllowance = 0.020
)

// SetupSigma is the default standard deviation, metres, of the height
// difference measured in one set-up (span, step). It is 0 for the clinometer,
// whose error depends on the sight.
func (i Instrument) SetupSigma() float64 {
	switch i {
	case ByWaterTube:
		return waterTubeSigma
	case ByLineLevel:
		return lineLevelSigma
	case ByAFrame:
		return aFrameSigma
	case ByClinometer:
		return 0
	}
	return levelReadingSigma * math.Sqrt2
}

// Allowance is the default misclosure, metres, that is put up with in one
// set-up.
func (i Instrument) Allowance() float64 {
	switch i {
	case ByWaterTube, ByLineLevel:
		return stringAllowance
	case ByAFrame, ByClinometer:
		return aFrameAllowance
	}
	return levelAllowance
}

// InstrumentNamed finds an instrument by the words that people write, whatever
// their case.
func InstrumentNamed(words string) (Instrument, bool) {
	switch plainWords(words) {
	case "level", "builders level", "builder's level", "builders' level", "automatic level", "dumpy level", "staff and level", "level and staff":
		return ByLevel, true
	case "water tube", "water level", "hose", "hose level", "water tube level":
		return ByWaterTube, true
	case "line level", "string level", "string line":
		return ByLineLevel, true
	case "a frame", "aframe":
		return ByAFrame, true
	case "clinometer", "abney", "abney level":
		return ByClinometer, true
	case "two peg test", "two peg", "peg test":
		return TwoPegTest, true
	}
	return "", false
}

// plainWords brings words to lower case, parted by single blanks, with hyphens
// and underscores as blanks and curly quotes straight.
func plainWords(text string) string {
	text = strings.NewReplacer("-", " ", "_", " ", "\u2019", "'", "\u2018", "'", "\u2011", " ").Replace(strings.ToLower(text))
	return strings.Join(strings.Fields(text), " ")
}

// nameKey is what two spellings of one station have in common.
func nameKey(name string) string {
	return strings.Join(strings.Fields(strings.ToLower(name)), " ")
}
