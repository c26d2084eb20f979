package soil

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Curve numbers of ground of groups A to D in the average state: TR-55 (1986),
// tables 2-2a to 2-2c. Turf: open space in good condition. Rough grass: meadow.
// Bare: fallow. Dug: row crops in straight rows, good.
var curveNumbers = map[string][4]float64{
	"turf":        {39, 61, 74, 80},
	"rough grass": {30, 58, 71, 78},
	"bare":        {77, 86, 91, 94},
	"dug":         {67, 78, 85, 89},
}

// SealedNumber is the curve number of roofs, paving and sheets (TR-55, 1986,
// table 2-2a).
const SealedNumber = 98

// CurveNumber is that of a cover on a soil group in the average state; ok is
// false for another cover than turf, rough grass, bare and dug.
func CurveNumber(cover string, g Group) (number float64, ok bool) {
	row, ok := curveNumbers[cover]
	if !ok || g < GroupA || g > GroupD {
		return 0, false
	}
	return row[g-GroupA], true
}

// WetNumber is the curve number of the same ground when it is wet, as in
// winter: 23 CN / (10 + 0.13 CN), Chow, Maidment & Mays 1988, Applied Hydrology,
// chapter 5. It follows the table of the National Engineering Handbook, section
// 4 (75 gives 88 there, 87.3 here); a list in circulation since 1982 prints up to
// 3 more.
func WetNumber(number float64) float64 { return 23 * number / (10 + 0.13*number) }

// The curve numbers that the method holds for.
const (
	leastNumber = 30
	mostNumber  = 98
)

// Runoff is the depth, mm, that runs off ground of a curve number in a storm or
// a day of rain (mm), once the first part of it, loss times the greatest
// storage, has been held back: (P - l S)^2 / (P + (1-l) S) with S = 25400/CN -
// 254 and l 0.2 (TR-55, 1986, equations 2-1 to 2-4). Numbers outside 30 to 98 are
// brought within.
func Runoff(rain, number float64) float64 {
	s := storage(number)
	return excess(rain, s, 0.2)
}

// RunoffEarly is the same with a twentieth held back in place of a fifth and
// the storage that goes with it, S05 = 1.33 S^1.15 in inches (Hawkins, Ward,
// Woodward & Van Mullem 2009, Curve Number Hydrology, from memory): it lets small
// storms run off sooner.
func RunoffEarly(rain, number float64) float64 {
	const inch = 25.4
	s := 1.33 * math.Pow(storage(number)/inch, 1.15) * inch
	return excess(rain, s, 0.05)
}

func storage(number float64) float64 {
	return 25400/math.Max(leastNumber, math.Min(mostNumber, number)) - 254
}

func excess(rain, storage, share float64) float64 {
	if held := share * storage; rain > held {
		return (rain - held) * (rain - held) / (rain + (1-share)*storage)
	}
	return 0
}

// leastRunoff is the depth, mm, under which the method is unreliable (TR-55,
// 1986: half an inch, from memory).
const leastRunoff = 12

// DayRunoff is what runs off wet winter ground of a cover in a day of rain (mm).
// The band takes the ends of the rain's, the next better and the next worse soil
// group, and at its upper end the rule that lets small storms run off sooner. A
// texture that is not known counts as group C from B to D. told is false, and
// said tells why, where under 12 mm run off: the method says little or nothing
// there.
func DayRunoff(rain geodata.Estimate, cover string, t Texture) (e geodata.Estimate, said string, told bool) {
	e = dayDepth(rain, cover, t)
	if e.Value < leastRunoff {
		return geodata.Estimate{}, littleSaid(e), false
	}
	group := groupOrC(t)
	return e, fmt.Sprintf("curve number %.0f, wet ground of group %c", wetNumberOf(cover, group), group), true
}

// dayDepth is what runs off unsealed ground, however little.
func dayDepth(rain geodata.Estimate, cover string, t Texture) geodata.Estimate {
	group := groupOrC(t)
	better, worse := wetNumberOf(cover, group-1), wetNumberOf(cover, group+1)
	e := geodata.Estimate{
		Value: Runoff(rain.Value, wetNumberOf(cover, group)),
		Low:   Runoff(rain.Low, better),
		High:  math.Max(Runoff(rain.High, worse), RunoffEarly(rain.High, worse)),
	}
	e.Low = math.Min(e.Low, e.Value)
	return e
}

// groupOrC is the group of a texture, C where it is not known.
func groupOrC(t Texture) Group {
	if t == "" {
		return GroupC
	}
	return GroupOf(t)
}

// wetNumberOf is the wet curve number of a cover, turf where it is not known, on
// a group brought within A to D.
func wetNumberOf(cover string, g Group) float64 {
	if _, ok := curveNumbers[cover]; !ok {
		cover = "turf"
	}
	n, _ := CurveNumber(cover, max(GroupA, min(GroupD, g)))
	return WetNumber(n)
}

func littleSaid(e geodata.Estimate) string {
	return fmt.Sprintf("little or none, no more than %.0f mm: too little for the method to tell", math.Ceil(e.High))
}
